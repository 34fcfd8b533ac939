"""Squares by their names, in every form in which they are given."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.errors import PositionError


def read_square(square: chess.Square | str) -> chess.Square:
    """Turn the name of a square into python-chess's number; numbers stay.

    Raises
    ------
    PositionError
        If there is no such square.

    Examples
    --------
    >>> read_square("e4") == read_square(chess.E4) == chess.E4
    True
    """
    if isinstance(square, str):
        name = square.strip().lower()
        if name in chess.SQUARE_NAMES:
            return chess.SQUARE_NAMES.index(name)
    elif square in chess.SQUARES:
        return square
    raise PositionError(
        "a square is a letter from a to h and a figure from 1 to 8", given=repr(square)
    )


def names_of(squares: Iterable[chess.Square]) -> tuple[str, ...]:
    """Return the names of squares, sorted."""
    return tuple(sorted(chess.square_name(square) for square in squares))


def name(square: chess.Square) -> str:
    """Return a square's name."""
    return chess.square_name(square)
