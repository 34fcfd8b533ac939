"""The most that a side wins: the one answer of which claims, verdicts and tags all speak.

An estimate says what can be won at most within each number of moves.  Then as
much as possible of it is proved, in as few moves as that takes: by a proof
that is replayed, and of which nothing is won back.  A proof may show more than
was asked of it; its goal is raised to that, so that the points are those of
the pieces that fall in its line.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from chessnb.proof import Gain, Measure, Proof, check
from chessnb.search import core
from chessnb.search.budget import SLICE, Searching
from chessnb.search.comebacks import (
    KEEPING,
    comeback_line,
    comebacks_against,
    coming_back,
)
from chessnb.search.prover import Outcome, searching

MOST_POINTS = 39
"""All that a side has at the start of a game, its king left out."""

WORTH = 2
"""So many points more must a longer line promise before it is looked for."""

GUESS = 20_000
"""So many positions are looked at for a first guess, and for each attempt at more."""


@dataclass(frozen=True, kw_only=True)
class Most:
    """What a side wins at most, as far as is proved.

    Attributes
    ----------
    won : Outcome or None
        The most that it is proved to win and to keep.
    line : tuple of chess.Move
        The moves that show it, from the position on, to what is won back again.
    taken : Outcome or None
        Where nothing is proved to be won: what it is proved to take.
    settled : bool
        Whether the search came to its end: without it, nothing proved does not
        mean that nothing is won.
    at_most : int or None
        No more points than these are taken within those moves (searched); None
        where that was not found out.
    """

    won: Outcome | None = None
    line: tuple[chess.Move, ...] = ()
    taken: Outcome | None = None
    settled: bool = True
    at_most: int | None = None


def keeping_most(
    proof: Proof, base: int, budget: int
) -> Searching[tuple[Proof, tuple[chess.Move, ...]]]:
    """Return the search for how much of what a proof shows is kept.

    Parameters
    ----------
    proof : Proof
        A proof of a gain that is kept.
    base : int
        The balance that the gain is measured from, in the attacker's points.
    budget : int
        Positions for the line in which something is won back.

    Returns
    -------
    (Proof, tuple of chess.Move)
        The same moves as a proof of all that is kept, and the line that shows
        it: to where the rest is won back.
    """
    assert isinstance(proof.goal, Gain)
    kept, line, side = proof, proof.main_line, proof.attacker
    most = proof.raised().goal
    assert isinstance(most, Gain)
    for points in range(proof.goal.points + 1, most.points + 1):
        more = replace(proof, goal=replace(proof.goal, points=points))
        comebacks = comebacks_against(base + points, side)
        back = yield from coming_back(more, comebacks, KEEPING)
        if back.status == core.PROVED and back.end is not None:
            line = yield from comeback_line(back.end, base + points, side, budget=budget)
        if back.status != core.REFUTED:
            break
        kept = more
    return kept, line


def finding_most(
    board: chess.Board, attacker: chess.Color, measure: Measure, within: int, budget: int
) -> Searching[Most]:
    """Return the search for the most that a side wins within some of its moves.

    Parameters
    ----------
    board : chess.Board
        The position, either side to move.
    attacker : chess.Color
        The side that is to win something.
    measure : Measure
        What a gain is measured from, for this position.
    within : int
        The attacker's moves.
    budget : int
        Positions: for the estimate; for the question whether anything is won.
        Whether it is more is asked with a few positions each.
    """
    base = measure.value
    gains = core.Gains(board.fen(), attacker=attacker, within=within, floor=base)
    while not gains.run(min(SLICE, budget - gains.positions)) and gains.positions < budget:
        yield gains.positions
    climb = _Climb(board, attacker, measure, base, budget)
    for moves, value in enumerate(gains.values, start=1):
        yield from climb.up_to(min(value - base, MOST_POINTS), moves)
    complete = len(gains.values) >= within
    climb.settled &= complete
    at_most = max(0, gains.values[-1] - base) if complete else None
    return replace(climb.most(), at_most=at_most)


class _Climb:
    """The most that is proved so far, and attempts at more."""

    def __init__(
        self,
        board: chess.Board,
        attacker: chess.Color,
        measure: Measure,
        base: int,
        budget: int,
    ) -> None:
        self.board = board
        self.attacker = attacker
        self.measure = measure
        self.base = base
        self.budget = budget
        self.points = 0
        self.settled = True
        self.won: Outcome | None = None
        self.line: tuple[chess.Move, ...] = ()
        self.taken: Outcome | None = None

    def up_to(self, most: int, moves: int) -> Searching[None]:
        """Try to prove more within so many moves, which may win `most` points at most."""
        if most < self.points + (WORTH if self.points else 1):
            return
        guess = min(GUESS, self.budget)
        if most > 1 and (yield from self._proves(most, moves, guess)):
            return
        if not self.points:
            yield from self._proves(1, moves, self.budget)
        if self.points:
            for points in self._between(most):
                if points > self.points and (yield from self._proves(points, moves, guess // 2)):
                    return

    def _between(self, most: int) -> list[int]:
        """Return the gains to try: the least that is worth it, and half of what is left."""
        least = self.points + WORTH
        return sorted({one for one in (least, (self.points + most) // 2) if least <= one < most})

    def _proves(self, points: int, moves: int, budget: int) -> Searching[bool]:
        goal = Gain(points=points, within=moves, measure=self.measure)
        found = yield from searching(
            self.board, goal, self.attacker, None, budget, explain=False, replay=False
        )
        if found.proof is not None:
            yield from self._note(found, found.proof)
            return True
        if found.taken is not None and self.taken is None:
            self.taken = found
        if points == 1:
            self.settled = found.status == "false"
        return False

    def _note(self, found: Outcome, proof: Proof) -> Searching[None]:
        """Note a gain, raised to what its proof shows and what is not won back of that."""
        kept, line = yield from keeping_most(proof, self.base, self.budget)
        self.won, self.line = replace(found, goal=kept.goal, proof=kept), line
        assert isinstance(kept.goal, Gain)
        self.points = kept.goal.points

    def most(self) -> Most:
        """Return what was found, its proof replayed."""
        told = self.won or self.taken
        if told is not None:
            proof = told.proof or told.taken
            assert proof is not None
            check(proof)
        if self.won is not None:
            return Most(won=self.won, line=self.line)
        return Most(taken=self.taken, settled=self.settled)
