"""What taking on one square brings when both sides may stop at any time."""

from __future__ import annotations

import chess

from chessnb.board.points import POINTS

Known = dict[str, int]
"""What the side to move gains in positions met before, by their EPD."""


def gain_on(board: chess.Board, target: chess.Square) -> int:
    """Return the points that the side to move gains on a square, without the sequence."""
    return _gain(board, target, {})


def takes_on(board: chess.Board, target: chess.Square) -> list[chess.Move]:
    """Return the legal captures that land on a square, the cheapest piece first."""
    moves = board.generate_legal_captures(to_mask=chess.BB_SQUARES[target])

    def cost(move: chess.Move) -> tuple[int, int, int]:
        kind = board.piece_type_at(move.from_square) or 0
        return (kind, move.from_square, -(move.promotion or 0))

    return sorted(moves, key=cost)


def best_take(
    board: chess.Board, target: chess.Square, known: Known
) -> tuple[chess.Move | None, int | None]:
    """Return the best take and the points it ends with; of equal ones the first."""
    best: chess.Move | None = None
    most: int | None = None
    for move in takes_on(board, target):
        points = points_won(board, move)
        board.push(move)
        points -= _gain(board, target, known)
        board.pop()
        if most is None or points > most:
            best, most = move, points
    return best, most


def _gain(board: chess.Board, target: chess.Square, known: Known) -> int:
    """Return what the side to move gains on the square, free not to begin."""
    if not board.attackers_mask(board.turn, target):
        return 0
    key = board.epd()
    if key not in known:
        known[key] = max(0, best_take(board, target, known)[1] or 0)
    return known[key]


def points_won(board: chess.Board, move: chess.Move) -> int:
    """Return the points that a move wins at once: what it takes, and what a pawn becomes."""
    if board.is_en_passant(move):
        return POINTS[chess.PAWN]
    won = POINTS[board.piece_type_at(move.to_square) or chess.KING]
    return won + (POINTS[move.promotion] - POINTS[chess.PAWN] if move.promotion else 0)
