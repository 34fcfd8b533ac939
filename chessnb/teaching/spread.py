"""A spread: one position with what is asked about it, and what is told when it is asked for.

Here is what stands on it and in which order, as values; the still form is in
:mod:`chessnb.teaching.still_spread`, the live one in the widgets' room.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import cached_property
from itertools import islice
from typing import Any, Literal, get_args

import chess
import chess.pgn

from chessnb.board.sides import SIDES
from chessnb.board.turns import moved
from chessnb.claims import FalseClaim, UnprovedClaim
from chessnb.errors import ChessnbError, LessonError
from chessnb.lessons import Moment
from chessnb.lessons.comments import line_name, readable
from chessnb.notation import write_line
from chessnb.notation.movetext import GLYPHS
from chessnb.teaching.paragraphs import (
    Paragraph,
    Play,
    paragraphs_of,
    without_less_than_mate,
    without_repeats,
)
from chessnb.teaching.questions.question_values import Question
from chessnb.teaching.revealed_tree import RevealedTree
from chessnb.teaching.tries import BAD_GLYPHS

Ask = Literal["find the move", "think"]
"""What a page may ask."""

ASKS: tuple[Ask, ...] = get_args(Ask)

RECALLED = 3
"""So many moves, of either side, recall what has happened."""

MOST_SOUGHT = 500
"""So many positions of the lesson are looked through for where a finding belongs."""


@dataclass(frozen=True, kw_only=True)
class Spread:
    """What stands on a page.

    Attributes
    ----------
    moment : Moment
        Its position.
    ask : str or None
        What is asked, if anything is.
    asking : str
        The question in the teacher's words; empty for the usual ones.
    asked : Question or None
        A question whose answers are graded, in place of the two.
    remember : str
        What the class is to remember, in the teacher's words.
    recall : bool
        Whether the last moves stand above the rest; not where a text before it tells them.
    parts : tuple
        What was gathered, in order: findings, and errors.
    """

    moment: Moment
    ask: Ask | None = None
    asking: str = ""
    asked: Question | None = None
    remember: str = ""
    recall: bool = True
    parts: tuple[Any, ...] = ()

    def __post_init__(self) -> None:
        if self.asked is not None:
            self._check_asked(self.asked)
            return
        if self.ask is not None and self.ask not in ASKS:
            raise LessonError(f"a page asks {' or '.join(map(repr, ASKS))}, not {self.ask!r}")
        if self.ask == "think" and not self.asking:
            raise LessonError(
                "there is nothing to think about: write the question, as in "
                "page(…, ask='think', question='Which file is open now?')"
            )
        if self.seeks_move and self.moment.next is None:
            raise LessonError(
                f"{self.moment.address!r}: the line ends here, so there is no move to find: "
                "open the page before the move, as in page(lesson.before(…), ask='find the move')"
            )

    def _check_asked(self, asked: Question) -> None:
        if self.ask is not None or self.asking:
            raise LessonError("a page asks one question: this one has its own words")
        if asked.fen != self.moment.fen:
            raise LessonError(
                f"the question is about another position than the page ({asked.place} and "
                f"{self.moment.address}): make it of the page's own, as in "
                "page(m, ask=questions.pinned(m))"
            )

    @property
    def asks(self) -> bool:
        """Whether it asks anything; then what it tells waits to be asked for."""
        return self.ask is not None or self.asked is not None

    @property
    def seeks_move(self) -> bool:
        """Whether the class is to find the lesson's next move."""
        return self.ask == "find the move"

    # -- what is seen at once ----------------------------------------------------

    @property
    def recalled(self) -> str:
        """The last moves, as they recall what has happened; empty where they stand elsewhere."""
        board = self.moment.board
        moves = board.move_stack[-RECALLED:]
        if not moves or not self.recall:
            return ""
        for _ in moves:
            board.pop()
        return write_line(board, moves)

    @property
    def question(self) -> str:
        """What the class is asked; empty if it is asked nothing."""
        if self.asked is not None:
            return self.asked.prompt
        if not self.ask:
            return ""
        if self.asking:
            return self.asking
        side = SIDES[self.moment.turn]
        if self.is_mistake:  # there is more to find than what was played
            return f"{side} to move. What would you play?"
        return f"{side} to move. Find the move."

    @property
    def is_mistake(self) -> bool:
        """Whether the lesson's next move is a mistake: to its annotator, or as the page proves."""
        following = self.moment.next
        if following is None:
            return False
        records = [getattr(part, "record", None) for part in self.parts]
        proved = any(
            record.place == following.place
            for record in records
            if record is not None and record.kind in ("loses", "allows mate")
        )
        return proved or bool(following.node.nags & BAD_GLYPHS)

    # -- what is told ------------------------------------------------------------

    @cached_property
    def told(self) -> tuple[Paragraph, ...]:
        """All that is told, in its order; for a page that asks, only when that is asked for."""
        faults: list[Paragraph] = []
        findings: list[Paragraph] = []
        for part in without_less_than_mate(self.parts):
            if isinstance(part, ChessnbError):
                faults.append(_fault(part))
            else:
                findings += paragraphs_of(part)
        return (
            *faults,
            *self._solution(),
            *self._move(),
            *without_repeats(findings),
            *self._sidelines(),
            *self._remembered(),
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What a reader must know of what is told, each once."""
        return tuple(dict.fromkeys(one.note for one in self.told if one.note))

    def _solution(self) -> Iterator[Paragraph]:
        """Yield what is right, of a question whose answers are graded."""
        if self.asked is None:
            return
        marks = tuple(mark for one in self.asked.right for mark in one.marks)
        line = next((one.line for one in self.asked.right if one.line), ())
        play = None
        if marks or line:
            on = self.moment.fen if marks else moved(self.moment.board, line[:1]).fen()
            play = Play(fen=self.moment.fen, moves=() if marks else line, marks=marks, on=on)
        yield Paragraph(kind="fact", head="Answer:", text=self.asked.solution, play=play)

    def _move(self) -> Iterator[Paragraph]:
        """Yield the lesson's move and what its annotator says of it, where it was asked for."""
        following = self.moment.next
        if not self.seeks_move or following is None or not following.move:
            return
        yield Paragraph(
            kind="move",
            head=f"{following.numbered}{glyphs_of(following.node)}",
            text=following.comment,
            play=Play(fen=self.moment.fen, moves=(following.move,), on=following.fen),
        )

    def _sidelines(self) -> Iterator[Paragraph]:
        """Yield the lesson's sidelines that begin instead of the move that is told."""
        parent = self.moment.node if self.seeks_move else self.moment.node.parent
        for node in parent.variations[1:] if parent is not None else ():
            yield _sideline(node)

    def _remembered(self) -> Iterator[Paragraph]:
        if self.remember:
            yield Paragraph(kind="remember", head="Remember:", text=self.remember)

    # -- as it is compared -------------------------------------------------------

    def __str__(self) -> str:
        """Return the records: the position's, then one for each finding, in order."""
        lines = [str(self.moment.record)]
        if self.asked is not None:
            lines.append(str(self.asked.record))
        for part in self.parts:
            record = getattr(part, "record", None)
            if not isinstance(part, ChessnbError) or record is not None:
                lines.append(str(part))
        return "\n".join(lines)

    # -- for the live page -------------------------------------------------------

    def data(self, shown: RevealedTree, *, told: bool) -> dict[str, Any]:
        """Return what a live page is given, ready for JSON.

        Parameters
        ----------
        shown : RevealedTree
            What it may see of the lesson.
        told : bool
            Whether it is told all, or only asked.
        """
        paragraphs = None
        if told:
            places = _Places(self.moment)
            paragraphs = [_data(one, places, shown) for one in self.told]
        return {
            "recalled": self.recalled,
            "question": self.question,
            "asked": None if self.asked is None else {"hints": len(self.asked.hints)},
            "told": paragraphs,
            "notes": list(self.notes) if told else [],
        }


def glyphs_of(node: chess.pgn.GameNode) -> str:
    """Return a move's glyphs as they are printed behind it: ``"!?"``, ``" ±"``."""
    signs = [GLYPHS[nag] for nag in sorted(node.nags) if nag in GLYPHS]
    return "".join(sign if set(sign) <= set("!?") else f" {sign}" for sign in signs)


def _fault(error: ChessnbError) -> Paragraph:
    """Return what is wrong with a claim or a line, and the position that shows it."""
    play = None
    if isinstance(error, FalseClaim | UnprovedClaim):
        picture = error.picture
        play = Play(fen=error.fen, moves=error.moves, marks=error.marks, on=picture.fen)
    return Paragraph(kind="fault", text=error.shown, play=play)


def _sideline(start: chess.pgn.ChildNode) -> Paragraph:
    """Return a sideline with its comments; its own sidelines are its lines."""
    board = start.parent.board()
    words: list[str] = []
    items: list[Paragraph] = []
    moves: list[chess.Move] = []
    fresh, at = True, board.copy()
    node: chess.pgn.ChildNode | None = start
    while node is not None:
        if not node.move:
            break
        for other in node.parent.variations[1:] if node is not start else ():
            items.append(_sideline(other))
        count = write_line(at, (node.move,)).split()[0] if fresh or at.turn else ""
        words.append(f"{count} {node.san()}{glyphs_of(node)}".strip())
        comment = readable(node.comment)
        if comment:
            words.append(comment)
        fresh = bool(comment)
        moves.append(node.move)
        at.push(node.move)
        node = node.next()
    name = line_name(start) or readable(start.starting_comment)
    head = f"{name.rstrip(':')}:" if name else "Instead:"
    play = Play(fen=board.fen(), moves=tuple(moves), on=board.fen())
    return Paragraph(
        kind="sideline", head=head, text=" ".join(words), play=play, items=tuple(items)
    )


class _Places:
    """Where the positions of findings stand in the lesson: the moves that lead there."""

    def __init__(self, moment: Moment) -> None:
        self.moment = moment
        self.root = moment.node.game()

    @cached_property
    def known(self) -> dict[str, tuple[chess.Move, ...]]:
        """The positions on the way here, behind it and one move away, with their moves."""
        found: dict[str, tuple[chess.Move, ...]] = {}
        board = self.root.board()
        path = list(self.moment.board.move_stack)
        for count, move in enumerate((*path, None)):
            found.setdefault(board.fen(), tuple(path[:count]))
            if move is not None:
                board.push(move)
        for node in islice(_below(self.moment.node), MOST_SOUGHT):
            at = node.board()
            found.setdefault(at.fen(), tuple(at.move_stack))
        for move in list(board.legal_moves):
            board.push(move)
            found.setdefault(board.fen(), (*path, move))
            board.pop()
        return found

    def of(self, play: Play, shown: RevealedTree) -> dict[str, Any]:
        """Return where a paragraph is shown, ready for JSON.

        ``line`` leads from the root through its whole line, which begins after
        ``from`` moves; the marks belong to the position after ``at`` moves.
        """
        way = self.known.get(play.fen)
        board = self.root.board() if way is not None else chess.Board(play.fen)
        line = (*(way or ()), *play.moves)
        start = at = len(way or ())
        for count in range(len(line) + 1):
            if board.fen() == play.on:
                at = count
            if count < len(line):
                board.push(line[count])
        return {
            "root": -1 if way is None else shown.number_of(self.root),
            "fen": play.fen if way is None else "",
            "line": [move.uci() for move in line],
            "from": start,
            "at": at,
            "marks": [asdict(mark) for mark in play.marks],
        }


def _below(node: chess.pgn.GameNode) -> Iterator[chess.pgn.ChildNode]:
    waiting: list[chess.pgn.ChildNode] = list(node.variations)
    while waiting:
        following = waiting.pop(0)
        yield following
        waiting += following.variations


def _data(paragraph: Paragraph, places: _Places, shown: RevealedTree) -> dict[str, Any]:
    return {
        "kind": paragraph.kind,
        "head": paragraph.head,
        "text": paragraph.text,
        "known": paragraph.known,
        "play": None if paragraph.play is None else places.of(paragraph.play, shown),
        "items": [_data(item, places, shown) for item in paragraph.items],
        "card": paragraph.card,
    }
