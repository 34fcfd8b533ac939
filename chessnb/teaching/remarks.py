"""What an explorer says beside a position: what the move changed, threats, motifs, facts.

Each is computed when a reader comes to the position or asks, never before:
a lesson of five hundred moves opens at once.  Where the next move is hidden,
nothing here shows a line that could be it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, replace
from typing import Any

import chess

from chessnb import facts
from chessnb.board.naming import counted
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.facts import Changes, changes
from chessnb.facts._phrases import telling_phrases
from chessnb.findings import Finding
from chessnb.lessons import Moment
from chessnb.notation import write_line
from chessnb.proof import Gain, Mate, TooWild
from chessnb.proof.measure import Measure
from chessnb.search.budget import Searching
from chessnb.search.prover import Outcome, proving

MATE = 3
"""Threats of mate within so many moves are looked for."""

WITHIN = 2
"""And of material within so many."""

BUDGET = 100_000
"""Positions for each question."""


def changed(board: chess.Board, *, with_next: bool = True) -> tuple[str, ...]:
    """Say what the last move of a board changed; nothing where no move was made.

    Parameters
    ----------
    board : chess.Board
        The position, with the move that led there.
    with_next : bool
        Also say what it gives the one side or the other to do next.  Where the
        class is to find that, it is left out.
    """
    if not board.move_stack:
        return ()
    before = board.copy()
    move = before.pop()
    found = changes(before, move)
    if with_next:
        return tuple(found.paragraphs)
    kept = _without_next(found)
    # With what is left out, "is quiet" could be untrue; and it would tell that nothing was.
    return tuple(kept.paragraphs) if any(telling_phrases(kept)) else ()


def _without_next(found: Changes) -> Changes:
    """Leave out what answers "and what now?": attacks, threats, what may be won."""
    return replace(
        found,
        attacks=(),
        opened=tuple(line for line in found.opened if not line.attacks),
        threatens=(),
        offers=(),
        leaves=(),
        forces_mate=False,
        left_undefended=(),
        stops_defending=(),
        gets_pinned=(),
        opened_to_enemy=(),
    )


def facts_of(board: chess.Board) -> tuple[str, ...]:
    """Say what follows from the rules alone: material, pawns, castling, draws."""
    found: list[Finding] = [facts.material(board), facts.pawns(board), facts.castling(board)]
    draws = facts.draws(board)
    if draws.checkmate or draws.drawn or draws.may_be_claimed:
        found.append(draws)
    return tuple(f"{text[0].upper()}{text[1:].rstrip('.')}." for text in (f.words for f in found))


def finding_threat(board: chess.Board) -> Searching[tuple[Outcome | None, bool]]:
    """Return the search for the worst that the side that is not to move threatens.

    Returns the outcome that proves it, of the position after a pass, or None;
    and whether the search came to its end.
    """
    passed = after_pass(board)
    if passed is None or board.is_game_over(claim_draw=False):
        return None, True
    settled = True
    for goal in _threats(passed):
        outcome = yield from proving(passed, goal, budget=BUDGET)
        if outcome:
            return outcome, True
        settled &= outcome.status == "false"
    return None, settled


def finding_threat_in_words(board: chess.Board, *, with_line: bool = True) -> Searching[str]:
    """Return the search for what the side that is not to move threatens, as a sentence."""
    side = SIDES[not board.turn]
    passed = after_pass(board)
    if passed is None:
        return f"{SIDES[board.turn]} is in check: nobody can pass, so there is nothing to threaten."
    if board.is_game_over(claim_draw=False):
        return "The game is over."
    outcome, settled = yield from finding_threat(board)
    if outcome is not None:
        return _threat(side, passed, outcome, with_line=with_line)
    if not settled:
        return f"Whether {side} threatens anything is not proved."
    return (
        f"No threat by {side} was found: no mate in {MATE}, no gain within "
        f"{counted(WITHIN, 'move')}. Nobody has proved that there is none."
    )


def _threats(passed: chess.Board) -> Iterator[Mate | Gain]:
    """Return what may be threatened, the worst first."""
    yield from (Mate(within=moves) for moves in range(1, MATE + 1))
    try:
        measure = Measure.gain(passed)
    except TooWild:
        return
    yield from (Gain(points=points, within=WITHIN, measure=measure) for points in (9, 5, 3, 2, 1))


def _threat(side: str, passed: chess.Board, outcome: Outcome, *, with_line: bool) -> str:
    assert outcome.proof is not None
    match outcome.goal:
        case Mate():
            what = f"mate in {outcome.proof.moves}"
        case Gain(points=points, within=within):
            what = f"to win {points} within {counted(within, 'move')}"
        case goal:
            what = goal.words
    line = f": {write_line(passed, outcome.proof.main_line)}" if with_line else ""
    return f"{side} threatens {what}{line}."


def tags_of(moment: Moment, *, with_later: bool = True) -> list[dict[str, Any]]:
    """Return the tactics of the move that led to a position, with how they are drawn.

    Parameters
    ----------
    moment : Moment
        The position.
    with_later : bool
        Also name those that show only in the moves that follow.
    """
    from chessnb import motifs

    if moment.move is None:
        return []
    return [
        {
            "motif": found.motif,
            "sentence": f"{found.sentence}.",
            "gain": found.gain or "",
            "marks": [asdict(mark) for mark in found.marks],
        }
        for found in motifs.tag(moment)
        if with_later or found.ply <= 1
    ]
