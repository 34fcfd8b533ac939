"""The turning points of a game: where a class should stop.

What is looked at: the annotator's glyphs, comments and variations; checks,
promotions and mate; and what is computed of each move: what it wins, loses,
passes over and threatens by force (:mod:`chessnb.teaching.signs`).  Each
sign has a weight (common practice, no source); the heaviest positions are taken.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from chessnb import motifs
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.comments import readable
from chessnb.motifs.move_tags import followed
from chessnb.teaching.adviser import Adviser
from chessnb.teaching.as_played import mate_at_the_end
from chessnb.teaching.losing_moves import CAUSE
from chessnb.teaching.quiet_signs import quiet_signs
from chessnb.teaching.sign import Sign
from chessnb.teaching.signs import Reader

_GLYPHS = {
    1: (4, "a good move"),
    2: (5, "a mistake"),
    3: (6, "a very good move"),
    4: (6, "a serious mistake"),
    5: (3, "an interesting move"),
    6: (3, "a doubtful move"),
}
"""Weight and words of the glyphs (PGN standard, section 10, NAG 1 to 6)."""

_WORD = re.compile(r"[^\W\d_]{3,}")


@dataclass(frozen=True, kw_only=True)
class TurningPoint:
    """A position where a class should stop, and why.

    Attributes
    ----------
    moment : Moment
        The position after the move.
    weight : int
        How much speaks for stopping here.
    reasons : tuple of str
        What speaks for it, the strongest first, in words.
    signs : tuple of Sign
        What was computed, with the cells that claim it, the weightiest first.
    motifs : tuple of str
        The names of the tactics that are proved to win something there.
    """

    moment: Moment
    weight: int
    reasons: tuple[str, ...]
    signs: tuple[Sign, ...] = ()
    motifs: tuple[str, ...] = ()


def game_length(lesson: Lesson) -> int:
    """Return how many moves the game has, Black's counted with White's."""
    return (lesson.end.node.ply() - lesson.start.node.ply() + 1) // 2


def turning_points(
    lesson: Lesson,
    *,
    most: int,
    on_move: Callable[[int, int], None] | None = None,
    adviser: Adviser | None = None,
) -> tuple[tuple[TurningPoint, ...], int]:
    """Find where to stop in the main line of a lesson's game.

    Parameters
    ----------
    lesson : Lesson
        The lesson; it must have a game.
    most : int
        How many to return at most.
    on_move : callable, optional
        Called before each move is looked at, with its number (White's and
        Black's counted as one) and how many there are.
    adviser : Adviser, optional
        Helps to choose.

    Returns
    -------
    (tuple of TurningPoint, int)
        The heaviest, in the order of the game, and how many were found.

    Notes
    -----
    About a tenth of a second a move (a player's, not a pair), compiled.
    """
    found = []
    moment, plies = lesson.start, 0
    reader = Reader(adviser, ends=mate_at_the_end(lesson))
    length = game_length(lesson)
    while (following := moment.next) is not None:
        moment, plies = following, plies + 1
        if on_move is not None:
            on_move((plies + 1) // 2, length)
        computed = reader.signs(moment)
        if not moment.move:
            continue  # a pass is no move to stop at
        told = [(sign.weight, sign.words) for sign in computed]
        signs = sorted([*_signs(moment), *told], key=lambda sign: -sign[0])
        reasons = tuple(words for _, words in signs)
        weight = sum(weight for weight, _ in signs)
        said: tuple[str, ...] = ()
        if moment.board.is_check():
            said = tuple(dict.fromkeys(tag.motif for tag in followed(moment)))
            weight += FOLLOWED * len(said)
        if weight >= WORTH:
            found.append(
                TurningPoint(
                    moment=moment, weight=weight, reasons=reasons, signs=computed, motifs=said
                )
            )
    chosen = tuple(map(_with_motifs, _told_once(_chosen(_without_known_mates(found), most))))
    mating = [_ply(point) for point in found if any(map(_is_mating, point.signs))]
    mating += [node.ply() for node in reader.ends]
    quiet = _quiet(lesson, chosen, most - len(chosen), until=min(mating, default=MOST_PLIES))
    return tuple(sorted((*chosen, *quiet), key=_ply)), len(found) + len(quiet)


FOLLOWED = 3
"""So much weighs a tactic that the game itself completes, such as a windmill."""

WORTH = 2
"""So much must speak for a stop."""

NEAR = 3
"""Of stops so many moves apart, of either side, the second counts for less."""

NEAR_ALIKE = 8
"""Of stops so many moves apart that say the same, the second counts for less."""

LESS_NEAR, LESS_ALIKE = 2, 3
"""By so much (common practice, no source)."""


def _chosen(found: Sequence[TurningPoint], most: int) -> tuple[TurningPoint, ...]:
    """Choose the heaviest, one after another; what stands near one that is chosen counts less."""
    chosen: list[TurningPoint] = []
    left = list(found)
    while left and len(chosen) < most:
        best = max(left, key=lambda point: (_worth(point, chosen), -_ply(point)))
        if _worth(best, chosen) < WORTH:
            break
        left.remove(best)
        chosen.append(best)
    return tuple(sorted(chosen, key=_ply))


QUIET_APART = 4
"""So many moves, of either side, lie between a stop for the structure and any other."""


MOST_PLIES = 10_000
"""More moves than any game has."""


def _is_mating(sign: Sign) -> bool:
    return sign.kind.startswith("mates in")


KNOWN_MATE = 4
"""A checkmate so many moves, of either side, behind the stop that tells it is no other stop."""


def _without_known_mates(found: Sequence[TurningPoint]) -> list[TurningPoint]:
    """Leave out the checkmate that a stop just before tells, but where the annotator speaks."""
    mating = [_ply(point) for point in found if any(map(_is_mating, point.signs))]
    return [
        point
        for point in found
        if not point.moment.board.is_checkmate()
        or is_annotated(point.moment)
        or not any(0 < _ply(point) - ply <= KNOWN_MATE for ply in mating)
    ]


def _told_once(chosen: Sequence[TurningPoint]) -> Iterator[TurningPoint]:
    """Yield the stops; what allowed a blow is not told again where the move has its own stop."""
    own = {_ply(point) for point in chosen if any(sign.kind == "loses" for sign in point.signs)}
    for point in chosen:
        told = _ply(point) - 1 in own
        signs = tuple(sign for sign in point.signs if not (told and sign.kind == CAUSE))
        yield replace(point, signs=signs)


def _quiet(
    lesson: Lesson, chosen: Sequence[TurningPoint], most: int, *, until: int
) -> list[TurningPoint]:
    """Return where the structure changes, as far as there is room beside the other stops.

    From the move on that mates by force nobody looks at the structure.
    """
    taken = {_ply(point) for point in chosen}
    found = []
    for moment in _main_line(lesson):
        ply = moment.node.ply()
        if ply >= until:
            break
        if any(abs(ply - other) < QUIET_APART for other in taken):
            continue
        if signs := quiet_signs(moment):
            weight = sum(sign.weight for sign in signs)
            reasons = tuple(sign.words for sign in signs)
            found.append(TurningPoint(moment=moment, weight=weight, reasons=reasons, signs=signs))
    return sorted(found, key=lambda point: (-point.weight, _ply(point)))[: max(0, most)]


def _main_line(lesson: Lesson) -> Iterator[Moment]:
    moment = lesson.start.next
    while moment is not None:
        yield moment
        moment = moment.next


def _ply(point: TurningPoint) -> int:
    return point.moment.node.ply()


def _worth(point: TurningPoint, chosen: Sequence[TurningPoint]) -> int:
    """Return what speaks for a stop beside those that are chosen already."""
    worth = point.weight
    if is_annotated(point.moment):  # the annotator knows how often to stop
        return worth
    return worth - max((_less(point, other) for other in chosen), default=0)


def _less(point: TurningPoint, other: TurningPoint) -> int:
    """Return how much less a stop says beside another."""
    apart = abs(_ply(other) - _ply(point))
    less = LESS_NEAR if apart <= NEAR else 0
    if apart <= NEAR_ALIKE and _says(point) & _says(other):
        less += LESS_ALIKE
    return less


def _says(point: TurningPoint) -> set[str]:
    """Return what sorts of things a stop says: kinds of signs, and tactics."""
    return {*(sign.kind for sign in point.signs), *point.motifs} - {"hurry", "offer", "left", ""}


def is_annotated(moment: Moment) -> bool:
    """Tell whether the annotator says something of a move."""
    return bool(_GLYPHS.keys() & moment.nags) or says_something(moment.comment)


def _with_motifs(point: TurningPoint) -> TurningPoint:
    """Name the tactics of a move: one that is a checkmate, or that computation stopped at."""
    if not (point.signs or point.motifs or point.moment.board.is_checkmate()):
        return point
    names = dict.fromkeys(found.motif for found in motifs.tag(point.moment))
    return replace(point, motifs=tuple(names))


def _signs(moment: Moment) -> Iterator[tuple[int, str]]:
    """Yield what makes a position a turning point without computing: weight and words."""
    for glyph in moment.nags:
        if glyph in _GLYPHS:
            weight, words = _GLYPHS[glyph]
            yield weight, f"marked as {words}"
    if moment.node.parent is not None and len(moment.node.parent.variations) > 1:
        yield 4, "a sideline leaves the game here"
    if says_something(moment.comment):
        yield 2, "the annotator stops here"
    yield from _events(moment)


def _events(moment: Moment) -> Iterator[tuple[int, str]]:
    board, move = moment.board, moment.move
    if board.is_checkmate():
        yield 4, "checkmate"
    if board.is_stalemate():
        yield 4, "stalemate"
    if move is not None and move.promotion:
        yield 3, "a promotion"


def says_something(comment: str) -> bool:
    """Tell whether a comment is prose: figures of a program or ``book`` are none."""
    return len(_WORD.findall(readable(comment))) >= 3


def reasons_in_words(reasons: Sequence[str]) -> str:
    """Join reasons into one sentence."""
    text = "; ".join(reasons)
    return f"{text[0].upper()}{text[1:]}." if text else ""
