"""How far verdicts look."""

from __future__ import annotations

from dataclasses import dataclass

from chessnb.errors import InputError
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.search.budget import MOST_POSITIONS


@dataclass(frozen=True, kw_only=True)
class Depth:
    """How far verdicts look.

    Attributes
    ----------
    mate : int
        Mates within so many moves, for either side.
    within : int
        Material won or lost within so many moves of the side that wins it.
    budget : int
        Positions for each question.
    """

    mate: int = 3
    within: int = 3
    budget: int = 400_000

    def __post_init__(self) -> None:
        whole_number("mate", self.mate, most=MOST_MOVES)
        whole_number("within", self.within, most=MOST_MOVES)
        whole_number("budget", self.budget, most=MOST_POSITIONS)


USUAL = Depth()
"""How far verdicts look unless told otherwise."""


def read_depth(depth: object) -> Depth:
    """Return a depth that was given.

    Raises
    ------
    InputError
        If it is none; with how one is written.
    """
    if isinstance(depth, Depth):
        return depth
    raise InputError("depth is written Depth(mate=3, within=3, budget=400_000)", given=depth)
