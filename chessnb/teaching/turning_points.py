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
from chessnb.teaching.adviser import Adviser
from chessnb.teaching.signs import Reader, Sign

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
    moment, reader, plies = lesson.start, Reader(adviser), 0
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
        if (weight := sum(sign[0] for sign in signs)) >= 2:
            reasons = tuple(words for _, words in signs)
            found.append(
                TurningPoint(moment=moment, weight=weight, reasons=reasons, signs=computed)
            )
    heaviest = sorted(found, key=lambda point: (-point.weight, point.moment.node.ply()))[:most]
    chosen = sorted(heaviest, key=lambda point: point.moment.node.ply())
    return tuple(_with_motifs(point) for point in chosen), len(found)


def _with_motifs(point: TurningPoint) -> TurningPoint:
    """Name the tactics of a move: one that is a checkmate, or that computation stopped at."""
    if not point.signs and not point.moment.board.is_checkmate():
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
    elif board.is_check():
        yield 1, "a check"
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
