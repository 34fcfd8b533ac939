"""What can be proved of a position: the goals, and when each is reached.

A goal is the claim of one side, the *attacker*; the other side, the
*defender*, tries everything the rules allow.  Moves are counted as the
attacker's own.  Repetition and the 50-move rule are left out.

Material is counted in points, 1-3-3-5-9 (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from chessnb.errors import ChessnbError
from chessnb.proof.measure import Measure

MOST_MOVES = 40
"""The longest goal, in the attacker's moves: what the solver keeps room for."""

MOST_POINTS = 103
"""All that one side can have: nine queens, and the pieces that no pawn becomes."""


class GoalError(ChessnbError, ValueError):
    """A goal that has no meaning, or is longer than the solver goes."""


@dataclass(frozen=True, kw_only=True)
class Mate:
    """Mate, with the attacker's `within`-th move at the latest.

    Parameters
    ----------
    within : int
        The attacker's moves; at least 1.
    """

    within: int

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)

    @property
    def words(self) -> str:
        """The goal as a noun: ``"mate in 3"``."""
        return f"mate in {self.within}"


@dataclass(frozen=True, kw_only=True)
class Gain:
    """Material, at a quiet end of the line; or mate within the same moves.

    A defender that lets itself be mated has not kept its material: without
    the mate the claim would be false whenever mate is the smaller evil.

    Parameters
    ----------
    points : int
        At least so many points more than the measure's balance.
    within : int
        The attacker's moves; quiet comebacks after them are not searched.
    measure : Measure
        What the gain is measured from.
    """

    points: int
    within: int
    measure: Measure

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)
        whole_number("points", self.points, most=MOST_POINTS)

    @property
    def baseline(self) -> int:
        """The balance that it is measured from, in the attacker's points minus the defender's."""
        return self.measure.value

    @property
    def target(self) -> int:
        """The balance that must stand in the end, in the attacker's points."""
        return self.baseline + self.points

    @property
    def words(self) -> str:
        """The goal as a noun: ``"a gain of at least 5 within 4 moves"``."""
        return f"a gain of at least {self.points} within {_moves(self.within)}"


@dataclass(frozen=True, kw_only=True)
class MateOrGain:
    """Mate within some moves, or material within others: the usual goal in class."""

    mate: Mate
    gain: Gain

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return f"{self.mate.words} or {self.gain.words}"


@dataclass(frozen=True, kw_only=True)
class Stalemate:
    """A stalemate of either side that the attacker forces, a saving draw."""

    within: int

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return f"stalemate within {_moves(self.within)}"


@dataclass(frozen=True, kw_only=True)
class Perpetual:
    """Check after check without end: a draw at least, since positions must repeat."""

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return "perpetual check"


Goal = Mate | Gain | MateOrGain | Stalemate | Perpetual
"""Anything that can be proved of a position."""


def mate_within(goal: Goal) -> int:
    """Return the attacker's moves within which checkmate reaches a goal; 0 if it does not count."""
    match goal:
        case Mate():
            return goal.within
        case Gain():
            return goal.within
        case MateOrGain():
            return max(goal.mate.within, goal.gain.within)
    return 0


def gain_of(goal: Goal) -> Gain | None:
    """Return the material part of a goal, if it has one."""
    match goal:
        case Gain():
            return goal
        case MateOrGain():
            return goal.gain
    return None


def after(goal: Goal, *moves: chess.Move) -> Goal:
    """Return a goal as it is asked some moves later: its gain is measured where it was.

    A pass among the moves is python-chess's null move.
    """
    match goal:
        case Gain():
            return replace(goal, measure=goal.measure.after(*moves))
        case MateOrGain():
            gain = replace(goal.gain, measure=goal.gain.measure.after(*moves))
            return replace(goal, gain=gain)
    return goal


@dataclass(frozen=True, kw_only=True)
class Aims:
    """A goal as numbers: the moves within which each aim counts, 0 where it does not.

    Attributes
    ----------
    mate, gain, stalemate : int
        The attacker's moves.
    target : int
        The balance that a gain must reach, in the attacker's points.
    """

    mate: int = 0
    gain: int = 0
    target: int = 0
    stalemate: int = 0


def aims_of(goal: Goal) -> Aims:
    """Return a goal as numbers."""
    if isinstance(goal, Stalemate):
        return Aims(stalemate=goal.within)
    gain = gain_of(goal)
    if gain is None:
        return Aims(mate=mate_within(goal))
    return Aims(mate=mate_within(goal), gain=gain.within, target=gain.target)


def longest(goal: Goal) -> int:
    """Return the most moves that the attacker may make before a goal is reached."""
    match goal:
        case Stalemate():
            return goal.within
        case Perpetual():
            return 0
    return mate_within(goal)


def whole_number(name: str, value: object, *, most: int) -> None:
    """Refuse what is no whole number from 1 to `most`.

    Raises
    ------
    GoalError
        With the name under which it was given.

    Examples
    --------
    >>> whole_number("within", 3, most=40)
    """
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
        raise GoalError(f"{name} is a whole number from 1 to {most:,}, not {value!r}")


def _moves(number: int) -> str:
    return "1 move" if number == 1 else f"{number} moves"
