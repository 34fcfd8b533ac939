"""A case: one move in its context, and what a proof says about it.

Every motif looks at the same case: the position before the move, the move,
the position after it, what the move wins by force, and the lines that a
defence can lead to.  What the move wins is proved once and shared.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import chess

from chessnb.notation import write_move
from chessnb.notation.words import SIDES
from chessnb.proof import Gain, Mate, Proof, baseline
from chessnb.solver import core
from chessnb.solver.budget import SLICE
from chessnb.solver.search import prove

MATE, WITHIN = 3, 3
"""How far a tactic is looked at: mates within so many moves, gains within so many."""

BUDGET = 150_000
"""Positions for each question about a move."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Case:
    """A move in its context.

    Attributes
    ----------
    before : chess.Board
        The position before the move, with its history where that is known.
    move : chess.Move
        The move.
    line : tuple of chess.Move
        What followed: the game's, the lesson's, or nothing.
    """

    before: chess.Board
    move: chess.Move
    line: tuple[chess.Move, ...] = ()

    @property
    def side(self) -> chess.Color:
        """The side that moves: us."""
        return self.before.turn

    @property
    def us(self) -> str:
        """The side that moves, in words."""
        return SIDES[self.side]

    @cached_property
    def after(self) -> chess.Board:
        """The position after the move."""
        board = self.before.copy(stack=False)
        board.push(self.move)
        return board

    @property
    def san(self) -> str:
        """The move in SAN."""
        return write_move(self.before, self.move)

    @property
    def gives_check(self) -> bool:
        """Whether the move checks."""
        return self.after.is_check()

    @cached_property
    def captured(self) -> chess.Piece | None:
        """What the move takes."""
        if self.before.is_en_passant(self.move):
            return chess.Piece(chess.PAWN, not self.side)
        return self.before.piece_at(self.move.to_square)

    @cached_property
    def base(self) -> int:
        """What a gain of the side that moves is measured from."""
        return baseline(self.before)

    @cached_property
    def proof(self) -> Proof | None:
        """What the move wins by force, replayed by the checker: a mate, else material."""
        if self.after.is_checkmate():
            return prove(self.before, Mate(within=1), key=self.move, budget=BUDGET).proof
        for moves in range(2, MATE + 1):
            outcome = prove(self.before, Mate(within=moves), key=self.move, budget=BUDGET)
            if outcome.proof is not None:
                return outcome.proof
        return self._material()

    def _material(self) -> Proof | None:
        """Prove the most that the move wins within few moves, if it wins anything."""
        within = WITHIN - 1
        gains = core.Gains(self.after.fen(), attacker=self.side, within=within, floor=self.base)
        while not gains.run(min(SLICE, BUDGET - gains.positions)):
            if gains.positions >= BUDGET:
                return None
        for points in downwards(min(gains.value - self.base, 39)):
            goal = Gain(points=points, within=WITHIN, baseline=self.base)
            outcome = prove(self.before, goal, key=self.move, budget=BUDGET)
            if outcome.proof is not None:
                return outcome.proof
        return None

    @cached_property
    def lines(self) -> tuple[tuple[chess.Move, ...], ...]:
        """The lines that can follow the move: the proof's, one for each reply; else what followed.

        Each begins with the reply.  The longest resistance comes first.
        """
        if self.proof is None:
            return (self.line,) if self.line else ()
        main = self.proof.main_line[1:]
        replies = [chess.Move.from_uci(reply) for reply, _ in self.proof.nodes[0].replies]
        others = [
            (reply, *self.proof.line_from((self.move, reply)))
            for reply in replies
            if not main or reply != main[0]
        ]
        return (main, *others) if main else tuple(others)
