"""A queen or a rook against the bare king, worked out exactly: in how many moves it mates.

Retrograde analysis over sets of squares, as in
:mod:`chessnb.facts._king_and_pawn`: for each square of the piece and of its
king, one number holds the squares of the bare king from which it is mated in
so many moves.  It takes about a second for each kind of piece, once.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import chess

KING_STEPS = tuple(chess.BB_KING_ATTACKS)
"""Where a king may step to from each square."""

_NOT_A, _NOT_H = chess.BB_ALL & ~chess.BB_FILE_A, chess.BB_ALL & ~chess.BB_FILE_H

Layer = list[int]
"""For each square of the piece and of its king (64 times the one plus the other), a set of
squares of the bare king."""


def neighbours(squares: int) -> int:
    """Return all squares that a king's step from a set of squares leads to.

    Examples
    --------
    >>> sorted(chess.SquareSet(neighbours(chess.BB_A1))) == [chess.B1, chess.A2, chess.B2]
    True
    """
    east, west = squares << 1 & _NOT_A, squares >> 1 & _NOT_H
    row = east | west | squares
    return (row << 8 | row >> 8 | east | west) & chess.BB_ALL


def mate_distance(board: chess.Board) -> int | None:
    """Return in how many moves of its own the side with the piece mates.

    None if the position is not queen or rook against king.  0 is a draw
    (the piece can be taken, or it is stalemate), and so that this is clear, a
    king that is mated already is -1.

    Examples
    --------
    >>> mate_distance(chess.Board("k7/7Q/1K6/8/8/8/8/8 w - - 0 1"))
    1
    """
    pieces = board.queens | board.rooks
    if chess.popcount(board.occupied) != 3 or chess.popcount(pieces) != 1:
        return None
    side = bool(pieces & board.occupied_co[chess.WHITE])
    own, lone = board.king(side), board.king(not side)
    assert own is not None
    assert lone is not None
    kind = chess.QUEEN if board.queens else chess.ROOK
    to_move, waiting = _distances(kind)
    place, bit = 64 * chess.msb(pieces) + own, chess.BB_SQUARES[lone]
    if board.turn == side:
        found = next((moves for moves, layer in enumerate(to_move) if layer[place] & bit), None)
        return 0 if found is None else found + 1
    found = next((moves for moves, layer in enumerate(waiting) if layer[place] & bit), None)
    return 0 if found is None else found or -1


@cache
def _distances(kind: chess.PieceType) -> tuple[list[Layer], list[Layer]]:
    """Return the layers: won in 1, 2, … with the piece to move; mated in 0, 1, … without."""
    attacks = [_attacked(kind, *divmod(place, 64)) for place in range(64 * 64)]
    legal = [_places(*divmod(place, 64)) for place in range(64 * 64)]
    steps = [list(_moves(kind, *divmod(place, 64))) for place in range(64 * 64)]
    to_move: list[Layer] = []
    waiting: list[Layer] = []
    won, lost = [0] * 4096, [0] * 4096
    while True:
        layer = [
            _mated(place, legal[place], attacks[place], won[place]) & ~lost[place]
            for place in range(4096)
        ]
        if not any(layer):
            return to_move, waiting
        waiting.append(layer)
        lost = [before | now for before, now in zip(lost, layer, strict=True)]
        next_layer = []
        for place in range(4096):
            found = 0
            for step in steps[place]:
                found |= layer[step]
            next_layer.append(found & legal[place] & ~attacks[place] & ~won[place])
        to_move.append(next_layer)
        won = [before | now for before, now in zip(won, next_layer, strict=True)]


def _places(piece: chess.Square, own: chess.Square) -> int:
    """Return the squares where the bare king may stand beside these two."""
    if piece == own:
        return 0
    return chess.BB_ALL & ~(KING_STEPS[own] | chess.BB_SQUARES[own] | chess.BB_SQUARES[piece])


def _attacked(kind: chess.PieceType, piece: chess.Square, own: chess.Square) -> int:
    """Return what the piece attacks, through the bare king."""
    occupied = chess.BB_SQUARES[own]
    lines = chess.BB_RANK_ATTACKS[piece][chess.BB_RANK_MASKS[piece] & occupied]
    lines |= chess.BB_FILE_ATTACKS[piece][chess.BB_FILE_MASKS[piece] & occupied]
    if kind == chess.QUEEN:
        lines |= chess.BB_DIAG_ATTACKS[piece][chess.BB_DIAG_MASKS[piece] & occupied]
    return lines


def _moves(kind: chess.PieceType, piece: chess.Square, own: chess.Square) -> Iterator[int]:
    """Yield the places after each move of piece and king; the bare king is in nobody's way.

    Where it stood on a line of the piece it would be in check, with the other side to move.
    """
    if piece == own:
        return
    for square in chess.scan_forward(_attacked(kind, piece, own) & ~chess.BB_SQUARES[own]):
        yield 64 * square + own
    for square in chess.scan_forward(KING_STEPS[own] & ~chess.BB_SQUARES[piece]):
        yield 64 * piece + square


def _mated(place: int, legal: int, attacked: int, won: int) -> int:
    """Return where the bare king is mated, or every move of it leads to what is won."""
    piece, own = divmod(place, 64)
    free = legal & ~attacked
    escapes = free & ~won
    if piece != own and not KING_STEPS[own] & chess.BB_SQUARES[piece]:
        escapes |= chess.BB_SQUARES[piece]
    held = legal & ~neighbours(escapes)
    return held & (neighbours(free) | attacked)  # without a move and a check it is stalemate
