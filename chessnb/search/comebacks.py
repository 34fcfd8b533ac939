"""What is taken, and whether it is won back: the searched half of a gain.

A proof of a gain ends where the captures end, and the checker has replayed it
that far.  A quiet move later the piece may be lost again: it is pinned, has no
way out, or the other side threatens more.  So from every end of a proof that
is about to be told the loser may try anything, quiet moves too, for three more
moves of its own.  Mate, perpetual check and stalemate count as winning back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.proof import Gain, Mate, Measure, Perpetual, Proof, Stalemate
from chessnb.proof.certificate import from_answers
from chessnb.proof.checker import check
from chessnb.proof.goals import gain_of
from chessnb.search import core
from chessnb.search.budget import Searching
from chessnb.search.endless_checks import finding_perpetual

WON_BACK_WITHIN = 3
"""So many moves has the loser to win it back: common practice, no source."""

KEEPING = 1_000_000
"""Positions for the question whether anything is won back from any end of one proof."""

CHECKS_ON_END = 15_000
"""Positions for the question whether an end is saved by perpetual check."""


@dataclass(frozen=True, kw_only=True)
class End:
    """Where a proof of a gain ends: the gain stands, the loser is to move.

    Attributes
    ----------
    board : chess.Board
        The position.
    fen : str
        The same, written once.
    line : tuple of chess.Move
        The moves that lead there from the proof's position.
    """

    board: chess.Board
    fen: str
    line: tuple[chess.Move, ...]


@dataclass(frozen=True, kw_only=True)
class Comeback:
    """Whether anything is won back.

    Attributes
    ----------
    status : int
        ``core.REFUTED``: nothing is, at no end of the proof.  ``core.PROVED``:
        it is, at this one.  ``core.OPEN``: that is not known.
    end : End or None
        The end in question.
    """

    status: int
    end: End | None = None


def ends(proof: Proof) -> Iterator[End]:
    """Find the distinct ends of a proof, mates left out."""
    met: set[str] = set()
    seen: set[int] = set()
    stack: list[tuple[int, chess.Board, tuple[chess.Move, ...]]] = [(0, proof.board, ())]
    while stack:
        index, board, line = stack.pop()
        if index in seen:
            continue
        seen.add(index)
        node = proof.nodes[index]
        if node.move:
            move = chess.Move.from_uci(node.move)
            board.push(move)
            line = (*line, move)
        if node.stands:
            fen = board.fen()
            name = fen.rsplit(" ", 2)[0]  # without the counts of moves
            if name not in met:
                met.add(name)
                yield End(board=board, fen=fen, line=line)
            continue
        for reply, child in reversed(node.replies):
            after = board.copy(stack=False)
            after.push_uci(reply)
            stack.append((child, after, (*line, chess.Move.from_uci(reply))))


def comebacks_against(target: int, side: chess.Color) -> core.Comebacks:
    """Put the question, for all ends of the proofs that a side reaches a balance."""
    return core.Comebacks(loser=not side, target=1 - target, within=WON_BACK_WITHIN)


def coming_back(proof: Proof, comebacks: core.Comebacks, budget: int) -> Searching[Comeback]:
    """Look whether what a proof takes is won back from any of its ends."""
    start = comebacks.positions
    open_end: End | None = None
    for end in ends(proof):
        spent = comebacks.positions - start
        if spent >= budget:
            return Comeback(status=core.OPEN, end=end)
        yield spent
        status = comebacks.is_won_back(end.fen)
        if status == core.REFUTED and (yield from _checks_for_ever(end, comebacks)):
            status = core.PROVED
        if status == core.PROVED:
            return Comeback(status=core.PROVED, end=end)
        if status == core.OPEN:
            open_end = open_end or end
    return Comeback(status=core.OPEN if open_end else core.REFUTED, end=open_end)


def keeps(proof: Proof) -> Searching[bool]:
    """Tell whether nothing is won back of what a proof takes; of a mate, True at once."""
    if isinstance(proof.goal, Mate | Stalemate | Perpetual):
        return True
    gain = gain_of(proof.goal)
    assert gain is not None
    comebacks = comebacks_against(gain.target, proof.attacker)
    back = yield from coming_back(proof, comebacks, KEEPING)
    return back.status == core.REFUTED


def _checks_for_ever(end: End, comebacks: core.Comebacks) -> Searching[bool]:
    """Tell whether the loser, who is to move, has a perpetual check."""
    if not comebacks.may_check_on(end.fen):
        return False
    proof, _, positions = yield from finding_perpetual(
        end.board, end.board.turn, key=None, budget=CHECKS_ON_END
    )
    comebacks.note(end.fen, positions, core.PROVED if proof else core.REFUTED)
    return proof is not None


def comeback_line(
    end: End, target: int, side: chess.Color, *, budget: int
) -> Searching[tuple[chess.Move, ...]]:
    """Return the moves that win it back from an end, the line to the end before them.

    `target` is the balance that a side has reached there, in its points.
    """
    back = 1 - target
    for moves in range(1, WON_BACK_WITHIN + 2):
        question = core.Question(end.fen, attacker=not side, gain=moves, target=back)
        if question.run(budget) == core.PROVED:
            answers = question.proof()
            if answers is None:
                break
            regained = Gain(points=1, within=moves, measure=Measure.number(back - 1))
            proof = from_answers(answers, fen=end.fen, attacker=not side, goal=regained)
            check(proof)
            return (*end.line, *proof.main_line)
        yield question.positions
    checks, _, _ = yield from finding_perpetual(end.board, not side, key=None, budget=CHECKS_ON_END)
    return end.line if checks is None else (*end.line, *checks.main_line)
