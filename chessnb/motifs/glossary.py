"""The glossary of tactics: which there are, what a name means, what teachers also say."""

from __future__ import annotations

from chessnb.board.naming import listed
from chessnb.errors import LessonError, as_given
from chessnb.mistakes import checked, did_you_mean, nearest, same_name
from chessnb.motifs.collection import MOTIFS
from chessnb.motifs.motif import Motif


def names() -> tuple[str, ...]:
    """Return the names of all motifs.

    Examples
    --------
    >>> "fork" in names()
    True
    """
    return tuple(motif.name for motif in MOTIFS)


@checked
def explain(name: str) -> Motif:
    """Return a motif by its name: its definition and its examples.

    Raises
    ------
    LessonError
        If there is no such motif, or the name stands for several.

    Examples
    --------
    >>> explain("fork").definition[:37]
    'One piece that has just moved attacks'
    """
    found = named(name)
    if len(found) > 1:
        several = listed(motif.name for motif in found)
        raise LessonError(f"{name!r} stands for {several}: name one of them")
    return found[0]


def named(name: str) -> tuple[Motif, ...]:
    """Return the motifs that a name stands for: usually one, both pins for ``"pin"``.

    Capitals, hyphens and plurals do not matter.

    Raises
    ------
    LessonError
        If there is none, with the nearest.

    Examples
    --------
    >>> [motif.name for motif in named("pins")], named("double attack")[0].name
    (['absolute pin', 'relative pin'], 'fork')
    """
    if not isinstance(name, str):
        raise LessonError(f"a tactic has a name, such as 'fork', not {as_given(name)}")
    known = _known()
    for other, motifs in known.items():
        if same_name(name, other):
            return motifs
    near = [motif.name for other in nearest(name, known) for motif in known[other]]
    question = did_you_mean(list(dict.fromkeys(near)))
    instead = f": {question}" if near else f"; there are {listed(names())}"
    raise LessonError(f"there is no tactic {name!r}{instead}")


def _known() -> dict[str, tuple[Motif, ...]]:
    """Return what each word stands for: what teachers also say, then the names themselves."""
    words = sorted({word for motif in MOTIFS for word in motif.also})
    also = {word: tuple(motif for motif in MOTIFS if word in motif.also) for word in words}
    return also | {motif.name: (motif,) for motif in MOTIFS}
