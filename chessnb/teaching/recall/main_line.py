"""The line that is asked for: from a lesson or one of its positions, move by move."""

from __future__ import annotations

from collections.abc import Iterator

import chess
import chess.pgn

from chessnb.errors import InputError, LessonError
from chessnb.lessons import Lesson, Moment


def line_from(start: Lesson | Moment) -> Iterator[chess.pgn.ChildNode]:
    """Yield the moves of a line: a lesson's main line, or how it goes on from a position.

    A pass ends it.

    Raises
    ------
    InputError
        If it is neither.
    LessonError
        If there is no move in it.
    """
    if isinstance(start, Lesson):
        node: chess.pgn.GameNode = start.start.node
    elif isinstance(start, Moment):
        node = start.node
    else:
        raise InputError("a line begins with a lesson, or with a position of one", given=start)
    following = node.next()
    if following is None or not following.move:
        raise LessonError("the line ends here, so there is no move to ask for")
    while following is not None and following.move:
        yield following
        following = following.next()


def prompt_of(node: chess.pgn.ChildNode, side: str) -> str:
    """Return the question for a move: what was played last, and whose move is asked for."""
    before = node.parent
    if not isinstance(before, chess.pgn.ChildNode) or not before.move:
        return f"What does {side} play?"
    other = "Black" if side == "White" else "White"
    board = before.parent.board()
    number = f"{board.fullmove_number}{'.' if board.turn else '...'}"
    return f"{other} has played {number} {before.san()}. What does {side} play?"
