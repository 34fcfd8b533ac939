"""Lines, attackers and guards: the geometry that the motifs share."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.facts.men import POINTS

SLIDERS = (chess.BISHOP, chess.ROOK, chess.QUEEN)
"""The line pieces."""

KING_WORTH = 100
"""What a king counts as a target: more than any other piece."""


def worth(board: chess.Board, square: chess.Square) -> int:
    """Return what the man on a square is worth as a target, in points; 0 for an empty square."""
    kind = board.piece_type_at(square)
    if kind is None:
        return 0
    return KING_WORTH if kind == chess.KING else POINTS[kind]


def is_slider(board: chess.Board, square: chess.Square) -> bool:
    """Tell whether a line piece stands on a square."""
    return board.piece_type_at(square) in SLIDERS


def moves_along(board: chess.Board, slider: chess.Square, target: chess.Square) -> bool:
    """Tell whether a line piece moves along the line that joins two squares."""
    kind = board.piece_type_at(slider)
    straight = chess.square_file(slider) == chess.square_file(target) or chess.square_rank(
        slider
    ) == chess.square_rank(target)
    if not chess.SquareSet.ray(slider, target):
        return False
    return kind == chess.QUEEN or kind == (chess.ROOK if straight else chess.BISHOP)


def behind(board: chess.Board, slider: chess.Square, front: chess.Square) -> chess.Square | None:
    """Return the next man behind `front` on the slider's line, or None."""
    for square in beyond(slider, front):
        if board.piece_at(square) is not None:
            return square
    return None


def beyond(start: chess.Square, through: chess.Square) -> Iterator[chess.Square]:
    """Yield the squares of a line behind a square, away from the start, in order."""
    files = chess.square_file(through) - chess.square_file(start)
    ranks = chess.square_rank(through) - chess.square_rank(start)
    step_file = (files > 0) - (files < 0)
    step_rank = (ranks > 0) - (ranks < 0)
    file, rank = chess.square_file(through) + step_file, chess.square_rank(through) + step_rank
    while 0 <= file < 8 and 0 <= rank < 8:
        yield chess.square(file, rank)
        file, rank = file + step_file, rank + step_rank


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


def moved(board: chess.Board, moves: list[chess.Move]) -> chess.Board:
    """Return a new board after some moves."""
    after = board.copy(stack=False)
    for move in moves:
        after.push(move)
    return after


def name(square: chess.Square) -> str:
    """Return a square's name."""
    return chess.square_name(square)


def as_if_to_move(board: chess.Board, side: chess.Color) -> chess.Board:
    """Return the position with a side to move: the same, or as after a pass."""
    if board.turn == side:
        return board
    other = board.copy(stack=False)
    other.turn = side
    other.ep_square = None
    return other


def line_through(one: chess.Square, other: chess.Square) -> chess.SquareSet:
    """Return the whole line of the board that joins two squares."""
    return chess.SquareSet.ray(one, other)


def exchange(board: chess.Board, square: chess.Square) -> int:
    """Return what the side to move gains by taking on one square, in points; never below 0.

    The cheapest man takes first; either side may stop.
    """
    takers = [move for move in board.legal_moves if move.to_square == square]
    takers = [move for move in takers if board.is_capture(move)]
    if not takers:
        return 0
    first = min(takers, key=lambda move: (worth(board, move.from_square), move.from_square))
    return max(0, worth(board, square) - exchange(moved(board, [first]), square))


def guarded_squares(board: chess.Board, guard: chess.Square) -> chess.SquareSet:
    """Return the squares where a man would take back, its pin to its king allowed for."""
    color = board.color_at(guard)
    if color is None:
        return chess.SquareSet()
    squares = board.attacks(guard)
    if board.piece_type_at(guard) != chess.KING and board.is_pinned(color, guard):
        squares &= board.pin(color, guard)
    return squares
