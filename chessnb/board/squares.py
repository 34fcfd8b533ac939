"""Squares by their names, in every form in which they are given."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import chess

from chessnb.errors import InputError

Square = str | chess.Square
"""A square as a teacher names it: ``"e4"`` or ``chess.E4``; capitals do not matter."""


def read_square(square: Square) -> chess.Square:
    """Read the name of a square.

    Raises
    ------
    InputError
        If there is no such square.

    Examples
    --------
    >>> read_square(" E4 ") == read_square(chess.E4) == chess.E4
    True
    """
    if isinstance(square, str):
        name = square.strip().lower()
        if name in chess.SQUARE_NAMES:
            return chess.SQUARE_NAMES.index(name)
    elif isinstance(square, int) and not isinstance(square, bool) and square in chess.SQUARES:
        return square
    raise InputError(
        "a square is a letter from a to h and a figure from 1 to 8, such as 'e4'", given=square
    )


def read_squares(squares: Square | Iterable[Square]) -> tuple[chess.Square, ...]:
    """Read several squares, or one.

    Raises
    ------
    InputError
        If one of them is no square, or they cannot be run through.

    Examples
    --------
    >>> read_squares(["d5", "e4"]) == (chess.D5, chess.E4), read_squares("d5") == (chess.D5,)
    (True, True)
    """
    if isinstance(squares, str | int):
        return (read_square(squares),)
    if not isinstance(squares, Iterable) or isinstance(squares, bytes | Mapping):
        raise InputError("squares are a list, such as ['d5', 'e4']", given=squares)
    return tuple(map(read_square, squares))


def names_of(squares: Iterable[chess.Square]) -> tuple[str, ...]:
    """Return the names of squares, sorted."""
    return tuple(sorted(chess.square_name(square) for square in squares))


def name(square: chess.Square) -> str:
    """Return a square's name."""
    return chess.square_name(square)
