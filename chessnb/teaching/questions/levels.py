"""Levels: how much help a class gets, and how long a solution it is asked for.

A level changes hints and length.  What is right does not depend on it.
"""

from __future__ import annotations

from dataclasses import dataclass

from chessnb.errors import InputError
from chessnb.lessons import Moment
from chessnb.teaching.questions.question_values import SORTS, Hint, Sort


@dataclass(frozen=True, kw_only=True)
class Level:
    """What a class of a level is given.

    Attributes
    ----------
    name : str
        What it is called.
    hints : tuple of str
        The sorts of hints that it gets.
    moves : int
        The longest solution that it is asked for, in the solver's moves.
    """

    name: str
    hints: tuple[Sort, ...]
    moves: int


BEGINNER = Level(name="beginner", hints=SORTS, moves=2)
CLUB = Level(name="club", hints=SORTS[:3], moves=4)
STRONG = Level(name="strong", hints=SORTS[:1], moves=40)

_SAID = {
    BEGINNER: ("beginner", "beginners", "children", "kids", "new", "novice", "school"),
    CLUB: ("club", "intermediate", "improver", "improvers", "youth"),
    STRONG: ("strong", "advanced", "expert", "tournament", "master", "league"),
}


def read_level(level: str | None, position: object = None) -> Level:
    """Return the level that is named; the lesson's own if none is, else that of a club.

    A lesson may say of its level what it likes; a word that is known counts.

    Raises
    ------
    InputError
        If a level is named that there is not.

    Examples
    --------
    >>> read_level("Beginners").name, read_level(None).name
    ('beginner', 'club')
    """
    if level is None:
        said = getattr(position.lesson, "level", "") if isinstance(position, Moment) else ""
        return _known(said) or CLUB
    found = _known(level) if isinstance(level, str) else None
    if found is None:
        raise InputError("a level is 'beginner', 'club' or 'strong'", given=level)
    return found


def _known(said: str) -> Level | None:
    words = said.lower().replace(",", " ").split()
    return next((one for one, names in _SAID.items() if set(names) & set(words)), None)


def given_hints(hints: bool, level: Level, *offered: Hint) -> tuple[Hint, ...]:
    """Return the hints of a question for a level, the gentlest first; none if none are wanted."""
    if not hints:
        return ()
    told = [one for one in offered if one.text and one.sort in level.hints]
    return tuple(sorted(told, key=lambda one: SORTS.index(one.sort)))
