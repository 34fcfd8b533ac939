"""The evidence of a claim that was proved: what was won, and the line that answers each reply."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.sides import SIDES
from chessnb.findings.proof_lines import lettered, what_went
from chessnb.notation import write_line
from chessnb.proof import Perpetual, Proof
from chessnb.proof.goals import gain_of

LINES_SHOWN = 12
"""So many lines of a proof stand under its diagram."""

DEAD = "The game is a draw then: with these pieces nobody can mate (FIDE Laws, article 5.2.2)."


def cautioned(caution: str, proof: Proof) -> str:
    """Add to a caution that what was won is worth nothing, where that is so."""
    board = proof.board
    for move in proof.main_line:
        board.push(move)
    if not board.is_insufficient_material():
        return caution
    return f"{caution} {DEAD}".strip()


@dataclass(frozen=True, kw_only=True)
class ProofLines:
    """What a proof shows, written when it is read.

    Whoever only asks whether a claim holds has no use for it.

    Attributes
    ----------
    board : chess.Board
        The position, with the moves before it.
    proof : Proof
        The proof.
    """

    board: chess.Board
    proof: Proof

    def __iter__(self) -> Iterator[str]:
        """Yield what was won, the first move, and the lines that answer each reply."""
        yield from _lines(self.board, self.proof)
        if cautioned("", self.proof):
            yield DEAD


def _lines(board: chess.Board, proof: Proof) -> Iterator[str]:
    if isinstance(proof.goal, Perpetual):
        yield f"{write_line(board, proof.main_line)} and so on."
        return
    line = proof.main_line
    pieces = _what_was_won(board, proof) if gain_of(proof.goal) and not proof.mates else ""
    if pieces:
        yield f"In the main line {SIDES[proof.attacker]} wins {pieces}: {write_line(board, line)}."
    if gain_of(proof.goal) and proof.mates:
        yield f"Even the best defence is mated: {write_line(board, line)}."
    if proof.key is not None:
        yield f"{write_line(board, (proof.key,))}"
    lines = lettered(proof)
    yield from (str(line) for line in lines[:LINES_SHOWN])
    if len(lines) > LINES_SHOWN:
        yield f"and {len(lines) - LINES_SHOWN} more lines."


def _what_was_won(board: chess.Board, proof: Proof) -> str:
    """Name what goes in the main line, the capture just before it included."""
    before = board.copy(stack=1)
    moves = proof.main_line
    if board.move_stack:
        last = before.pop()
        if last and before.is_capture(last):
            return what_went(before, (last, *moves), proof.attacker)
    return what_went(board, moves, proof.attacker)
