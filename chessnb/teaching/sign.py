"""A sign: something that was found about a move of the game, and the cell that claims it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Sign:
    """Something that computation found about a move.

    Attributes
    ----------
    weight : int
        How much speaks for stopping here (common practice, no source).
    words : str
        What was found, as it follows "why stop here".
    cell : str
        The code of a cell that claims it; empty if there is none.
    kind : str
        What sort of finding it is, for the cell's key.
    """

    weight: int
    words: str
    cell: str = ""
    kind: str = ""
