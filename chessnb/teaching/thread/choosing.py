"""Which remarks a lesson tells: by weight, with room between them, and nothing given away."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from functools import lru_cache
from itertools import takewhile

import chess
import chess.pgn

from chessnb.lessons import Lesson, Moment
from chessnb.lessons.comments import readable
from chessnb.teaching.statements.sentence_breaks import sentences
from chessnb.teaching.thread.attacks import attack_remarks
from chessnb.teaching.thread.giving import giving_remarks
from chessnb.teaching.thread.journeys import plan_remarks
from chessnb.teaching.thread.lasting import lasting_remarks
from chessnb.teaching.thread.mate_picture import mate_remarks
from chessnb.teaching.thread.opening import opening_remarks
from chessnb.teaching.thread.phases import phase_remarks
from chessnb.teaching.thread.remark import Course, Key, Remark

LEAST = 3
"""So much must speak for a remark."""

SHARE = 2.5
"""At most one remark for so many moves, Black's counted with White's (common practice)."""

BESIDE_COMMENTS = 2
"""A comment of the annotator's stands for so many moves (common practice, no source)."""

_ATTACKS = (
    *("double", "attacks", "attacks pinned", "opened", "opens way", "presses", "post"),
    "check and",
)
"""Remarks that tell of one piece where it stands: one of them is enough."""

_BESIDE = ("double", "pin", "gather", "attacks pinned", "other", "forced")
"""Remarks that a page does not make of its own move: they are told behind a page that asked."""

_TACTICAL = ("double", "check and", "double check", "opened", "mate threat", "pin", "hunt")
"""Remarks that tell of a tactic: in a game where nothing is to be found, one of them."""

SHORT = 50
"""A game of so many moves, of either side, is sharp, whatever a lesson asks of it."""

TOGETHER = 2
"""So many remarks stand behind one move at most."""


def thread(
    start: chess.Board,
    moves: Sequence[chess.Move],
    *,
    asked: Set[int] = frozenset(),
    shown: Set[int] = frozenset(),
    commented: int = 0,
) -> Mapping[int, tuple[str, ...]]:
    """Return what a lesson tells of a game between its stops.

    Parameters
    ----------
    start : chess.Board
        The position from which the game begins.
    moves : sequence of chess.Move
        Its moves.
    asked : set of int, optional
        The moves that a class is to find; what looks ahead to them is not told.
    shown : set of int, optional
        The moves with a page of their own; of these only what they began is told, and
        that only behind a page that asks for the move.
    commented : int
        How many moves the annotator speaks of: beside an annotator less is told.

    Returns
    -------
    mapping
        Sentences, by the number of the move that they stand behind; 1 is the first.

    Examples
    --------
    >>> board, moves = chess.Board(), []
    >>> for san in "e4 c6 d4 d5 Nc3 dxe4 Nxe4 Nf6".split():
    ...     moves.append(board.push_san(san))
    >>> thread(chess.Board(), moves)[2]
    ('The opening is called “Caro-Kann Defence”.',)
    """
    found = all_remarks(start.fen(), tuple(moves))
    free = [
        one
        for one in found
        if (one.ply not in shown or _is_beside(one, is_asked=one.ply in asked))
        and one.weight >= LEAST
        and not any(one.ply < stop <= one.last for stop in asked)
        and not (one.last > one.ply and one.last in shown)
        and not _gives_away(one, moves, asked)
    ]
    chosen: list[Remark] = []
    keys: set[Key] = set()
    most = max(1, round((len(moves) - BESIDE_COMMENTS * commented) / SHARE))
    sharp = 1 + 3 * len(asked) if shown and len(moves) > SHORT else len(moves)
    for one in sorted(free, key=lambda one: (-one.weight, one.ply)):
        if one.key in keys or len(chosen) >= most:
            continue
        together = sum(other.ply == one.ply for other in chosen)
        near = sum(abs(other.ply - one.ply) <= 2 for other in chosen)
        alike = one.key[0] in _ATTACKS and any(
            other.ply == one.ply and other.key[0] in _ATTACKS for other in chosen
        )
        is_tactical = one.key[0] in _TACTICAL
        if is_tactical and not sharp:
            continue
        if alike or together >= TOGETHER or near >= (3 if one.weight > 3 else 2):
            continue
        sharp -= is_tactical
        keys.add(one.key)
        chosen.append(one)
    told: dict[int, tuple[str, ...]] = {}
    for one in sorted(chosen, key=lambda one: (one.ply, -one.weight)):
        told[one.ply] = (*told.get(one.ply, ()), one.words)
    return told


def thread_of(
    lesson: Lesson, *, asked: Set[int] = frozenset(), shown: Set[int] = frozenset()
) -> Mapping[int, tuple[str, ...]]:
    """Return what a lesson tells of its game between its stops; see :func:`thread`."""
    root = lesson.start.node.game()
    moves = tuple(node.move for node in root.mainline())
    commented = sum(bool(readable(node.comment)) for node in root.mainline())
    return thread(root.board(), moves, asked=asked, shown=shown, commented=commented)


def place_in_game(node: chess.pgn.GameNode) -> int:
    """Return how many moves of the game lead to a node, Black's counted with White's."""
    return node.ply() - node.game().ply()


def told_of(moment: Moment) -> frozenset[str]:
    """Return the sentences that the thread can tell of a move of the main line.

    A sentence that is among them is true: it follows from the rules and the game.
    """
    if not moment.is_main_line or moment.node.parent is None:
        return frozenset()
    root = moment.node.game()
    ply = place_in_game(moment.node)
    found = all_remarks(root.board().fen(), tuple(node.move for node in root.mainline()))
    return frozenset(part for one in found if one.ply == ply for part in sentences(one.words))


def _is_beside(one: Remark, *, is_asked: bool) -> bool:
    """Tell whether a remark says more of a move than its page does."""
    return one.key[0] in _BESIDE or (is_asked and one.until > one.ply)


def _gives_away(one: Remark, moves: Sequence[chess.Move], asked: Set[int]) -> bool:
    """Tell whether a remark names the square of a move that is asked for soon."""
    return any(
        0 < stop - one.ply <= 2 and chess.square_name(moves[stop - 1].to_square) in one.words
        for stop in asked
    )


@lru_cache(maxsize=8)
def all_remarks(fen: str, moves: tuple[chess.Move, ...]) -> tuple[Remark, ...]:
    """Return all that could be told of a game, in the order of its moves, up to a pass."""
    course = Course.of(chess.Board(fen), tuple(takewhile(bool, moves)))
    found = list(opening_remarks(course))
    for ply in course.plies:
        for look in (
            phase_remarks,
            lasting_remarks,
            attack_remarks,
            plan_remarks,
            giving_remarks,
            mate_remarks,
        ):
            found.extend(look(course, ply))
    return tuple(sorted(found, key=lambda one: one.ply))
