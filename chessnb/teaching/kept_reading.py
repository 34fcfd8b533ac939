"""The turning points of a game, kept beside it: what was read once is not read again.

They are kept with a fingerprint of all that they follow from: the lesson as PGN, how many stops
it may have, the adviser, and the package itself.  Where one of these has changed, or the entry
is damaged, the game is read anew.  A cell that is written from them proves its claim as ever.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, fields
from functools import cache
from pathlib import Path
from typing import Any

from chessnb.findings.seal import fingerprint
from chessnb.lessons import Lesson, Moment
from chessnb.search.proof_book import book_of
from chessnb.teaching.adviser import Adviser
from chessnb.teaching.sign import Sign
from chessnb.teaching.turning_points import TurningPoint, turning_points

Read = tuple[tuple[TurningPoint, ...], int]
"""Turning points, and how many were found."""


class Reading:
    """One reading of a game, which is kept once its lesson is written.

    Parameters
    ----------
    lesson : Lesson
        The lesson; it must have a game.
    most : int
        How many turning points there may be.
    adviser : Adviser, optional
        Helps to choose.
    """

    def __init__(self, lesson: Lesson, *, most: int, adviser: Adviser | None = None) -> None:
        self.lesson, self.most, self.adviser = lesson, most, adviser
        helper = "" if adviser is None else f"{adviser.name} {adviser.limit}"
        self._origin = fingerprint("\n".join((lesson.pgn, str(most), helper, _package())))
        self._entry: dict[str, Any] | None = None

    def turning_points(self, on_move: Callable[[int, int], None] | None = None) -> Read:
        """Find where to stop, as :func:`~chessnb.teaching.turning_points.turning_points` does.

        Notes
        -----
        A game that was read before costs some hundredths of a second.
        """
        book = book_of(self.lesson.start)
        kept = {} if book is None else book.reading
        if kept.get("of") == self._origin:
            with suppress(ValueError, KeyError, TypeError, AttributeError):
                if kept["seal"] == _seal(kept):
                    return _from_data(self.lesson, kept)
        found = turning_points(self.lesson, most=self.most, on_move=on_move, adviser=self.adviser)
        points = [_data(one) for one in found[0]]
        self._entry = {"of": self._origin, "found": found[1], "points": points}
        return found

    def keep(self) -> None:
        """Write what was found into the game's proof book, if it is not there."""
        book = book_of(self.lesson.start)
        if book is not None and self._entry is not None:
            book.keep_reading({**self._entry, "seal": _seal(self._entry)})


def _seal(entry: Mapping[str, Any]) -> str:
    return fingerprint(repr((entry["of"], entry["found"], entry["points"])))


@cache
def _package() -> str:
    """Return a text that changes with the package: another one may find something else."""
    folder = Path(__file__).parents[1]
    sources = sorted([*folder.rglob("*.py"), *folder.rglob("*.json")])
    return fingerprint("".join(path.read_text(encoding="utf-8") for path in sources))


def _data(point: TurningPoint) -> dict[str, Any]:
    """Return a turning point as JSON has it, its moment as a number of half-moves."""
    told = {field.name: getattr(point, field.name) for field in fields(point)}
    told["moment"] = point.moment.node.ply()
    told["signs"] = [asdict(sign) for sign in point.signs]
    return {name: list(held) if isinstance(held, tuple) else held for name, held in told.items()}


def _from_data(lesson: Lesson, kept: Mapping[str, Any]) -> Read:
    moments = {moment.node.ply(): moment for moment in _main_line(lesson)}
    points = []
    for entry in kept["points"]:
        told: dict[str, Any] = {
            name: tuple(held) if isinstance(held, list) else held for name, held in entry.items()
        }
        told["moment"] = moments[entry["moment"]]
        told["signs"] = tuple(Sign(**sign) for sign in entry["signs"])
        points.append(TurningPoint(**told))
    return tuple(points), int(kept["found"])


def _main_line(lesson: Lesson) -> Iterable[Moment]:
    moment: Moment | None = lesson.start
    while moment is not None:
        yield moment
        moment = moment.next
