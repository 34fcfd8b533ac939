"""Attackers, defenders and targets: what the motifs ask of the pieces on a board."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.points import POINTS
from chessnb.board.turns import as_if_to_move

KING_WORTH = 100
"""What a king counts as a target: more than any other piece."""


def worth(board: chess.Board, square: chess.Square) -> int:
    """Return what the piece on a square is worth as a target, in points; 0 for an empty square."""
    kind = board.piece_type_at(square)
    if kind is None:
        return 0
    return KING_WORTH if kind == chess.KING else POINTS[kind]


def defenders(board: chess.Board, square: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the pieces of a side that defend a square and may really take there.

    A piece pinned to its king defends only along the pin; the king defends
    only where no enemy piece would take it back.
    """
    enemies = board.attackers(not side, square)
    found = []
    for piece in board.attackers(side, square):
        if piece == square:
            continue
        if board.piece_type_at(piece) == chess.KING:
            if len(enemies) > 1:
                continue
        elif board.is_pinned(side, piece) and square not in board.pin(side, piece):
            continue
        found.append(piece)
    return found


def is_undefended(board: chess.Board, square: chess.Square) -> bool:
    """Tell whether a piece has no defender that counts."""
    color = board.color_at(square)
    return color is not None and not defenders(board, square, color)


def attacked_by(
    board: chess.Board, square: chess.Square, color: chess.Color
) -> Iterator[chess.Square]:
    """Yield the squares of a side's pieces that the piece on a square attacks."""
    for target in board.attacks(square):
        if board.color_at(target) == color:
            yield target


def is_target(board: chess.Board, attacker: chess.Square, target: chess.Square) -> bool:
    """Tell whether a piece is worth attacking: a king, one that is undefended or worth more."""
    if board.piece_type_at(target) == chess.KING:
        return True
    if worth(board, target) > worth(board, attacker):
        return True
    return is_undefended(board, target) and board.piece_type_at(target) != chess.PAWN


def targets_of(board: chess.Board, attacker: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the enemy pieces that a piece attacks and that are worth attacking.

    A king, an undefended piece, a more valuable one, or one that an exchange
    on its square would win.
    """
    ours = as_if_to_move(board, side)
    settles = ours.is_valid()
    return [
        square
        for square in attacked_by(board, attacker, not side)
        if is_target(board, attacker, square)
        or (settles and board.piece_type_at(square) != chess.PAWN and gain_on(ours, square))
    ]


def defended_squares(board: chess.Board, defender: chess.Square) -> chess.SquareSet:
    """Return the squares where a piece would take back, its pin to its king allowed for."""
    color = board.color_at(defender)
    if color is None:
        return chess.SquareSet()
    squares = board.attacks(defender)
    if board.piece_type_at(defender) != chess.KING and board.is_pinned(color, defender):
        squares &= board.pin(color, defender)
    return squares
