"""The scan of a lesson: its positions with tactics, the most telling first."""

from __future__ import annotations

from dataclasses import dataclass

from chessnb.lessons import Lesson, Moment
from chessnb.lessons.slips import check_lesson
from chessnb.mistakes import checked
from chessnb.motifs.collection import BY_NAME
from chessnb.motifs.evidence import Tag
from chessnb.motifs.move_tags import tag
from chessnb.proof import Gain, Mate


@dataclass(frozen=True, kw_only=True)
class Ranked:
    """A position of a lesson with the tags of its move.

    Attributes
    ----------
    moment : Moment
        The position after the move.
    tags : tuple of Tag
        Its tags, the most telling first.
    weight : int
        How much they tell.
    """

    moment: Moment
    tags: tuple[Tag, ...]
    weight: int


@checked
def scan(lesson: Lesson, *, most: int | None = None, geometric: bool = False) -> tuple[Ranked, ...]:
    """Look for tactics in a whole lesson, its sidelines included.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    most : int, optional
        Return only so many positions, the most telling.
    geometric : bool
        Also look at patterns that win nothing that is proved.

    Returns
    -------
    tuple of Ranked
        The most telling position first; in the lesson's order among equals.

    Notes
    -----
    About a fiftieth of a second a move on average, compiled.
    """
    check_lesson(lesson, call="motifs.scan")
    found = []
    for moment in lesson.moments():
        if not moment.move:
            continue
        if ranked := _ranked(moment, geometric):
            found.append(ranked)
    seen = {id(one.moment.node): one for one in found}
    fresh = [one for one in found if not _goes_on(one, seen)]
    fresh.sort(key=lambda one: -one.weight)
    return tuple(fresh[:most])


def _goes_on(one: Ranked, seen: dict[int, Ranked]) -> bool:
    """Tell whether a move only carries out the mate that its side's move before had begun."""
    back = one.moment.back
    earlier = None if back is None or back.back is None else seen.get(id(back.node.parent))
    if earlier is None:
        return False
    return all(
        entry.tags[0].proof is not None and isinstance(entry.tags[0].proof.goal, Mate)
        for entry in (one, earlier)
    )


def _ranked(moment: Moment, geometric: bool) -> Ranked | None:
    tagged = sorted(tag(moment, geometric=geometric), key=lambda one: -weight(one))
    if not tagged:
        return None
    total = weight(tagged[0]) + len({one.motif for one in tagged}) - 1
    return Ranked(moment=moment, tags=tuple(tagged), weight=total)


def weight(found: Tag) -> int:
    """Return how much the tag of a move tells a class (common practice, no source)."""
    if found.proof is None:
        return 1
    goal = found.proof.goal
    won = 3 * goal.within if isinstance(goal, Mate) else 5
    if isinstance(goal, Gain):
        won = min(goal.points, 9)
    return 2 * won + BY_NAME[found.motif].telling
