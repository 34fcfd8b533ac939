"""The turning points of a game: where a class should stop.

What is looked at so far: the annotator's glyphs, comments and variations,
captures that change the balance, checks, promotions and mate.  Each sign has
a weight (common practice, no source); the heaviest moments are taken.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess
import chess.pgn

from chessnb.facts import exchange, material
from chessnb.lesson import Lesson, Moment
from chessnb.lesson.comments import readable
from chessnb.notation.words import SIDES, counted

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
    """A moment where a class should stop, and why.

    Attributes
    ----------
    moment : Moment
        The moment after the move.
    weight : int
        How much speaks for stopping here.
    reasons : tuple of str
        What speaks for it, the strongest first, in words.
    """

    moment: Moment
    weight: int
    reasons: tuple[str, ...]


def turning_points(lesson: Lesson, *, most: int) -> tuple[tuple[TurningPoint, ...], int]:
    """Find where to stop in the main line of a lesson's game.

    Parameters
    ----------
    lesson : Lesson
        The lesson; it must have a game.
    most : int
        How many to return at most.

    Returns
    -------
    (tuple of TurningPoint, int)
        The heaviest, in the order of the game, and how many were found.

    Notes
    -----
    About five milliseconds a move (a player's, not a pair).
    """
    settled = _settled(lesson.start.board)
    found = []
    moment = lesson.start
    while (following := moment.next) is not None:
        moment = following
        if not moment.move:
            continue  # a pass is no move to stop at
        before, settled = settled, _settled(moment.board, before=settled)
        signs = sorted(_signs(moment, settled - before), key=lambda sign: -sign[0])
        if weight := sum(sign[0] for sign in signs):
            reasons = tuple(words for _, words in signs)
            found.append(TurningPoint(moment=moment, weight=weight, reasons=reasons))
    found = [point for point in found if point.weight >= 2]
    heaviest = sorted(found, key=lambda point: (-point.weight, point.moment.node.ply()))[:most]
    chosen = sorted(heaviest, key=lambda point: point.moment.node.ply())
    return tuple(chosen), len(found)


def _signs(moment: Moment, change: int) -> Iterator[tuple[int, str]]:
    """Yield what makes a moment a turning point: weight and words."""
    for glyph in moment.nags:
        if glyph in _GLYPHS:
            weight, words = _GLYPHS[glyph]
            yield weight, f"marked as {words}"
    if moment.node.parent is not None and len(moment.node.parent.variations) > 1:
        yield 4, "a sideline leaves the game here"
    if says_something(moment.comment):
        yield 2, "the annotator stops here"
    if abs(change) > 1:  # a pawn by this count is often got back by other means
        mover_gains = (change > 0) != moment.turn  # it is the other side's turn by now
        yield min(1 + abs(change), 6), _exchange_in_words(moment, abs(change), mover_gains)
    yield from _events(moment)


def _exchange_in_words(moment: Moment, points: int, mover_gains: bool) -> str:
    """Say what the count of exchanges has found, with the square where it counts."""
    if mover_gains:
        return f"gains {counted(points, 'point')} by the count of exchanges"
    offers = [gain for gain in moment.changes().offers if gain.points > 1]
    if offers:
        most = max(offers, key=lambda gain: gain.points)
        side = SIDES[moment.turn]
        return f"lets {side} gain {counted(most.points, 'point')} on {most.man.square}"
    return f"passes over a gain of {counted(points, 'point')}"


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


def _settled(board: chess.Board, *, before: int = 0) -> int:
    """Return the balance in points, White's view, after the best exchange on one square.

    So that a capture that is simply taken back changes nothing.  Mate settles
    more than material: what stood before it is left as it was.
    """
    if board.is_checkmate():
        return before
    balance = material(board).balance
    targets = {move.to_square for move in board.generate_legal_captures()}
    best = max((exchange(board, square).gain for square in targets), default=0)
    return balance + (best if board.turn else -best)


def reasons_in_words(reasons: Sequence[str]) -> str:
    """Join reasons into one sentence."""
    text = "; ".join(reasons)
    return f"{text[0].upper()}{text[1:]}." if text else ""
