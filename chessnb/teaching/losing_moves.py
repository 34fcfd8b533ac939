"""A move that loses, as the draft claims it: beside a better one, and as the cause of a blow.

A blow that nobody allowed is rare: where a move mates or wins, the move before
it is looked at, and told beside the better one that was there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import chess

from chessnb.lessons import Moment
from chessnb.notation import write_line, write_move
from chessnb.search.budget import finish
from chessnb.teaching.cell_code import before, call
from chessnb.teaching.sign import Sign
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import Measures, judging
from chessnb.verdicts.mistake import finding_better
from chessnb.verdicts.move_verdict import Verdict

LONGEST = 10
"""So long a mate is traced back to the move that allowed it."""

BUDGET = 200_000
"""Positions for each question."""


def losing(moment: Moment, better: chess.Move | None, **numbers: int) -> str:
    """Write the claim that the move that led to a position loses, beside a better one if known."""
    parent = moment.node.parent
    assert parent is not None
    other = {} if better is None else {"better": write_move(parent.board(), better)}
    return call("claims.loses", before(moment), moment.san, **numbers, **other)


def worth_naming(found: Verdict, better: chess.Move | None) -> chess.Move | None:
    """Return a better move if a class learns from it; not one that is better by doing nothing.

    That is a move that takes something, saves what is attacked, or stops a mate.
    """
    if better is None or found.kind == "mated":
        return better
    board = found.board
    saves = board.is_attacked_by(not board.turn, better.from_square)
    return better if board.is_capture(better) or saves else None


def was_better(moment: Moment, better: chess.Move | None) -> str:
    """Say which move would have been better; empty if none is known."""
    parent = moment.node.parent
    if better is None or parent is None:
        return ""
    return f", and {write_line(parent.board(), (better,))} was better"


def cause_of(moment: Moment, signs: Sequence[Sign], last: Verdict | None) -> Iterator[Sign]:
    """Yield that the move before a blow allowed it, if another was better.

    Parameters
    ----------
    moment : Moment
        The position after the blow.
    signs : sequence of Sign
        What was found of it.
    last : Verdict or None
        What was found of the move before, if it was looked at.
    """
    back = moment.back
    if back is None or back.node.parent is None or not back.move or last is None:
        return
    kinds = [sign.kind for sign in signs]
    mates = [int(kind.split()[-1]) for kind in kinds if kind.startswith("mates in")]
    if mates and mates[0] <= LONGEST:
        found = last if last.kind == "mated" else _mated(last, mates[0])
    elif "wins" in kinds and last.kind == "loses":
        found = last
    else:
        return
    if found is None or not found.is_bad:
        return
    better = finish(finding_better(found))
    if better is None:
        return
    named = worth_naming(found, better)
    numbers = (
        {"mate": found.moves}
        if found.kind == "mated"
        else {"at_least": found.points, "within": found.moves}
    )
    yield Sign(
        weight=0,
        words=f"{back.numbered} allowed it{was_better(back, named)}",
        cell=losing(back, named, **numbers),
        kind=CAUSE,
    )


CAUSE = "cause"
"""The kind of sign that tells of the move before."""


def _mated(last: Verdict, moves: int) -> Verdict | None:
    """Return the verdict that a move is mated in so many, if it is shown."""
    board, depth = last.board, Depth(mate=moves, within=1, budget=BUDGET)
    found = finish(judging(board, last.move, depth=depth, measures=Measures.of(board)))
    return found if found.kind == "mated" else None
