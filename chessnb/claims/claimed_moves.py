"""Reading the moves of claims; a move of another position is answered with the position meant."""

from __future__ import annotations

from collections.abc import Sequence

import chess

from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.errors import IllegalMove, NotationError
from chessnb.lessons import Moment
from chessnb.notation import MoveLike, read_move, write_line, write_move
from chessnb.notation.move_reader import is_move, read_signed, wrong_sign


def refuse_wrong_sign(board: chess.Board, move: chess.Move, text: object) -> chess.Move:
    """Return a move that was read, unless the text says of it that it checks or mates, wrongly.

    Raises
    ------
    NotationError
        If the move is not the check, or the mate, that its sign says.
    """
    reason = wrong_sign(board, move, text) if isinstance(text, str) else ""
    if reason:
        raise NotationError(reason, text=str(text), fen=board.fen())
    return move


def read_claimed(position: Position, board: chess.Board, move: MoveLike) -> chess.Move:
    """Read the move of a claim: a move of the side to move.

    Raises
    ------
    IllegalMove
        If it is not legal; where the move has just been played, or the side
        that has just moved could have played it, with the position that is meant.
    NotationError
        If it cannot be read, or its sign for check or mate is wrong.
    """
    try:
        return read_signed(board, move)
    except IllegalMove as error:
        if late := _too_late(position, board, move):
            raise IllegalMove(late, text=error.text, fen=error.fen) from None
        raise


def _too_late(position: Position, board: chess.Board, move: MoveLike) -> str:
    """Say so where a move belongs to the position one move before."""
    before = board.copy()
    last = before.pop() if before.move_stack else None
    if not last or (said := _read(before, move)) is None:
        return ""
    played = write_line(before, (last,))
    there = f"the position before {played}"
    if isinstance(position, Moment):
        there = f"lesson.before({position.address!r})"
    if said == last:
        return f"{write_move(before, last)} has just been played here: use {there}"
    side = SIDES[before.turn]
    return f"it is a move of {side}, and {side} has just played {played}: use {there}"


def read_threat(
    position: Position, board: chess.Board, passed: chess.Board, move: MoveLike
) -> chess.Move:
    """Read a move that the side that is not to move would play if the other passed.

    Raises
    ------
    IllegalMove
        If it is not legal; where it is a move of the side to move, with the
        position that is meant.
    NotationError
        If it cannot be read, or its sign for check or mate is wrong.
    """
    try:
        return read_signed(passed, move)
    except IllegalMove as error:
        if _read(board, move) is None:
            raise
        side = SIDES[board.turn]
        following = position.next if isinstance(position, Moment) else None
        there = f"lesson.after({following.address!r})" if following else "a position after it"
        raise IllegalMove(
            f"it is a move of {side}, and it is {side}'s move here: a threat is what the side"
            f" that is not to move would play; use {there}",
            text=error.text,
            fen=board.fen(),
        ) from None


def refuse_wrong_signs(board: chess.Board, moves: Sequence[chess.Move], line: object) -> None:
    """Refuse a line in words of which a move is not the check, or the mate, that its sign says.

    Raises
    ------
    NotationError
        For the first such move.
    """
    if isinstance(line, str):
        written = [word for word in line.split() if is_move(word)]
    else:
        written = list(line) if isinstance(line, Sequence) else []
    if len(written) != len(moves):
        return  # with what else it holds, nobody can say which word is which move
    at = board.copy(stack=False)
    for move, text in zip(moves, written, strict=True):
        refuse_wrong_sign(at, move, text)
        at.push(move)


def _read(board: chess.Board, move: MoveLike) -> chess.Move | None:
    try:
        return read_move(board, move)
    except NotationError:
        return None
