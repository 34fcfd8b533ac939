"""Why no piece of the side to move is the one that a text speaks of."""

from __future__ import annotations

from collections.abc import Callable

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES

StartsAt = Callable[[chess.Square], bool]
"""Tells whether a text allows a piece to stand on a square."""


def no_such_piece(board: chess.Board, piece: chess.PieceType | None, starts_at: StartsAt) -> str:
    """Say why none of the pieces of the side to move can be meant.

    Parameters
    ----------
    board : chess.Board
        The position before the move.
    piece : chess.PieceType or None
        The piece that is named; ``None`` where only its square is.
    starts_at : callable
        Tells whether the text allows the piece to stand on a square.

    Examples
    --------
    >>> no_such_piece(chess.Board(), chess.KNIGHT, lambda square: chess.square_file(square) == 2)
    "no knight of White's stands on the c-file: the knights are on b1 and g1"
    """
    side = SIDES[board.turn]
    starts = [square for square in chess.SQUARES if starts_at(square)]
    if piece is None:
        if board.color_at(starts[0]) is None:
            return f"{chess.square_name(starts[0])} is empty"
        return (
            f"{the_piece(board, starts[0])} is {SIDES[not board.turn]}'s, and it is {side}'s move"
        )
    name = chess.piece_name(piece)
    own = board.pieces(piece, board.turn)
    if own and len(starts) == 1:
        return _not_on_that_square(board, name, own, starts[0])
    if own:
        return f"no {name} of {side}'s stands {place_of(starts)}{_where_they_are(name, own)}"
    if board.pieces(piece, not board.turn):
        return f"it is {side}'s move, and {side} has no {name}"
    return f"{side} has no {name}"


def _not_on_that_square(
    board: chess.Board, name: str, own: chess.SquareSet, square: chess.Square
) -> str:
    there = board.piece_at(square)
    if there is None:
        return f"{chess.square_name(square)} is empty{_where_they_are(name, own)}"
    if there.color != board.turn:
        mover, owner = SIDES[board.turn], SIDES[there.color]
        return f"{the_piece(board, square)} is {owner}'s, and it is {mover}'s move"
    other = chess.piece_name(there.piece_type)
    return f"a {other} stands on {chess.square_name(square)}, no {name}{_where_they_are(name, own)}"


def place_of(squares: list[chess.Square]) -> str:
    """Name the file or the rank that squares share.

    Examples
    --------
    >>> place_of([chess.A5, chess.C5])
    'on rank 5'
    """
    if len({chess.square_file(square) for square in squares}) == 1:
        return f"on the {chess.FILE_NAMES[chess.square_file(squares[0])]}-file"
    if len({chess.square_rank(square) for square in squares}) == 1:
        return f"on rank {chess.square_rank(squares[0]) + 1}"
    return "there"


def _where_they_are(name: str, own: chess.SquareSet) -> str:
    squares = listed(chess.square_name(square) for square in own)
    return f": the {name} is on {squares}" if len(own) == 1 else f": the {name}s are on {squares}"
