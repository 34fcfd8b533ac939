"""King and pawn against king, worked out exactly.

Retrograde analysis over sets of squares: for each square of the pawn and of its
own king, one number holds the squares of the other king from which the game
is won, a bit for each.  A pawn is worked out after the squares before it, so
a set is found in some hundredths of a second and kept.

Won is: the pawn becomes a queen or a rook that cannot be taken, and by these
the other king is mated.  All else is drawn.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import chess

from chessnb.facts._bare_king import KING_STEPS, neighbours

ALL = chess.BB_ALL


class Won(NamedTuple):
    """The squares of the lone king where the pawn's side wins, for each square of its own king.

    Attributes
    ----------
    to_move : tuple of int
        With the side of the pawn to move.
    waiting : tuple of int
        With the lone king to move.
    """

    to_move: tuple[int, ...]
    waiting: tuple[int, ...]


def pawn_wins(board: chess.Board) -> bool | None:
    """Tell whether the pawn wins; None if the position is not king and pawn against king.

    Castling and captures en passant cannot be: there is one pawn, and no rook.

    Examples
    --------
    >>> pawn_wins(chess.Board("4k3/8/4K3/4P3/8/8/8/8 w - - 0 1"))
    True
    >>> pawn_wins(chess.Board("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1"))
    False
    """
    if chess.popcount(board.occupied) != 3 or chess.popcount(board.pawns) != 1:
        return None
    pawn = chess.msb(board.pawns)
    side = bool(board.pawns & board.occupied_co[chess.WHITE])
    own, lone = board.king(side), board.king(not side)
    assert own is not None
    assert lone is not None
    if not side:
        pawn, own, lone = map(chess.square_mirror, (pawn, own, lone))
    sets = won(pawn).to_move if board.turn == side else won(pawn).waiting
    return bool(sets[own] >> lone & 1)


@cache
def won(pawn: chess.Square) -> Won:
    """Return where a white pawn on the second to the seventh rank wins."""
    queening = [_after_the_pawn(pawn, own) for own in chess.SQUARES]
    to_move, waiting = list(queening), [0] * 64
    legal = [_places(pawn, own) for own in chess.SQUARES]
    in_check = chess.BB_PAWN_ATTACKS[chess.WHITE][pawn]
    while True:
        for own in chess.SQUARES:
            waiting[own] = _lost(legal[own], to_move[own], pawn, own, in_check)
        further = [
            queening[own] | _after_the_king(pawn, own, legal[own] & ~in_check, waiting)
            for own in chess.SQUARES
        ]
        if further == to_move:
            return Won(tuple(to_move), tuple(waiting))
        to_move = further


def _places(pawn: chess.Square, own: chess.Square) -> int:
    """Return the squares where the lone king may stand beside these two."""
    if own == pawn:
        return 0
    return ALL & ~(KING_STEPS[own] | chess.BB_SQUARES[own] | chess.BB_SQUARES[pawn])


def _lost(legal: int, lost_after: int, pawn: chess.Square, own: chess.Square, in_check: int) -> int:
    """Return the squares from which every move of the lone king, and there is one, loses."""
    free = legal & ~in_check
    pawn_is_free = not KING_STEPS[own] & chess.BB_SQUARES[pawn]
    escapes = free & ~lost_after
    if pawn_is_free and own != pawn:
        escapes |= chess.BB_SQUARES[pawn]
    return legal & neighbours(free) & ~neighbours(escapes)


def _after_the_king(pawn: chess.Square, own: chess.Square, legal: int, waiting: list[int]) -> int:
    """Return the squares where some move of the pawn's king wins."""
    found = 0
    for step in chess.scan_forward(KING_STEPS[own] & ~chess.BB_SQUARES[pawn]):
        found |= waiting[step]
    return found & legal


def _after_the_pawn(pawn: chess.Square, own: chess.Square) -> int:
    """Return the squares of the lone king where a move of the pawn wins."""
    ahead = pawn + 8
    legal = _places(pawn, own) & ~chess.BB_PAWN_ATTACKS[chess.WHITE][pawn]
    if own == ahead:
        return 0
    legal &= ~chess.BB_SQUARES[ahead]
    if chess.square_rank(ahead) == 7:
        return legal & _promoted(ahead, own)
    found = legal & won(ahead).waiting[own]
    if chess.square_rank(pawn) == 1 and own != ahead + 8:
        found |= legal & ~chess.BB_SQUARES[ahead + 8] & won(ahead + 8).waiting[own]
    return found


def _promoted(square: chess.Square, own: chess.Square) -> int:
    """Return where the lone king, to move, cannot take the new piece and is not stalemated.

    Against a queen it may be stalemated; then a rook wins all the same.
    """
    lone_may_take = KING_STEPS[square] if not KING_STEPS[own] & chess.BB_SQUARES[square] else 0
    stalemated = 0
    for lone in chess.scan_forward(_places(square, own) & ~lone_may_take):
        if all(_is_stalemate(kind, square, own, lone) for kind in (chess.QUEEN, chess.ROOK)):
            stalemated |= chess.BB_SQUARES[lone]
    return _places(square, own) & ~lone_may_take & ~stalemated


def _is_stalemate(
    kind: chess.PieceType, square: chess.Square, own: chess.Square, lone: chess.Square
) -> bool:
    board = chess.Board(None)
    board.set_piece_at(square, chess.Piece(kind, chess.WHITE))
    board.set_piece_at(own, chess.Piece(chess.KING, chess.WHITE))
    board.set_piece_at(lone, chess.Piece(chess.KING, chess.BLACK))
    board.turn = chess.BLACK
    return board.is_stalemate()
