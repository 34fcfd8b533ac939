"""Lines, attackers and guards: the geometry that the motifs share."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.points import POINTS

KING_WORTH = 100
"""What a king counts as a target: more than any other piece."""


def worth(board: chess.Board, square: chess.Square) -> int:
    """Return what the man on a square is worth as a target, in points; 0 for an empty square."""
    kind = board.piece_type_at(square)
    if kind is None:
        return 0
    return KING_WORTH if kind == chess.KING else POINTS[kind]


def guards(board: chess.Board, square: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the men of a side that guard a square and may really take there.

    A man pinned to its king guards only along the pin; the king guards only
    where no enemy man would take it back.
    """
    enemies = board.attackers(not side, square)
    found = []
    for guard in board.attackers(side, square):
        if guard == square:
            continue
        if board.piece_type_at(guard) == chess.KING:
            if len(enemies) > 1:
                continue
        elif board.is_pinned(side, guard) and square not in board.pin(side, guard):
            continue
        found.append(guard)
    return found


def is_loose(board: chess.Board, square: chess.Square) -> bool:
    """Tell whether a man has no guard that counts."""
    color = board.color_at(square)
    return color is not None and not guards(board, square, color)


def attacked_by(
    board: chess.Board, square: chess.Square, color: chess.Color
) -> Iterator[chess.Square]:
    """Yield the squares of a side's men that the man on a square attacks."""
    for target in board.attacks(square):
        if board.color_at(target) == color:
            yield target


def is_target(board: chess.Board, attacker: chess.Square, target: chess.Square) -> bool:
    """Tell whether a man is worth attacking: a king, a loose man, or one worth more."""
    if board.piece_type_at(target) == chess.KING:
        return True
    if worth(board, target) > worth(board, attacker):
        return True
    return is_loose(board, target) and board.piece_type_at(target) != chess.PAWN


def guarded_squares(board: chess.Board, guard: chess.Square) -> chess.SquareSet:
    """Return the squares where a man would take back, its pin to its king allowed for."""
    color = board.color_at(guard)
    if color is None:
        return chess.SquareSet()
    squares = board.attacks(guard)
    if board.piece_type_at(guard) != chess.KING and board.is_pinned(color, guard):
        squares &= board.pin(color, guard)
    return squares
