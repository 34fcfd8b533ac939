"""The two sides, in every form in which they are named."""

from __future__ import annotations

import chess

from chessnb.errors import InputError

SIDES = {chess.WHITE: "White", chess.BLACK: "Black"}
"""The names of the sides."""

Side = str | chess.Color
"""A side as a teacher names it: ``"White"``, ``"w"``, ``chess.WHITE``; capitals do not matter."""

_SAID = {"white": chess.WHITE, "w": chess.WHITE, "black": chess.BLACK, "b": chess.BLACK}


def read_side(side: Side | None, *, default: chess.Color | None = None) -> chess.Color:
    """Read the name of a side.

    Parameters
    ----------
    side : str or chess.Color, or None
        The side; ``None`` only where there is a default.
    default : chess.Color, optional
        What ``None`` stands for.

    Raises
    ------
    InputError
        If it is neither White nor Black.

    Examples
    --------
    >>> read_side("White") == read_side(" w ") == read_side(chess.WHITE) == chess.WHITE
    True
    """
    if side is None and default is not None:
        return default
    if isinstance(side, bool):
        return side
    if isinstance(side, str) and side.strip().lower() in _SAID:
        return _SAID[side.strip().lower()]
    raise InputError("a side is 'White' or 'Black'", given=side)
