"""How well the motifs name what the labels say."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from chessnb import motifs
from motifs.gold import LABELS, Label

TWELVE = {
    "absolute pin": ("absolute pin",),
    "relative pin": ("relative pin",),
    "fork": ("fork",),
    "skewer": ("skewer",),
    "discovered attack": ("discovered attack", "discovered check"),
    "double check": ("double check",),
    "removing the defender": ("removing the defender",),
    "deflection": ("deflection",),
    "decoy": ("decoy",),
    "clearance": ("clearance",),
    "overloaded piece": ("overloaded piece",),
    "mating pictures": (
        "back-rank mate", "smothered mate", "corridor mate", "epaulette mate", "double-check mate",
    ),
}  # fmt: skip
"""The motifs that teachers use most, and the names of their tags."""

NAMES = frozenset(name for group in TWELVE.values() for name in group)


@cache
def tagged(label: Label) -> tuple[motifs.Tag, ...]:
    """Return the sound tags of a labelled move."""
    return motifs.tag(label.fen, line=label.line)


@dataclass
class Score:
    """Counts over some labels, by the name of the tag."""

    right: Counter[str] = field(default_factory=Counter)
    missed: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)

    def add(self, label: Label) -> None:
        found = {tag.motif for tag in tagged(label)} & NAMES
        self.right.update(found & set(label.must))
        self.missed.update(set(label.must) - found)
        wrong = found - set(label.must) - set(label.may)
        self.wrong.update(wrong)
        for name in sorted(set(label.must) - found):
            self.faults.append(f"{name} missed: {label.fen} {label.line}")
        for name in sorted(wrong):
            self.faults.append(f"{name} is not there: {label.fen} {label.line}")

    def precision(self, *names: str) -> float:
        return _ratio(self._sum(self.right, names), self._sum(self.wrong, names))

    def recall(self, *names: str) -> float:
        return _ratio(self._sum(self.right, names), self._sum(self.missed, names))

    def _sum(self, counts: Counter[str], names: tuple[str, ...]) -> int:
        return sum(counts[name] for name in names or NAMES)


def _ratio(right: int, other: int) -> float:
    return right / (right + other) if right + other else 1.0


def score() -> Score:
    """Tag every labelled move."""
    found = Score()
    for label in LABELS:
        found.add(label)
    return found


def rows(found: Score) -> Iterator[tuple[str, int, float, float]]:
    """Yield each of the twelve with its labels, precision and recall; then all together."""
    for title, names in TWELVE.items():
        count = sum(bool(set(names) & set(label.must)) for label in LABELS)
        yield title, count, found.precision(*names), found.recall(*names)
    yield "all twelve", len(LABELS), found.precision(), found.recall()
