"""Putting a claim to the solver, and turning the outcome into a claim or a refusal."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NoReturn, Self

import chess

from chessnb.book import ProofBook, book_of
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim, side_of
from chessnb.diagram import Mark
from chessnb.notation import read_move, write_line
from chessnb.notation.words import SIDES
from chessnb.position import Position, board_of
from chessnb.proof import Goal, Perpetual, baseline, lettered, settled
from chessnb.solver.search import Outcome, prove

NO_REPETITION = "Repetition and the 50-move rule are left out."
QUIET_END = "Counted {horizon}, at a quiet end of the line; quiet comebacks are not searched."

LINES_SHOWN = 12
"""So many lines of a proof stand under its diagram."""


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A claim before it is proved: where, whose, and with which first move."""

    board: chess.Board
    side: chess.Color
    key: chess.Move | None
    book: ProofBook | None

    @classmethod
    def of(
        cls, position: Position, *, side: str | chess.Color | None = None, move: str | None = None
    ) -> Self:
        """Read what a claim function was given.

        Raises
        ------
        ClaimError
            If a first move is given for the side that is not to move.
        """
        board = board_of(position)
        color = side_of(side, board.turn)
        if move is not None and color != board.turn:
            raise ClaimError(
                f"it is {SIDES[board.turn]}'s move, so a first move of {SIDES[color]} cannot be"
                " claimed here"
            )
        key = None if move is None else read_move(board, move)
        return cls(board=board, side=color, key=key, book=book_of(position))

    @property
    def name(self) -> str:
        """The side in words."""
        return SIDES[self.side]

    @property
    def with_key(self) -> str:
        """The first move as it follows the words of the claim."""
        return "" if self.key is None else f" with {write_line(self.board, (self.key,))}"

    def baseline(self) -> int:
        """Return what the side's gain is measured from, in its own points."""
        if self.side == self.board.turn:
            return baseline(self.board)
        before = self.board.copy()
        if before.move_stack and before.pop() and before.is_valid():
            return baseline(before)
        return -settled(self.board)

    def prove(self, goal: Goal, *, budget: int) -> Outcome:
        """Ask the solver, the proof book first."""
        return prove(
            self.board, goal, attacker=self.side, key=self.key, budget=budget, book=self.book
        )


def claim_of(asked: Asked, text: str, outcome: Outcome, *, caution: str) -> Claim:
    """Return a claim that is proved, with the lines of its proof."""
    proof = outcome.proof
    assert proof is not None
    before = [] if proof.key is None else [proof.key]
    if isinstance(proof.goal, Perpetual):
        evidence = [f"{write_line(asked.board, proof.main_line)} and so on."]
    else:
        lines = lettered(proof)
        after = asked.board.copy()
        for move in before:
            after.push(move)
        opening = [f"{write_line(asked.board, before)}"] if before else []
        evidence = opening + [str(line) for line in lines[:LINES_SHOWN]]
        if len(lines) > LINES_SHOWN:
            evidence.append(f"and {len(lines) - LINES_SHOWN} more lines.")
    return Claim(
        fen=asked.board.fen(),
        text=text,
        evidence=tuple(evidence),
        caution=caution,
        marks=tuple(
            Mark(
                role="force",
                square=chess.square_name(move.from_square),
                to=chess.square_name(move.to_square),
            )
            for move in before
        ),
        proof=proof,
    )


def refuse(asked: Asked, text: str, outcome: Outcome, reason: str) -> NoReturn:
    """Raise what a claim that is not proved deserves.

    Raises
    ------
    FalseClaim
        With the line that escapes.
    UnprovedClaim
        If the budget was spent.
    """
    if outcome.status == "not settled":
        raise UnprovedClaim(
            text,
            f"{outcome.positions:,} positions were not enough to settle it; give it a larger"
            " budget=…, or claim less",
            board=asked.board,
        )
    line = outcome.escape
    shown = f": {write_line(asked.board, line)} gets away" if line else ""
    raise FalseClaim(text, reason + shown, board=asked.board, line=line)
