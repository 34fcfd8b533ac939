"""Proofs that are grown with an adviser's moves, where the search alone gives up.

A long mate with quiet moves in it is more than the search finds.  An adviser,
a UCI engine, may name the attacker's moves; every reply to them is expanded,
what is short enough is left to the search, and the checker replays the whole
as it replays any proof.  The adviser decides nothing: where it errs, no proof
grows.

Such a proof belongs to the lesson and is kept in its proof file.  Where the
file is missing, a machine that does not find the mate says "not proved".
"""

from __future__ import annotations

from typing import Any

import chess

from chessnb import claims
from chessnb.board.position import Position, read_position
from chessnb.claims import Claim, UnprovedClaim
from chessnb.claims.calls import checked
from chessnb.notation import MoveLike, read_move
from chessnb.proof import Mate, Proof, check
from chessnb.proof.certificate import from_answers
from chessnb.search import core
from chessnb.search.budget import BUDGET
from chessnb.search.proof_book import book_of
from chessnb.search.race import ask
from chessnb.teaching.adviser import MATED, Adviser

LEAF_BUDGET = 60_000
"""Positions for the search of what is left of a mate, before the adviser is asked again."""

LEAF_MOVES = 5
"""So many moves at most are left to the search alone."""

MOST_ASKED = 400
"""So many positions the adviser is asked about before a proof is given up."""


@checked
def mates_with_adviser(
    position: Position,
    *,
    within: int,
    move: MoveLike | None = None,
    adviser: str | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim a mate, and ask a UCI engine for help where the search alone gives up.

    What the engine helps to prove is kept in the proof file beside the game file.
    From then on :func:`chessnb.claims.mates` finds it there, and no engine is asked.

    Parameters
    ----------
    position : moment, chess.Board or str
        The position, the side that mates to move.
    within : int
        In so many of its moves at most.
    move : str or chess.Move, optional
        The first of them, if the claim is about it.
    adviser : str, optional
        The engine's program, by path or name; see :mod:`chessnb.engine`.
    budget : int
        Positions for the search alone, before the engine is asked.

    Returns
    -------
    Claim
        The claim of :func:`chessnb.claims.mates`, with the same record.

    Raises
    ------
    FalseClaim
        If there is no such mate.
    UnprovedClaim
        If no proof has grown either, or the position belongs to no lesson that
        was read from a file: then there is no proof file to keep it in.
    EngineError
        If the engine is needed, and there is none or it does not answer.
    """
    try:
        return claims.mates(position, within=within, move=move, budget=budget)
    except UnprovedClaim:
        book = book_of(position)
        if book is None:
            raise
        board = read_position(position)
        key = None if move is None else read_move(board, move)
        with Adviser(adviser) as engine:
            proof = grow_mate(board, within, engine, key=key)
        if proof is None:
            raise
        book.keep_grown(proof, key)
    return claims.mates(position, within=within, move=move, budget=budget)


def grow_mate(
    board: chess.Board,
    within: int,
    adviser: Adviser,
    *,
    key: chess.Move | None = None,
) -> Proof | None:
    """Prove a mate with an adviser's moves.

    Parameters
    ----------
    board : chess.Board
        The position, the side that mates to move.
    within : int
        In so many of its moves at most.
    adviser : Adviser
        Who names its moves.
    key : chess.Move, optional
        The first of them, if it is known.

    Returns
    -------
    Proof or None
        The proof, replayed by the checker; None if none has grown.

    Raises
    ------
    EngineError
        If the adviser does not answer any more.
    """
    growing = _Growing(board.turn, adviser)
    root = growing.attack(board.copy(stack=False), within, key)
    if root is None:
        return None
    proof = from_answers(root, fen=board.fen(), attacker=board.turn, goal=Mate(within=within))
    check(proof)
    return proof


class _Growing:
    """One proof under way; nodes are nested lists, as the search makes them."""

    def __init__(self, attacker: chess.Color, adviser: Adviser) -> None:
        self.attacker = attacker
        self.adviser = adviser
        self.asked = 0
        self.known: dict[tuple[str, int], list[Any] | None] = {}

    def attack(self, board: chess.Board, left: int, key: chess.Move | None) -> list[Any] | None:
        """Return the node of a position, the attacker to move, or None."""
        name = (board.epd(), left)
        if key is None and name in self.known:
            return self.known[name]
        found = self._searched(board, left, key)
        if found is None and left > 1:
            found = self._advised(board, left, key)
        if key is None:
            self.known[name] = found
        return found

    def _searched(self, board: chess.Board, left: int, key: chess.Move | None) -> list[Any] | None:
        """Return what the search proves by itself: forcing moves alone, or all of a short mate."""
        question = ask(board, Mate(within=left), self.attacker, key=key)
        lanes = [(core.CHECKS, 0), (core.FORCING, 0), (core.FORCING, 1)]
        if left <= LEAF_MOVES:
            lanes.append((core.ALL_MOVES, 0))
        for lane, quiet in lanes:
            if question.run_lane(LEAF_BUDGET, lane, quiet, left) == core.PROVED:
                return question.proof()
        return None

    def _advised(self, board: chess.Board, left: int, key: chess.Move | None) -> list[Any] | None:
        """Return a node with the adviser's move, every reply to it answered."""
        if self.asked >= MOST_ASKED:
            return None
        if key is None:
            self.asked += 1
            advice = self.adviser.ask(board)
            if advice.best is None or advice.score < MATED - 2 * left - 2:
                return None  # it sees no mate in time
            key = advice.best
        board.push(key)
        answers: list[Any] = []
        complete = True
        for reply in sorted(board.legal_moves, key=lambda move: _hardest_first(board, move)):
            board.push(reply)
            node = self.attack(board, left - 1, None)
            board.pop()
            if node is None:
                complete = False
                break
            answers.append([reply.uci(), node])
        complete &= bool(answers) or board.is_checkmate()
        board.pop()
        return [key.uci(), 0, answers] if complete else None


def _hardest_first(board: chess.Board, move: chess.Move) -> tuple[bool, bool, str]:
    """Order replies: checks and captures first, which refute a mate most often."""
    return not board.gives_check(move), not board.is_capture(move), move.uci()
