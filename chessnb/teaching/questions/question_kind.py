"""A kind of question: its name, what it asks, and how an answer to it is graded."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import chess

from chessnb.board.position import Position, read_position
from chessnb.findings.record_fields import place_of
from chessnb.lessons import Moment
from chessnb.search.budget import Searching
from chessnb.teaching.questions.question_values import Graded, Question

Given = str | int | bool | chess.Move | Iterable[str | chess.Move]
"""An answer as it is given: typed text, a move, a list of moves, a number, yes or no."""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of question, as its own module states it.

    Attributes
    ----------
    name : str
        What it is called.
    asks : str
        What it asks, in a line.
    grade : callable
        Grades an answer that was given as text; the last argument is the
        language of its piece letters.
    """

    name: str
    asks: str
    grade: Callable[[Question, str, str], Searching[Graded]]


@dataclass(frozen=True, kw_only=True)
class Asked:
    """The position of a question, and where it stands."""

    board: chess.Board
    start: str
    led: tuple[chess.Move, ...]
    place: str

    @classmethod
    def of(cls, position: Position) -> Asked:
        """Read a position that is asked about."""
        board = read_position(position)
        root = board.root()
        named = isinstance(position, Moment) and position.lesson.name_of(position.node.game())
        place = position.place if named and isinstance(position, Moment) else place_of(board)
        return cls(board=board, start=root.fen(), led=tuple(board.move_stack), place=place)


def at_once(
    grade: Callable[[Question, str, str], Graded],
) -> Callable[[Question, str, str], Searching[Graded]]:
    """Turn a grader that needs no search into one that may be run in slices like the others."""

    def searching(question: Question, text: str, language: str) -> Searching[Graded]:
        yield from ()
        return grade(question, text, language)

    return searching
