"""What the other side reaches after each reply: the search behind claims about all of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import chess

from chessnb.claims.asked import TOO_FEW
from chessnb.claims.claim import FalseClaim, UnprovedClaim
from chessnb.findings import Record
from chessnb.notation import write_line
from chessnb.proof import Goal, Proof, forcing_moves
from chessnb.proof.goals import after as goal_after
from chessnb.search.prover import Outcome, prove


def replies_of(board: chess.Board) -> list[chess.Move]:
    """Return the legal moves; checks and captures first, which are likeliest to be a defence."""
    forcing = set(forcing_moves(board))
    return sorted(board.legal_moves, key=lambda move: (move not in forcing, move.uci()))


@dataclass(frozen=True, kw_only=True)
class Answers:
    """What the other side reaches after each reply, where few or none are to prevent it.

    Attributes
    ----------
    board : chess.Board
        The position, with the side to move that replies.
    claimed : Record
        What is refused where a reply speaks against it.
    goal : Goal
        The goal of the other side.
    budget : int
        Positions for each reply.
    """

    board: chess.Board
    claimed: Record
    goal: Goal
    budget: int

    def saves(self, reply: chess.Move) -> None:
        """Refuse the claim if a reply does not prevent the goal, as far as is searched."""
        outcome = self.asked(reply)
        if outcome.proof is not None:
            line = (reply, *outcome.proof.main_line)
            reason = f"it does not defend: {write_line(self.board, line)}"
            raise FalseClaim(self.claimed, reason, board=self.board, line=line)
        if outcome.status == "not settled":
            raise self.open(reply)

    def lost(self, replies: Sequence[chess.Move], *, but: str) -> list[tuple[chess.Move, Proof]]:
        """Return the proofs that no reply prevents the goal, or refuse the claim.

        `but` says what is found of a reply that prevents it, a move in place of ``{}``.
        """
        proofs = []
        unsettled: chess.Move | None = None
        for reply in replies:
            outcome = self.asked(reply)
            if outcome.proof is not None:
                proofs.append((reply, outcome.proof))
            elif outcome.status == "false":
                reason = but.format(numbered(self.board, reply))
                raise FalseClaim(self.claimed, reason, board=self.board, line=(reply,))
            else:
                unsettled = unsettled or reply
        if unsettled:
            raise self.open(unsettled)
        return proofs

    def asked(self, reply: chess.Move) -> Outcome:
        """Return whether the other side reaches its goal after a reply."""
        goal = goal_after(self.goal, reply)
        return prove(after_move(self.board, reply), goal, budget=self.budget)

    def open(self, reply: chess.Move) -> UnprovedClaim:
        """Return the error for a reply that the budget does not settle."""
        reason = f"{numbered(self.board, reply)}: {TOO_FEW}"
        return UnprovedClaim(self.claimed, reason, board=self.board, line=(reply,))


def longest_first(lost: Sequence[tuple[chess.Move, Proof]]) -> list[tuple[chess.Move, Proof]]:
    """Return replies and their proofs, the longest resistance first."""
    return sorted(lost, key=lambda entry: (-entry[1].moves, entry[0].uci()))


def numbered(board: chess.Board, move: chess.Move) -> str:
    """Return a move with its number."""
    return write_line(board, (move,))


def after_move(board: chess.Board, move: chess.Move) -> chess.Board:
    """Return the position after a move, with the moves before it."""
    after = board.copy()
    after.push(move)
    return after
