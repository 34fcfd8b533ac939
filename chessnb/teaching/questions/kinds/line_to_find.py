"""Find the whole line: every move of the solver, against the best resistance.

The answer is the line with both sides' moves, or the solver's moves alone;
then the defence that holds out longest is put in between.  Each move that
still reaches the goal in time is right, and earns its part.
"""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.board.naming import counted
from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, write_line, write_move
from chessnb.proof import Mate, Proof
from chessnb.search.budget import BUDGET, Searching
from chessnb.search.prover import Outcome, proving
from chessnb.teaching.questions.answer_reader import SaidMove, read_one_move
from chessnb.teaching.questions.kinds.move_to_find import find_move
from chessnb.teaching.questions.move_goals import goal_in_words
from chessnb.teaching.questions.question_kind import Kind
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Question,
    QuestionError,
    Result,
    graded,
)

NAME = "find the line"

LONGEST = 12
"""So many moves of the solver may be asked for."""


@gathered
@checked
def find_line(
    position: Position,
    *,
    mate: int,
    right: MoveLike | Iterable[MoveLike] | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
    budget: int = BUDGET,
) -> Question:
    """Ask for a whole mate, move by move, against the best resistance.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the first move.
    mate : int
        In so many moves.
    right : str, chess.Move or several, optional
        The first move that you say is right; by default the lesson's own.
    hints, level, question, budget
        As for :func:`find_move`.

    Returns
    -------
    Question
        Worth a point for each move.

    Raises
    ------
    QuestionError
        If there is no such mate, or it is not proved.

    Examples
    --------
    >>> asked = find_line("7k/8/5K2/8/8/8/6R1/8 w - - 0 1", mate=2)
    >>> asked.prompt, asked.points
    ('White to move. White mates in two. Find the whole line.', 2)
    """
    asked = find_move(
        position, right=right, mate=mate, hints=hints, level=level, question=question, budget=budget
    )
    goal = asked.goal
    assert isinstance(goal, Mate)
    if goal.within > LONGEST:
        raise QuestionError(f"a line has {LONGEST} moves at most", board=asked.board)
    side = SIDES[asked.side]
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"{side} to move. {goal_in_words(goal, side)} Find the whole line.",
        right=asked.right,
        side=asked.side,
        goal=goal,
        hints=asked.hints,
        points=goal.within,
        status=asked.status,
    )


def _grade(question: Question, text: str, language: str) -> Searching[Graded]:
    walk = _Walk(question, _words_of(text), language)
    return (yield from walk.to_its_end())


def _words_of(text: str) -> list[str]:
    """Cut a line into its moves: at commas, at blanks; numbers of moves and dots go."""
    cleaned = text.replace("…", "...")
    if "," in cleaned or ";" in cleaned:
        parts = [part.strip() for part in cleaned.replace(";", ",").split(",")]
    else:
        parts = cleaned.split()
    words = [
        part.lstrip("0123456789. ") if part[:1].isdigit() and "." in part else part
        for part in parts
    ]
    return [word for word in words if word and not word.rstrip(".").isdigit()]


class _Walk:
    """A student's line, followed move by move."""

    def __init__(self, question: Question, words: list[str], language: str) -> None:
        self.question = question
        self.words = words
        self.language = language
        self.board = question.board
        self.line: list[chess.Move] = []
        self.found = 0
        assert isinstance(question.goal, Mate)
        self.needed = question.goal.within

    def to_its_end(self) -> Searching[Graded]:
        """Follow the line for as long as it is right."""
        if not self.words:
            raise AnswerError("write the moves, as in Qh6+ Kg8 Qg7#", given="")
        while self.words and not self.board.is_game_over(claim_draw=False):
            said = self._next()
            if said.move is None:
                return self._stopped(f"{said.text} cannot be played: {said.reason}.")
            outcome = yield from self._goes_on(said.move)
            if outcome.proof is None:
                return self._wrong(said.move, outcome)
            self._play(said.move)
            self.found += 1
            if self.board.is_checkmate():
                break
            self._defend(outcome.proof)
        if self.board.is_checkmate():
            written = write_line(self.question.board, self.line)
            return graded(self.question, "right", f"Right: {written}.", line=self.line)
        missing = "Go on: it is not mate yet."
        return self._told("part", missing)

    def _next(self) -> SaidMove:
        return read_one_move(self.board, self.words.pop(0), self.language)

    def _goes_on(self, move: chess.Move) -> Searching[Outcome]:
        goal = Mate(within=max(1, self.needed - self.found))
        return (yield from proving(self.board, goal, key=move, budget=BUDGET))

    def _play(self, move: chess.Move) -> None:
        self.board.push(move)
        self.line.append(move)

    def _defend(self, proof: Proof) -> None:
        """Play the student's reply if one is written, else the one that holds out longest."""
        if self.words:
            try:
                said = read_one_move(self.board, self.words[0], self.language)
            except AnswerError:
                said = SaidMove(text=self.words[0])
            if said.move is not None:
                self.words.pop(0)
                self._play(said.move)
                return
        self._play(proof.main_line[1])

    def _wrong(self, move: chess.Move, outcome: Outcome) -> Graded:
        san = write_move(self.board, move)
        if outcome.status == "not settled":
            result: Result = "part" if self.found else "not proved"
            line = (*self.line, move)
            return graded(
                self.question, result, f"{self._praise()}{san} is not proved either way.",
                credit=self._credit(), line=line,
            )  # fmt: skip
        left = counted(max(1, self.needed - self.found), "move")
        escape = outcome.escape or (move,)
        shown = f": {write_line(self.board, escape)}" if len(escape) > 1 else ""
        self.line += escape
        return self._stopped(f"{san} does not mate within {left}{shown}.")

    def _stopped(self, sentence: str) -> Graded:
        return self._told("part" if self.found else "wrong", sentence)

    def _told(self, result: Result, sentence: str) -> Graded:
        return graded(
            self.question,
            result,
            f"{self._praise()}{sentence}",
            credit=self._credit(),
            line=self.line,
        )

    def _praise(self) -> str:
        if not self.found:
            return ""
        one = self.found == 1
        return f"The first {'move is' if one else f'{self.found} moves are'} right. "

    def _credit(self) -> float:
        return min(self.found / self.needed, 0.9)


KIND = Kind(name=NAME, asks="every move of a mate, against the best resistance", grade=_grade)
