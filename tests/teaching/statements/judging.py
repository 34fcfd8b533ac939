"""Sentences with what they state, and whether that is true: read, settled, and counted.

Each line of `english.txt` and `german.txt` has the position (a game of `games.pgn` with the
move that the sentence is a comment on, or a line of `positions.txt`), whether the sentence is
true, its parts as `Statement.parts` has them (more may be read, none of these may be missing),
and the sentence. "silent" marks what must not be read. Every other line is kept aside: no
pattern was mended on those.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import chess.pgn

from chessnb.lessons import Lesson, Moment
from chessnb.teaching.statements.english import ENGLISH
from chessnb.teaching.statements.reader import read_statements
from chessnb.teaching.statements.settle import settle

HERE = Path(__file__).parent


@dataclass(frozen=True, kw_only=True)
class Row:
    """One sentence."""

    number: int
    place: str
    truth: str
    parts: tuple[str, ...]
    sentence: str

    @property
    def is_kept(self) -> bool:
        """Whether it was kept aside while the patterns were made."""
        return self.number % 2 == 1


@cache
def rows(name: str) -> tuple[Row, ...]:
    lines = (HERE / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    told = [line.split(" | ") for line in lines if line and not line.startswith("#")]
    return tuple(
        Row(
            number=number, place=place.strip(), truth=truth.strip(), sentence=sentence,
            parts=tuple(part.strip() for part in parts.split(",")),
        )
        for number, (place, truth, parts, sentence) in enumerate(told)
    )  # fmt: skip


@cache
def games() -> dict[str, Lesson]:
    found = {}
    with (HERE / "games.pgn").open(encoding="utf-8") as file:
        while (game := chess.pgn.read_game(file)) is not None:
            found[game.headers["White"]] = Lesson.from_text(str(game))
    return found


@cache
def positions() -> dict[str, str]:
    lines = (HERE / "positions.txt").read_text(encoding="utf-8").splitlines()
    return dict(line.split(" = ") for line in lines if line)


def moment_of(place: str) -> Moment:
    name, _, address = place.partition(": ")
    if address:
        return games()[name].after(address)
    return Lesson().add_position(positions()[name], name=name)


@dataclass(frozen=True, kw_only=True)
class Judged:
    """What became of a sentence: proved, wrong, not proved, unread, misread, silent."""

    row: Row
    became: str
    read: tuple[tuple[str, ...], ...]
    told: str = ""


def judged(row: Row, language=ENGLISH) -> Judged:
    statements = read_statements(row.sentence, moment_of(row.place), language=language)
    read = tuple(one.parts for one in statements)
    if not statements:
        return Judged(row=row, became="silent" if row.truth == "silent" else "unread", read=read)
    meant = [one for one in statements if set(row.parts) <= set(one.parts)]
    if not meant or row.truth == "silent":
        return Judged(row=row, became="misread", read=read)
    settled = settle(meant[0])
    return Judged(row=row, became=settled.status, read=read, told=settled.truth)


def figures(found: list[Judged]) -> dict[str, float]:
    """Count as the package is measured."""
    by = Counter((one.row.truth, one.became) for one in found)
    true = sum(count for (truth, _), count in by.items() if truth == "true")
    false = sum(count for (truth, _), count in by.items() if truth == "false")
    return {
        "true proved": by["true", "proved"] / max(1, true),
        "true called wrong": by["true", "wrong"] / max(1, true),
        "false reported": (by["false", "wrong"] + by["false", "not proved"]) / max(1, false),
        "false called wrong": by["false", "wrong"] / max(1, false),
        "false proved": by["false", "proved"] / max(1, false),
        "misread": sum(one.became == "misread" for one in found) / max(1, len(found)),
        "unread": sum(one.became == "unread" for one in found) / max(1, len(found)),
    }
