"""Verdicts kept beside a lesson, so that a student's first try is answered at once.

A file can be damaged, or changed by hand.  So an entry is only a hint: what
it says is made again from a proof that is replayed and measured in the
position on the board, and that nothing was found is searched again.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from typing import Any

import chess

from chessnb.lessons import Moment
from chessnb.proof import Mate, Proof, TooWild, gain_of, holds
from chessnb.search import core
from chessnb.search.budget import Searching, finish
from chessnb.search.comebacks import keeps
from chessnb.search.proof_book import ProofBook, book_of
from chessnb.verdicts.depth import USUAL, Depth
from chessnb.verdicts.judge import Measures, game_over, is_offer, judging, judging_all, proved
from chessnb.verdicts.move_verdict import Kind, Verdict

INTERPRETED = 5_000
"""Positions for searching once more, where nothing was found and the search is not compiled."""


def keep_verdicts(moment: Moment, *, depth: Depth = USUAL) -> int:
    """Keep what every legal move of a position does, so that a try is answered at once.

    Returns
    -------
    int
        How many were kept; 0 for a lesson that was not read from a file.

    Notes
    -----
    Costs as much as a reply table.  The book is written only where proofs are (see
    :mod:`chessnb.search.proof_book`); a student edition carries it as it stands in memory.
    """
    book = book_of(moment)
    if book is None:
        return 0
    board = moment.board
    judged = finish(judging_all(board, depth=depth, measures=Measures.of(board)))
    found = [one for one in judged if one.kind != "not settled"]
    book.keep_verdicts(board, {verdict.move.uci(): verdict_data(verdict) for verdict in found})
    return len(found)


def verdict_data(verdict: Verdict) -> dict[str, Any]:
    """Return a verdict ready for JSON; with its proof, so that it can be replayed."""
    depth = verdict.depth
    data: dict[str, Any] = {
        "kind": verdict.kind,
        "depth": [depth.mate, depth.within, depth.budget],
    }
    if verdict.proof is not None:
        data["proof"] = verdict.proof.to_data()
    if not verdict.kept:
        data["kept"] = False
    return data


def kept_verdict(book: ProofBook, board: chess.Board, move: chess.Move) -> Verdict | None:
    """Return what a book says of a move; None if nothing, or nothing that can be believed."""
    return finish(finding_kept(book, board, move))


def finding_kept(
    book: ProofBook, board: chess.Board, move: chess.Move
) -> Searching[Verdict | None]:
    """Return the check that :func:`kept_verdict` runs; only "nothing" needs a search."""
    data = book.verdicts(board).get(move.uci())
    if not isinstance(data, Mapping):
        return None
    with suppress(ValueError, KeyError, TypeError, IndexError, TooWild):
        verdict = _read(board, move, data)
        if verdict is not None and verdict.kind == "nothing":
            return (yield from _searched_again(board, verdict))
        if verdict is not None and verdict.proof is not None and verdict.kept:
            return verdict if (yield from keeps(verdict.proof)) else None
        return verdict
    return None


def _read(board: chess.Board, move: chess.Move, data: Mapping[str, Any]) -> Verdict | None:
    """Make a verdict of an entry; None if the rules or its proof do not say the same."""
    kind = data["kind"]
    mate, within, budget = data["depth"]
    depth = Depth(mate=mate, within=within, budget=budget)
    found = Verdict(fen=board.fen(), move=move, kind="nothing", line=(move,), depth=depth)
    after = board.copy()
    after.push(move)
    over = game_over(after)
    if over is not None:
        return replace(found, kind=over) if over == kind else None
    if kind == "nothing":
        return found
    if kind not in ("mates", "mated", "wins", "loses", "offers"):
        return None
    proof = Proof.from_data(data["proof"])
    if not _proves(board, after, proof, move, kind):
        return None
    if kind != "offers":
        return proved(found, proof, kind)
    # Only of an offer may it be open whether what is taken is kept.
    kept = bool(data.get("kept", True))
    return proved(replace(found, kept=kept), proof, kind) if is_offer(after, proof) else None


def _proves(
    board: chess.Board, after: chess.Board, proof: Proof, move: chess.Move, kind: Kind
) -> bool:
    """Tell whether a proof is one of what a kind of verdict says, of this move."""
    own = kind in ("mates", "wins")
    if proof.attacker != (board.turn == own) or proof.board.epd() != after.epd():
        return False
    if kind in ("mates", "mated"):
        return isinstance(proof.goal, Mate) and holds(proof)
    gain = gain_of(proof.goal)
    measures = Measures.of(board)
    if measures is None:
        return False
    measure = (measures.gain if own else measures.loss).after(move)
    return gain is proof.goal and gain is not None and gain.measure == measure and holds(proof)


def _searched_again(board: chess.Board, verdict: Verdict) -> Searching[Verdict | None]:
    """Return a verdict that nothing was found if nothing is found again; else None.

    Where the search is compiled it is the same search; elsewhere a short one,
    which finds what a student would be ashamed of having been told.
    """
    depth = verdict.depth
    if not core.compiled:
        depth = replace(depth, budget=min(depth.budget, INTERPRETED))
    again = yield from judging(board, verdict.move, depth=depth, measures=Measures.of(board))
    open_only = again.kind == "not settled" and not core.compiled
    return verdict if again.kind == "nothing" or open_only else None
