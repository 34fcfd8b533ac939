"""What a lesson says of itself, how a game file keeps it, and what a lesson holds.

Title, level, goals and minutes stand in supplementary tags, as the PGN
standard (section 8.1.2) allows them, so a saved lesson is an ordinary game.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Sized
from dataclasses import dataclass
from typing import Any, Self

import chess.pgn

from chessnb.board.naming import counted
from chessnb.errors import LessonError
from chessnb.findings.record_fields import fields_by_unit
from chessnb.lessons.addresses import walk
from chessnb.lessons.comments import line_name, readable, spoken_name
from chessnb.lessons.game_files import escape_tag, unescape_tag

_TITLE, _LEVEL, _GOALS, _MINUTES = "LessonTitle", "LessonLevel", "LessonGoals", "LessonMinutes"
_SEPARATOR = "; "


@dataclass(frozen=True, kw_only=True)
class About:
    """What a lesson says of itself; empty where it says nothing.

    Attributes
    ----------
    title, level : str
        What it is called, and for whom it is.
    goals : tuple of str
        What the class should take home.
    minutes : int or None
        How long it is planned to take.
    """

    title: str = ""
    level: str = ""
    goals: tuple[str, ...] = ()
    minutes: int | None = None

    @classmethod
    def of(cls, headers: Mapping[str, str]) -> Self:
        """Read it from a game's headers; a number of minutes that is none is passed over."""
        said = {
            tag: unescape_tag(headers.get(tag, "")) for tag in (_TITLE, _LEVEL, _GOALS, _MINUTES)
        }
        minutes = said[_MINUTES]
        sensible = minutes.isdecimal() and len(minutes) < 5 and int(minutes) > 0
        return cls(
            title=said[_TITLE],
            level=said[_LEVEL],
            goals=tuple(filter(None, said[_GOALS].split(_SEPARATOR))),
            minutes=int(minutes) if sensible else None,
        )

    @property
    def for_whom(self) -> str:
        """Level, time and goals in sentences; empty if nothing is said of them."""
        said = [self.level and f"Level: {self.level}."]
        if self.minutes is not None:
            said.append(f"Time: {self.minutes} minutes.")
        if self.goals:
            said.append(f"Goals: {'; '.join(self.goals)}.")
        return " ".join(filter(None, said))

    def write(self, headers: chess.pgn.Headers) -> None:
        """Write it into a game's headers; what it does not say is taken out of them."""
        values = {
            _TITLE: self.title,
            _LEVEL: self.level,
            _GOALS: _SEPARATOR.join(self.goals),
            _MINUTES: "" if self.minutes is None else str(self.minutes),
        }
        for tag, value in values.items():
            set_tag(headers, tag, value)


def set_tag(headers: chess.pgn.Headers, tag: str, value: str) -> None:
    """Set a header to a text, or take it out if there is none."""
    if value:
        headers[tag] = escape_tag(value)
    else:
        headers.pop(tag, None)


def check(*, goals: Sequence[str] | None, minutes: Any) -> None:
    """Refuse goals and minutes that could not be kept.

    Raises
    ------
    LessonError
        With what was expected and what came.
    """
    if minutes is not None and (not isinstance(minutes, int) or minutes <= 0):
        raise LessonError(
            f"minutes is how long the lesson takes: a number above 0, not {minutes!r}"
        )
    if isinstance(goals, str) or any(";" in goal for goal in goals or ()):
        raise LessonError(f"goals is a list of short sentences without semicolons, not {goals!r}")


def title_of(game: chess.pgn.Game | None) -> str:
    """Return the title that a game gives itself: its players."""
    if game is None:
        return "Lesson"
    names = [unescape_tag(game.headers.get(side, "?")).strip() for side in ("White", "Black")]
    if set("".join(names)) <= set("?."):
        return "A game"
    return " – ".join(spoken_name(name) for name in names)


def holds(game: chess.pgn.Game | None, positions: Sized) -> Iterator[str]:
    """Yield what a lesson holds as fields of a record: ``"moves 30"``, ``"sidelines 2"``."""
    if game is not None:
        nodes = list(walk(game))
        main = [node for node in nodes if node.is_mainline()]
        sidelines = sum(node.starts_variation() for node in nodes)
        comments = sum(
            bool(readable(text))
            for node in (game, *nodes)
            for text in (node.comment, node.starting_comment)
            if line_name(node) is None or text is node.comment
        )
        yield f"moves {(len(main) + 1) // 2}"
        if sidelines:
            yield f"sidelines {sidelines}"
        if comments:
            yield f"comments {comments}"
    if positions:
        yield f"positions {len(positions)}"


def holds_in_words(fields: Iterable[str]) -> str:
    """Say what a lesson holds.

    Examples
    --------
    >>> holds_in_words(["moves 30", "sidelines 1"])
    '30 moves, 1 sideline'
    """
    return ", ".join(counted(number, noun[:-1]) for noun, number in fields_by_unit(fields).items())
