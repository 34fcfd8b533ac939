"""Passed pawns with what stops them, and pawn majorities.

The definitions are the trade's (common practice, no source):

what stops a passed pawn
    The enemy pieces that stand on its way to the last rank, or attack a
    square of it, through the pawn too: a rook behind it.  One that stands
    right before the pawn *blocks* it.
majority
    More pawns than the enemy on one half of the board: the files a to d are
    the queenside, e to h the kingside.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.pieces import Piece, in_order, piece_at
from chessnb.facts._pawns import ahead, on_file

HALVES = {"queenside": range(4), "kingside": range(4, 8)}
"""The files of each half of the board."""


@dataclass(frozen=True, kw_only=True)
class PassedPawn:
    """A passed pawn, and what stops it.

    Attributes
    ----------
    side : chess.Color
        The side that it belongs to.
    square : str
        Where it stands.
    blocked_by : Piece or None
        The enemy piece right before it.
    stopped_by : tuple of Piece
        All enemy pieces on its way or attacking a square of it, the dearest
        first; the king, last, among them.
    """

    side: chess.Color
    square: str
    blocked_by: Piece | None
    stopped_by: tuple[Piece, ...]


@dataclass(frozen=True, kw_only=True)
class Majority:
    """More pawns than the enemy on one half of the board.

    Attributes
    ----------
    side : chess.Color
        The side that has more.
    wing : str
        ``"queenside"`` (a to d) or ``"kingside"`` (e to h).
    own, enemy : int
        How many pawns each side has there.
    doubled : bool
        Whether some of its own stand on one file.
    """

    side: chess.Color
    wing: str
    own: int
    enemy: int
    doubled: bool


def passed_pawn(board: chess.Board, pawn: chess.Square, side: chess.Color) -> PassedPawn:
    """Return a passed pawn with what stops it."""
    way = on_file(pawn) & ahead(pawn, side)
    enemies = chess.SquareSet(board.occupied_co[not side])
    stopping = way & enemies
    without = chess.SquareSet(board.occupied & ~chess.BB_SQUARES[pawn])
    for square in way:
        stopping |= board.attackers(not side, square, without)
    before = pawn + (8 if side else -8)
    return PassedPawn(
        side=side,
        square=chess.square_name(pawn),
        blocked_by=piece_at(board, before) if before in enemies else None,
        stopped_by=in_order(piece_at(board, square) for square in stopping),
    )


def majorities(board: chess.Board) -> Iterator[Majority]:
    """Yield the majorities of both sides; none where a side has no pawns there."""
    for wing, files in HALVES.items():
        half = chess.SquareSet(sum(chess.BB_FILES[file] for file in files))
        pawns = {side: board.pieces(chess.PAWN, side) & half for side in chess.COLORS}
        white, black = len(pawns[chess.WHITE]), len(pawns[chess.BLACK])
        if white == black or not white or not black:
            continue
        side = white > black
        own = pawns[side]
        yield Majority(
            side=side,
            wing=wing,
            own=max(white, black),
            enemy=min(white, black),
            doubled=len({chess.square_file(pawn) for pawn in own}) < len(own),
        )
