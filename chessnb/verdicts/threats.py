"""Threats: what the side that waits would do if the side to move passed.

The worst comes first: the fastest mate, then the most material that would be
won and kept.  In check nobody can pass, and there is no threat.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from chessnb.board.turns import after_pass
from chessnb.proof import Mate, Measure, Proof, TooWild
from chessnb.search.budget import Searching
from chessnb.search.most_won import finding_most
from chessnb.search.prover import searching
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import gained
from chessnb.verdicts.move_verdict import Verdict

THREATENED = Depth(mate=3, within=2, budget=100_000)
"""How far threats are looked for, where nothing else is said."""


@dataclass(frozen=True, kw_only=True)
class Threat:
    """What is threatened.

    Attributes
    ----------
    verdict : Verdict or None
        What the threatened move would do, in the position after a pass; None
        if nothing was found.
    proof : Proof or None
        The proof, of the position after a pass.
    settled : bool
        Whether the search came to its end: without it, nothing found does not
        mean that nothing is threatened.
    """

    verdict: Verdict | None = None
    proof: Proof | None = None
    settled: bool = True

    @property
    def move(self) -> chess.Move | None:
        """The threatened move."""
        return None if self.verdict is None else self.verdict.move


def finding_threat(board: chess.Board, *, depth: Depth = THREATENED) -> Searching[Threat]:
    """Return the search for the worst that the side that is not to move threatens."""
    passed = after_pass(board)
    if passed is None or board.is_game_over(claim_draw=False):
        return Threat()
    settled = True
    for moves in range(1, depth.mate + 1):
        goal = Mate(within=moves)
        mate = yield from searching(passed, goal, passed.turn, None, depth.budget, explain=False)
        if mate.proof is not None:
            return _threat(passed, mate.proof, mate.proof.main_line)
        settled &= mate.status == "false"
    try:
        measure = Measure.gain(passed)
    except TooWild:
        return Threat(settled=False)
    most = yield from finding_most(passed, passed.turn, measure, depth.within, depth.budget)
    if most.won is not None and most.won.proof is not None:
        return _threat(passed, most.won.proof, most.line)
    return Threat(settled=settled and most.settled)


def _threat(passed: chess.Board, proof: Proof, line: tuple[chess.Move, ...]) -> Threat:
    first = line[0]
    nothing = Verdict(fen=passed.fen(), move=first, kind="nothing", line=(first,))
    if isinstance(proof.goal, Mate):
        mate = replace(nothing, kind="mates", moves=proof.moves, line=line, proof=proof)
        return Threat(verdict=mate, proof=proof)
    won = gained(nothing, proof, "wins", line[1:])
    return Threat(verdict=replace(won, moves=max(1, proof.moves)), proof=proof)
