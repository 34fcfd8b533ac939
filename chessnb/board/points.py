"""What the pieces are worth, and who has more."""

from __future__ import annotations

import chess

POINTS = {
    chess.PAWN: 1,
    chess.KNIGHT: 3,
    chess.BISHOP: 3,
    chess.ROOK: 5,
    chess.QUEEN: 9,
    chess.KING: 0,
}
"""What a piece is worth (common practice, no source); the king is never for sale."""


def points_of(piece: chess.Piece | None) -> int:
    """Return what a piece is worth, in points; 0 for none."""
    return 0 if piece is None else POINTS[piece.piece_type]


def balance(board: chess.Board, side: chess.Color) -> int:
    """Return a side's points minus the other side's.

    Examples
    --------
    >>> balance(chess.Board("4k3/8/8/8/8/8/4P3/R3K3 w - - 0 1"), chess.BLACK)
    -6
    """
    own, other = board.occupied_co[side], board.occupied_co[not side]
    return sum(
        points * ((pieces & own).bit_count() - (pieces & other).bit_count())
        for pieces, points in (
            (board.pawns, POINTS[chess.PAWN]),
            (board.knights, POINTS[chess.KNIGHT]),
            (board.bishops, POINTS[chess.BISHOP]),
            (board.rooks, POINTS[chess.ROOK]),
            (board.queens, POINTS[chess.QUEEN]),
        )
    )
