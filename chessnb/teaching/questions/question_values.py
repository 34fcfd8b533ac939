"""A question as a value: what is asked, what is right and how that is known, the hints.

A question is made by the function of its kind, which proves what is right
before it asks.  What is right is in the value, and in nothing that it shows:
its record, its card and its ``str`` hold the question alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.naming import to_move
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.errors import ChessnbError, as_given, cut_short
from chessnb.findings import Finding, Record
from chessnb.findings.seal import fingerprint
from chessnb.notation import write_line
from chessnb.proof import Goal
from chessnb.verdicts.depth import USUAL, Depth

Sort = Literal["area", "piece", "idea", "first move"]
"""What a hint tells: where to look, what to look at, what happens, how it begins."""

SORTS: tuple[Sort, ...] = ("area", "piece", "idea", "first move")
"""In the order in which hints are given."""

Result = Literal["right", "part", "wrong", "not proved"]
"""What an answer is: right; right in part; wrong, with what shows it; none of these is proved."""


class QuestionError(ChessnbError, ValueError):
    """A question cannot be asked as it stands: its answer is wrong, or nobody could grade it.

    Attributes
    ----------
    reason : str
        What is wrong, in words.
    fen : str
        The position.
    moves : tuple of chess.Move
        Moves from the position that show it, where moves can.
    """

    def __init__(
        self, reason: str, *, board: chess.Board, moves: Sequence[chess.Move] = ()
    ) -> None:
        super().__init__(f"{reason} [{board.fen()}]")
        self.reason = reason
        self.fen = board.fen()
        self.moves = tuple(moves)


class AnswerError(ChessnbError, ValueError):
    """An answer cannot be read; it is not counted, and may be given again.

    Attributes
    ----------
    given : object
        What came.
    reason : str
        Why it cannot be read, and how an answer is written.
    """

    def __init__(self, reason: str, *, given: object) -> None:
        shown = repr(cut_short(given)) if isinstance(given, str) else as_given(given)
        super().__init__(f"{shown}: {reason}")
        self.given = given
        self.reason = reason


@dataclass(frozen=True, kw_only=True)
class Hint:
    """A hint, as it is said."""

    sort: Sort
    text: str


@dataclass(frozen=True, kw_only=True)
class Right:
    """A right answer.

    Attributes
    ----------
    key : str
        What it is compared by: a move in UCI, a square, a word.
    text : str
        The answer as it is written.
    sentence : str
        Why it is right, as a sentence.
    line : tuple of chess.Move
        Moves from the position that show it.
    marks : tuple of Mark
        What is drawn to show it, in the position itself.
    """

    key: str
    text: str
    sentence: str = ""
    line: tuple[chess.Move, ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Question(Finding):
    """A question about a position, whose right answers are proved.

    Attributes
    ----------
    kind : str
        What sort of question it is; see :func:`chessnb.questions.names`.
    start : str
        FEN of the position from which the moves that are known begin.
    led : tuple of chess.Move
        The moves from there to the position that is asked about.
    place : str
        Where it stands, as a record has it.
    prompt : str
        The question in words.
    right : tuple of Right
        What is right; where `every` is set, all of them are wanted.
    every : bool
        Whether all right answers are wanted, and not one of them.
    also : tuple of Right
        What is neither wanted nor wrong.
    about : str
        What it is about: a square, a move, a claim; empty for the whole position.
    side : chess.Color
        The side whose moves or pieces are asked for.
    goal : Goal or None
        What a move must reach, where one is sought.
    depth : Depth
        How far answers are looked into.
    hints : tuple of Hint
        The hints, the gentlest first.
    points : int
        What a right answer earns.
    status : str
        How it is known what is right, as a record has it.
    """

    kind: str
    start: str
    led: tuple[chess.Move, ...] = ()
    place: str
    prompt: str
    right: tuple[Right, ...]
    every: bool = False
    also: tuple[Right, ...] = ()
    about: str = ""
    side: chess.Color
    goal: Goal | None = None
    depth: Depth = USUAL
    hints: tuple[Hint, ...] = ()
    points: int = 1
    status: str = "rules"

    @property
    def board(self) -> chess.Board:
        """The position, with the moves that led to it; a board of the caller's own."""
        board = chess.Board(self.start)
        for move in self.led:
            board.push(move)
        return board

    @property
    def fen(self) -> str:
        """The position as a FEN."""
        return self.board.fen()

    @property
    def key(self) -> str:
        """A short name that is the same for the same question, in every run."""
        parts = (self.kind, self.fen, self.about, str(self.side), self.prompt)
        return fingerprint("\n".join(parts))

    @property
    def record(self) -> Record:
        """The question, without an answer; how many there are, where the rules say so."""
        fields = [self.kind]
        if self.every and self.status == "rules":
            fields.append(f"answers {len(self.right)}")
        fields.append(f"{self.points} points")
        return Record(place=self.place, kind="question", fields=tuple(fields), status=self.status)

    @property
    def words(self) -> str:
        """The question."""
        return self.prompt

    @property
    def picture(self) -> Diagram:
        """The position, without a mark that would tell the answer."""
        board = self.board
        last = board.peek() if board.move_stack and board.peek() else None
        return diagram(board, last_move=last, caption=to_move(board))

    @property
    def solution(self) -> str:
        """What is right, in words: for the teacher, and for whoever has tried."""
        if not self.right:
            return "None."
        told = [one.sentence or f"{one.text}." for one in self.right]
        return " ".join(told)

    def _repr_pretty_(self, printer: object, cycle: bool) -> None:
        # IPython would print the value itself, and the right answers with it.
        printer.text(str(self))  # type: ignore[attr-defined]


@dataclass(frozen=True, kw_only=True)
class Graded:
    """What an answer is worth, and what shows it.

    Attributes
    ----------
    result : {"right", "part", "wrong", "not proved"}
        What it is.
    credit : float
        How much of the question is answered, from 0 to 1, hints left out.
    sentence : str
        What the student is told.
    fen : str
        The position of the question.
    line : tuple of chess.Move
        Moves that show the reason; none where the marks do.
    passed : bool
        Whether the line begins with a pass: a threat is shown so.
    marks : tuple of Mark
        What is drawn to show the reason, in the position itself.
    points : int
        What the question is worth.
    hints : int
        How many hints were taken.
    """

    result: Result
    credit: float
    sentence: str
    fen: str
    line: tuple[chess.Move, ...] = ()
    passed: bool = False
    marks: tuple[Mark, ...] = ()
    points: int = 1
    hints: int = 0

    @property
    def earned(self) -> float:
        """The points that it earns: each hint takes a quarter, and never the last one."""
        kept = max(0.25, 1 - self.hints / 4)
        return round(self.points * self.credit * kept, 2)

    @property
    def written(self) -> str:
        """The line in SAN with numbers; empty if there is none."""
        return write_line(self._shown_from, self.line) if self.line else ""

    @property
    def picture(self) -> Diagram:
        """The position with the marks, or the end of the line."""
        board = self._shown_from
        for move in self.line:
            board.push(move)
        last = self.line[-1] if self.line else None
        return diagram(board, marks=() if self.line else self.marks, last_move=last)

    @property
    def _shown_from(self) -> chess.Board:
        board = chess.Board(self.fen)
        if self.passed:
            board.push(chess.Move.null())
            board.clear_stack()
        return board

    def __str__(self) -> str:
        return self.sentence if not self.line else f"{self.sentence} ({self.written})"


def graded(
    question: Question,
    result: Result,
    sentence: str,
    *,
    credit: float | None = None,
    line: Iterable[chess.Move] = (),
    marks: Iterable[Mark] = (),
    passed: bool = False,
) -> Graded:
    """Return what an answer to a question is worth."""
    usual = {"right": 1.0, "part": 0.5, "wrong": 0.0, "not proved": 0.0}
    return Graded(
        result=result,
        credit=round(usual[result] if credit is None else credit, 3),
        sentence=sentence,
        fen=question.fen,
        line=tuple(line),
        marks=tuple(marks),
        points=question.points,
        passed=passed,
    )
