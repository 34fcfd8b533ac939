"""How well the motifs name what the labels say."""

from collections import Counter
from collections.abc import Iterator, Set
from dataclasses import dataclass, field
from functools import cache

from chessnb import motifs
from motifs import gold_rest
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

REST = {name: (name,) for name in motifs.names() if name not in NAMES}
"""The other motifs, each with labels in `gold_rest`."""

UNPROVED = frozenset(motif.name for motif in motifs.MOTIFS if motif.proving == "nothing")
"""Those that are never sound, and so are asked for with the geometric tags."""


@cache
def tagged(label: Label) -> tuple[motifs.Tag, ...]:
    """Return the sound tags of a labelled move."""
    asked = {*label.must, *label.may, *label.never}
    return motifs.tag(label.board, line=label.line, geometric=bool(UNPROVED & asked))


@dataclass
class Score:
    """Counts over some labels, by the name of the tag."""

    names: frozenset[str] = NAMES
    right: Counter[str] = field(default_factory=Counter)
    missed: Counter[str] = field(default_factory=Counter)
    wrong: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)

    def add(self, label: Label, *, only: Set[str] | None = None) -> None:
        found = {tag.motif for tag in tagged(label)} & self.names
        found &= self.names if only is None else only
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
        return sum(counts[name] for name in names or self.names)


def _ratio(right: int, other: int) -> float:
    return right / (right + other) if right + other else 1.0


def score(labels: tuple[Label, ...] = LABELS) -> Score:
    """Tag every labelled move."""
    found = Score()
    for label in labels:
        found.add(label)
    return found


def score_rest() -> Score:
    """Tag every labelled move of the rest: only what its label speaks of is scored."""
    found = Score(names=frozenset(REST))
    for label in gold_rest.LABELS:
        found.add(label, only={*label.must, *label.may, *label.never})
    return found


def rows_of_the_rest(found: Score) -> Iterator[tuple[str, int, float, float]]:
    """Yield each of the rest with its labels, precision and recall; then all together."""
    for title in REST:
        count = sum(title in label.must for label in gold_rest.LABELS)
        yield title, count, found.precision(title), found.recall(title)
    yield "all the rest", len(gold_rest.LABELS), found.precision(), found.recall()


def rows(
    found: Score, labels: tuple[Label, ...] = LABELS
) -> Iterator[tuple[str, int, float, float]]:
    """Yield each of the twelve with its labels, precision and recall; then all together."""
    for title, names in TWELVE.items():
        count = sum(bool(set(names) & set(label.must)) for label in labels)
        yield title, count, found.precision(*names), found.recall(*names)
    yield "all twelve", len(labels), found.precision(), found.recall()
