"""When a position comes back: the days that the FSRS algorithm gives, by how it was played.

How well a move was known is not asked: a wrong try, or giving up, is a miss;
a hint or a long time makes it hard; quick and at once makes it easy.  Only
what was missed once comes back; whatever was known needs no card.

The scheduler is the package ``fsrs``, without steps of minutes and without
chance, so that a class sees a position again on another day, and the same
history gives the same day.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import Any, Literal

from chessnb.errors import ChessnbError, as_given

Grade = Literal["again", "hard", "good", "easy"]
"""How well a move was known, worst first."""

GRADES: tuple[Grade, ...] = ("again", "hard", "good", "easy")

QUICK_SECONDS = 5.0
SLOW_SECONDS = 30.0
"""What counts as quick and as slow (common practice, no source)."""

VERSION = 1


class ScheduleError(ChessnbError, ValueError):
    """A text is no schedule, or a moment has no time zone."""


def grade_of(*, wrong: int, hints: int, seconds: float, shown: bool = False) -> Grade:
    """Say how well a move was known, from how it was played.

    Parameters
    ----------
    wrong : int
        Wrong tries before the right one.
    hints : int
        Hints taken.
    seconds : float
        From question to answer.
    shown : bool
        Whether the move had to be shown.

    Examples
    --------
    >>> [grade_of(wrong=0, hints=0, seconds=seconds) for seconds in (3, 12, 60)]
    ['easy', 'good', 'hard']
    >>> grade_of(wrong=1, hints=0, seconds=3), grade_of(wrong=0, hints=1, seconds=3)
    ('again', 'hard')
    """
    if shown or wrong:
        return "again"
    if hints or seconds > SLOW_SECONDS:
        return "hard"
    return "easy" if seconds <= QUICK_SECONDS else "good"


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """What comes back, and when; a value: each change gives another.

    Attributes
    ----------
    cards : mapping of str to dict
        By the key of a position, the card of the ``fsrs`` package as plain data.
    """

    cards: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)

    def reviewed(self, key: str, grade: Grade, at: datetime) -> Schedule:
        """Return the schedule after a position was played.

        A position that was never missed and is known gets no card.

        Parameters
        ----------
        key : str
            The position, as :attr:`Stop.key` names it.
        grade : {"again", "hard", "good", "easy"}
            How well it was known.
        at : datetime
            When; with a time zone.
        """
        from fsrs import Card, Rating, Scheduler

        if grade not in GRADES:
            raise ScheduleError(f"a grade is one of {', '.join(GRADES)}, not {as_given(grade)}")
        moment = _in_utc(at)
        known = self.cards.get(key)
        if known is None and grade != "again":
            return self
        card = Card(card_id=0, due=moment) if known is None else Card.from_dict(_card(known))
        scheduler = Scheduler(learning_steps=(), relearning_steps=(), enable_fuzzing=False)
        card, _ = scheduler.review_card(card, Rating(GRADES.index(grade) + 1), moment)
        return replace(self, cards={**self.cards, key: dict(card.to_dict())})

    def due(self, at: datetime) -> frozenset[str]:
        """Return the positions that come back by a moment."""
        moment = _in_utc(at)
        return frozenset(
            key
            for key, card in self.cards.items()
            if datetime.fromisoformat(str(card["due"])) <= moment
        )

    def due_at(self, key: str) -> datetime | None:
        """Return when a position comes back; None if it does not."""
        card = self.cards.get(key)
        return None if card is None else datetime.fromisoformat(str(card["due"]))

    def text(self) -> str:
        """Return the schedule as text, to be kept."""
        cards = {key: dict(card) for key, card in self.cards.items()}
        return json.dumps({"chessnb schedule": VERSION, "cards": cards}, sort_keys=True)

    @classmethod
    def read(cls, text: str) -> Schedule:
        """Read a schedule back.

        Raises
        ------
        ScheduleError
            If the text is none.
        """
        try:
            data = json.loads(text)
            cards = data["cards"]
            if data["chessnb schedule"] != VERSION or not isinstance(cards, dict):
                raise ValueError
            return cls(cards={str(key): _card(card) for key, card in cards.items()})
        except (ValueError, TypeError, KeyError, RecursionError, AttributeError):
            raise ScheduleError("this is no schedule that chessnb has written") from None


def _card(data: Mapping[str, Any]) -> Any:
    """Return a card's data if it is what a card of ours holds."""
    names = ("card_id", "state", "step", "stability", "difficulty", "due", "last_review")
    if set(data) != set(names) or data["card_id"] != 0 or data["state"] not in (1, 2, 3):
        raise ValueError("no card")
    for name in ("stability", "difficulty"):
        number = data[name]
        if isinstance(number, bool) or not isinstance(number, int | float):
            raise ValueError("no number")
        if not math.isfinite(number) or not 0 < number < 1e6:
            raise ValueError("no number")
    for name in ("due", "last_review"):
        if datetime.fromisoformat(data[name]).utcoffset() is None:
            raise ValueError("no time zone")
    return {name: data[name] for name in names}


def _in_utc(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise ScheduleError("a moment has a time zone, as in datetime.now(UTC)")
    return at.astimezone(UTC)
