"""Where a quiet game changes: what to tell and to ask of its structure, and of its ending.

A move is worth a stop where something comes about that was not there before
and is still there some moves later (:mod:`chessnb.teaching.quiet_structure`,
:mod:`chessnb.teaching.quiet_plans`), or where the move itself is telling
(:mod:`chessnb.teaching.quiet_moves`).  What has been told once is not told again.  Of these
moves the heaviest are taken, at some distance from each other, about one in
five moves: :func:`quiet_signs` has nothing to say of all the others.
"""

from __future__ import annotations

from collections import Counter
from functools import lru_cache
from itertools import chain

import chess

from chessnb.board.exchange import gain_on
from chessnb.facts._structure import found_on
from chessnb.lessons import Moment
from chessnb.lessons.openings import LONGEST, name_of
from chessnb.teaching.cell_code import Expression, after, call
from chessnb.teaching.quiet_feature import Feature, Key
from chessnb.teaching.quiet_moves import done
from chessnb.teaching.quiet_plans import plans
from chessnb.teaching.quiet_structure import structural
from chessnb.teaching.sign import Sign

CHECKED = (2, 4, 6)
"""What comes about must still be there so many moves, of either side, later; in the middle of an
exchange it is not."""

EACH = 5
"""One stop for so many moves, Black's counted with White's (common practice, no source)."""

FEWEST = 6
MOST = 10
"""How many stops a game gets at least, if it has so much to tell, and at most."""

APART = 5
"""So many moves, of either side, lie between two stops."""

WELL_IN = 6
"""An opening that is left before so many moves, of either side, is not told."""

LEAST = 2
"""So much must speak for a stop, unless a game has fewer than it gets at least."""

TOLD = 2
"""So many things are told at one stop."""


def quiet_signs(moment: Moment) -> tuple[Sign, ...]:
    """Return what a move of the main line changed in the structure, if the game stops there.

    Parameters
    ----------
    moment : Moment
        The position after the move.

    Returns
    -------
    tuple of Sign
        The weightiest first; empty for most moves, for a sideline, and at a start.

    Notes
    -----
    The first call for a game takes about a second, the others next to nothing.
    """
    if moment.node.parent is None or not moment.is_main_line:
        return ()
    ply = moment.node.ply() - moment.node.game().ply()
    game = moment.node.game()
    changes = _changes_of(game.board().fen(), tuple(node.move for node in game.mainline()))
    if ply not in _chosen(changes):
        return ()
    return tuple(_sign(moment, change) for change in _told(changes[ply - 1]))


def features(board: chess.Board) -> dict[Key, Feature]:
    """Return the features of a position, by their keys."""
    if board.is_insufficient_material():
        return {}  # nobody can win any more, so nothing there is an advantage
    found = found_on(board)
    return dict(chain(structural(board, found), plans(board, found)))


Change = tuple[Feature, ...]
"""What came about by one move, the weightiest first."""


@lru_cache(maxsize=8)
def _changes_of(start: str, moves: tuple[chess.Move, ...]) -> tuple[Change, ...]:
    """Return what came about by each move of a game; the last games are kept."""
    boards = [chess.Board(start)]
    for move in moves:
        boards.append(boards[-1].copy(stack=False))
        boards[-1].push(move)
    found = [features(board) for board in boards]
    known: set[Key] = set(found[0])
    named = _named(boards)
    changes = []
    for ply in range(1, len(boards)):
        later = [found[min(ply + ahead, len(moves))] for ahead in CHECKED]
        lasting = {
            key: one for key, one in found[ply].items() if all(key in then for then in later)
        }
        told = [
            one for key, one in lasting.items() if key not in known and key not in found[ply - 1]
        ]
        known |= set(lasting)
        for key, one in done(boards, moves, ply):
            if key not in known:
                known.add(key)
                told.append(one)
        if ply == named:
            told.append(_opening(boards[ply]))
        if _can_be_taken_back(boards[ply], moves[ply - 1]):
            told = [one for one in told if one.kind != "material"]
        changes.append(tuple(sorted(told, key=lambda one: -one.weight)))
    return tuple(changes)


def _can_be_taken_back(board: chess.Board, move: chess.Move) -> bool:
    """Tell whether what moved can be taken with profit: no account is made up then."""
    return gain_on(board, move.to_square) > 0


def _named(boards: list[chess.Board]) -> int:
    """Return the ply at which a game comes to the last position of an opening; 0: none is told."""
    names = [name_of(board) for board in boards[: LONGEST + 1]]
    last = next((name for name in reversed(names) if name), "")
    ply = names.index(last) if last else 0
    return ply if ply >= WELL_IN else 0


def _opening(board: chess.Board) -> Feature:
    """Return the name of the opening as something to tell."""
    return Feature(
        weight=2,
        words=f"the opening is called “{name_of(board)}”",
        question="What does each side want in this opening, and which piece is not out yet?",
        kind="opening",
    )


@lru_cache(maxsize=8)
def _chosen(changes: tuple[Change, ...]) -> frozenset[int]:
    """Return the plies of the heaviest changes, at some distance from each other.

    What is of a kind that was chosen already weighs less, so that a lesson has variety.
    """
    most = min(MOST, max(FEWEST, round(len(changes) / (2 * EACH))))
    told = {ply: _told(change) for ply, change in enumerate(changes, 1)}
    weights = {ply: sum(one.weight for one in change) for ply, change in told.items()}
    left = {ply for ply, weight in weights.items() if weight}
    chosen: set[int] = set()
    kinds: Counter[str] = Counter()
    while left and len(chosen) < most:
        best = min(left, key=lambda ply: (kinds[told[ply][0].kind] - weights[ply], ply))
        if weights[best] < LEAST and len(chosen) >= FEWEST:
            left.discard(best)
            continue
        chosen.add(best)
        kinds[told[best][0].kind] += 1
        left = {ply for ply in left if abs(ply - best) >= APART}
    return frozenset(chosen)


def _told(change: Change) -> Change:
    """Return the weightiest of what came about, no two of one kind or in the same words."""
    told: list[Feature] = []
    for one in change:
        if not any(one.kind == other.kind or one.words == other.words for other in told):
            told.append(one)
    return tuple(told[:TOLD])


def _sign(moment: Moment, feature: Feature) -> Sign:
    return Sign(
        weight=feature.weight,
        words=feature.words,
        cell=cell_of(after(moment), feature.about),
        kind=feature.kind,
        question=feature.question,
    )


def cell_of(here: Expression, about: str) -> str:
    """Return the call that shows a feature of a position; empty if none does."""
    if not about:
        return ""
    if about in ("ending", "material"):
        return call(f"facts.{about}", here)
    if about in chess.SQUARE_NAMES:
        return call("facts.pressure", here, about)
    return call("facts.structure", here, about=about)
