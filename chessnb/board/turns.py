"""Positions after moves, and as they would be if it were the other side's turn."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.errors import PositionError


def moved(board: chess.Board, moves: Iterable[chess.Move]) -> chess.Board:
    """Return a new board after some moves, without the history before them."""
    after = board.copy(stack=False)
    for move in moves:
        after.push(move)
    return after


def as_if_to_move(board: chess.Board, side: chess.Color) -> chess.Board:
    """Return the position with a side to move: itself, or a new board as after a pass.

    Nobody asks here whether the other side may pass: the result can be a
    position in which it stands in check, and then is not valid.

    Examples
    --------
    >>> as_if_to_move(chess.Board(), chess.BLACK).turn == chess.BLACK
    True
    """
    if board.turn == side:
        return board
    passed = board.copy(stack=False)
    passed.push(chess.Move.null())
    passed.clear_stack()  # a history would hold a move that nobody played
    return passed


def after_pass(board: chess.Board) -> chess.Board | None:
    """Return the position with the other side to move; None in check, when nobody may pass."""
    return None if board.is_check() else as_if_to_move(board, not board.turn)


def seen_by(board: chess.Board, side: chess.Color) -> chess.Board:
    """Return the position with a side to move, if the other side may pass.

    Raises
    ------
    PositionError
        If the other side would have to pass in check, which no rule allows.
    """
    if board.turn != side and board.is_check():
        raise PositionError(
            "the side to move is in check and cannot pass, so nothing can be said about"
            " what the other side could do next",
            given=board.fen(),
        )
    return as_if_to_move(board, side)
