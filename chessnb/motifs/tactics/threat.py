"""Threat: what the move would win if the other side passed.

What counts
    After the move the other side is not in check.  If it could pass, we would
    have a mate in one or two moves, or a gain of material within two.

What does not
    A threat that a defender meets already: then nothing follows a pass either.
    A threat is told only where patterns that win nothing are asked for, since
    nothing is won until it is carried out.

What shows it
    The piece that would move, where it would go, and what that would do.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import chess

from chessnb.board.turns import after_pass
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, force, ring, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.notation import write_move
from chessnb.proof import Gain, Mate, Measure, Proof

NAME = "threat"

_MAY_BE_MET = "It is a threat, no more: nothing is won until it is carried out."


def find(case: Case) -> Iterator[Tag]:
    """Find what the move threatens: what would mate or win if the other side passed."""
    passed = None if case.after.is_game_over() else after_pass(case.after)
    if passed is None or not passed.is_valid():
        return
    proof = _threatened(case, passed)
    if proof is None or proof.key is None:
        return
    key = proof.key
    what = "to win material"
    if isinstance(proof.goal, Mate):
        what = "mate" if proof.moves == 1 else f"mate in {proof.moves}"
    found = case.tag(
        NAME,
        sound=False,
        actor=key.from_square,
        targets=(key.to_square,),
        sentence=f"{case.us} threatens {what} with {write_move(passed, key)}",
        marks=(ring(key.from_square), force(key.from_square, key.to_square), ticks(key.to_square)),
    )
    yield replace(found, shown=(case.move,), unproved=_MAY_BE_MET)


def _threatened(case: Case, passed: chess.Board) -> Proof | None:
    for moves in (1, 2):
        proof = case.ask(passed, Mate(within=moves)).proof
        if proof is not None:
            return proof
    goal = Gain(points=1, within=2, measure=Measure.gain(passed))
    return case.ask(passed, goal).proof


MOTIF = Motif(
    name=NAME,
    rank=260,
    definition="If the other side could pass, the move shown would mate or win.",
    find=find,
    proving="nothing",
    examples=(
        Example(
            fen="5rk1/5ppp/8/8/8/8/2B2PPP/4Q1K1 w - - 0 1",
            moves="Qe4 g6",
            why="the queen, backed by the bishop, would mate on h7",
        ),
        Example(
            fen="5rk1/5ppp/5n2/8/8/8/2B2PPP/4Q1K1 w - - 0 1",
            moves="Qb1",
            shows=False,
            why="the knight defends h7: nothing would follow",
        ),
    ),
)
