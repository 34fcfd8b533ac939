"""The plan of an hour: how many minutes each stop may take, and what to leave out first.

The weights are common practice, and no source stands behind them: a position
that is only shown takes as long as it takes to tell, a question three minutes
and one more for each move that has to be seen ahead.  What a class really
needs, its teacher knows better.

Whole minutes, the same for the same lesson every time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from typing import Any

from chessnb.board.naming import counted, listed
from chessnb.errors import LessonError

USUAL = 45
"""So many minutes a lesson has that does not say how long it takes."""

WORDS_A_MINUTE = 120
"""So fast a teacher reads to a class that follows on a board."""

SHOWN, ASKED = 1, 3
"""The minutes of a stop before what it holds is looked at: one that shows, one that asks."""

FARTHEST = 6
"""More moves ahead than these do not make a question longer: it is told by then."""

DATA_VERSION = 1
"""Of the form of a plan as plain values: a field that goes or changes makes it one more."""

STRETCHED = 2
"""No stop is given more than so many times what it needs; what is left is to spare."""


@dataclass(frozen=True, kw_only=True)
class Stop:
    """What the plan knows of a stop.

    Attributes
    ----------
    name : str
        What it is called: the heading above it.
    asks : bool
        Whether the class is asked something there.
    ahead : int
        How many moves have to be seen ahead to answer.
    words : int
        How many words are told before it and on it.
    """

    name: str
    asks: bool = False
    ahead: int = 0
    words: int = 0

    def __post_init__(self) -> None:
        if self.ahead < 0 or self.words < 0:
            raise LessonError("a stop has no fewer than 0 moves ahead and 0 words")

    @property
    def least(self) -> int:
        """The minutes below which it is better left out."""
        return 2 if self.asks else 1

    @property
    def needs(self) -> Fraction:
        """The minutes that it needs, by the rules of thumb above.

        Examples
        --------
        >>> Stop(name="the quiet key", asks=True, ahead=4, words=60).needs
        Fraction(15, 2)
        """
        thinking = ASKED + min(self.ahead, FARTHEST) if self.asks else SHOWN
        return Fraction(self.words, WORDS_A_MINUTE) + thinking


@dataclass(frozen=True, kw_only=True)
class PlannedStop:
    """A stop with its time.

    Attributes
    ----------
    name : str
        What it is called.
    begins : int
        The minute in which it begins, counted from the start of the lesson.
    minutes : int
        How long it takes; 0 if there is no time for it.
    leave_out : int
        In which place it is left out if time runs short: 1 goes first; 0 if
        there is no time for it anyway.
    """

    name: str
    begins: int
    minutes: int
    leave_out: int


@dataclass(frozen=True, kw_only=True)
class HourPlan:
    """A lesson in minutes.

    Attributes
    ----------
    minutes : int
        How long it takes in all.
    opening, closing : int
        The minutes before the first stop, and after the last.
    stops : tuple of PlannedStop
        In the order of the lesson.
    spare : int
        The minutes that no stop needs.
    """

    minutes: int
    opening: int
    stops: tuple[PlannedStop, ...]
    closing: int
    spare: int

    @property
    def rows(self) -> tuple[tuple[int, str, int], ...]:
        """The whole hour, from its opening to its end: begin, what it is, minutes."""
        end = self.minutes - self.closing
        spare = [(end - self.spare, "To spare", self.spare)] if self.spare else []
        return (
            (0, "The game and the goals", self.opening),
            *((stop.begins, stop.name, stop.minutes) for stop in self.stops),
            *spare,
            (end, "Looking back", self.closing),
        )

    def lines(self) -> list[str]:
        """Return the plan as plain lines: the minute, what begins, how long it takes."""
        rows = [
            f"{begins:>4}  {name}: {counted(minutes, 'minute') if minutes else 'left out'}"
            for begins, name, minutes in self.rows
        ]
        return [f"{self.minutes} minutes:", *rows, *([self.in_words] if self.in_words else [])]

    @property
    def data(self) -> dict[str, Any]:
        """The plan as plain values, for a script.

        ``version``, ``minutes``, ``opening``, ``closing``, ``spare``, and ``stops``, each with
        the fields of a :class:`PlannedStop`.
        """
        return {"version": DATA_VERSION, **asdict(self)}

    @property
    def first_to_go(self) -> tuple[PlannedStop, ...]:
        """The stops, in the order in which they are left out if time runs short."""
        kept = (stop for stop in self.stops if stop.leave_out)
        return tuple(sorted(kept, key=lambda stop: stop.leave_out))

    @property
    def dropped(self) -> tuple[PlannedStop, ...]:
        """The stops for which there is no time."""
        return tuple(stop for stop in self.stops if not stop.minutes)

    @property
    def in_words(self) -> str:
        """What a teacher must know beside the minutes: what goes first, and what has gone."""
        said = []
        if self.dropped:
            said.append(f"There is no time for {_named(self.dropped)}.")
        if not self.spare and len(self.first_to_go) > 1:
            first = self.first_to_go[: min(3, len(self.first_to_go) - 1)]
            said.append(f"If time runs short, leave out first {_named(first)}.")
        return " ".join(said)

    def late(self, number: int, *, gone: int) -> int:
        """Return how many minutes a class is behind the plan.

        Parameters
        ----------
        number : int
            The stop where it is, counted from 1.
        gone : int
            The minutes since the lesson began.

        Returns
        -------
        int
            0 while it is still in the time of that stop; below 0 before it.
        """
        stop = self.stops[number - 1]
        if gone < stop.begins:
            return gone - stop.begins
        return max(0, gone - stop.begins - stop.minutes)


def hour_plan(stops: Sequence[Stop], *, minutes: int | None = None) -> HourPlan:
    """Fit the stops of a lesson to its time.

    Parameters
    ----------
    stops : sequence of Stop
        In the order of the lesson.
    minutes : int, optional
        How long the lesson takes; 45 if nothing is said.

    Raises
    ------
    LessonError
        If the time is no number of minutes above 0.

    Examples
    --------
    >>> plan = hour_plan([Stop(name="the pin"), Stop(name="the key", asks=True)], minutes=12)
    >>> [(stop.begins, stop.minutes) for stop in plan.stops], plan.spare
    ([(2, 2), (4, 6)], 0)
    """
    whole = USUAL if minutes is None else minutes
    if whole <= 0:
        raise LessonError(f"minutes is how long the lesson takes: a number above 0, not {minutes}")
    opening = closing = min(4, whole // 6)
    time = whole - opening - closing
    order = _first_to_go(stops)
    kept = _kept(stops, order, time)
    given = _shared(stops, kept, time)
    places = {number: place for place, number in enumerate((n for n in order if n in kept), 1)}
    planned, begins = [], opening
    for number, stop in enumerate(stops):
        takes = given.get(number, 0)
        planned.append(
            PlannedStop(
                name=stop.name, begins=begins, minutes=takes, leave_out=places.get(number, 0)
            )
        )
        begins += takes
    return HourPlan(
        minutes=whole,
        opening=opening,
        stops=tuple(planned),
        closing=closing,
        spare=time - sum(given.values()),
    )


def _named(stops: Sequence[PlannedStop]) -> str:
    return listed(f"“{stop.name}”" for stop in stops)


def _first_to_go(stops: Sequence[Stop]) -> list[int]:
    """Return the stops by what is lost with them: shown before asked, the easier one first."""
    return sorted(
        range(len(stops)), key=lambda number: (stops[number].asks, stops[number].needs, number)
    )


def _kept(stops: Sequence[Stop], order: Sequence[int], time: int) -> set[int]:
    """Return the stops that there is time for."""
    kept = set(order)
    for number in order:
        if sum(stops[one].least for one in kept) <= time:
            break
        kept.discard(number)
    return kept


def _shared(stops: Sequence[Stop], kept: set[int], time: int) -> dict[int, int]:
    """Share the time out in whole minutes, as near to what each stop needs as can be.

    A minute at a time goes to the stop that has the smallest part of what it
    needs, the first of several.
    """
    given = {number: stops[number].least for number in sorted(kept)}
    for _ in range(time - sum(given.values())):
        waiting = [
            number
            for number, minutes in given.items()
            if minutes + 1 <= STRETCHED * stops[number].needs
        ]
        if not waiting:
            break
        poorest = min(waiting, key=lambda number: given[number] / stops[number].needs)
        given[poorest] += 1
    return given
