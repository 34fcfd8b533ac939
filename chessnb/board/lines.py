"""Lines of the board: what stands on them, and who looks along them."""

from __future__ import annotations

from collections.abc import Iterator

import chess

LINE_PIECES = (chess.BISHOP, chess.ROOK, chess.QUEEN)
"""The pieces that move along lines."""

STEPS = {
    chess.ROOK: ((1, 0), (-1, 0), (0, 1), (0, -1)),
    chess.BISHOP: ((1, 1), (1, -1), (-1, 1), (-1, -1)),
}
"""The directions of lines as (files, ranks), by the piece that moves along them."""


def is_slider(board: chess.Board, square: chess.Square) -> bool:
    """Tell whether a line piece stands on a square."""
    return board.piece_type_at(square) in LINE_PIECES


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
    """Return the next piece behind `front` on the slider's line, or None."""
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


def line_through(one: chess.Square, other: chess.Square) -> chess.SquareSet:
    """Return the whole line of the board that joins two squares."""
    return chess.SquareSet.ray(one, other)


def pinner_of(board: chess.Board, square: chess.Square) -> chess.Square:
    """Return where the piece stands that pins the piece on a square to its king."""
    side = bool(board.color_at(square))
    king = board.king(side)
    assert king is not None  # nothing is pinned to a king that is not there
    without = chess.SquareSet(board.occupied & ~chess.BB_SQUARES[square])
    pinners = board.attackers(not side, king, without)
    return next(pinner for pinner in pinners if square in chess.SquareSet.between(king, pinner))
