"""Mistakes: a loss, and another move that costs less.

That a move loses something says little: everything else may lose it too.  It
is a mistake where another move is named that costs at least as much less,
looked at to the end and one move deeper than the loss, since a delay is no
cure.
"""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.proof import Mate, Measure, TooWild
from chessnb.search.budget import Searching
from chessnb.search.most_won import finding_most
from chessnb.search.prover import searching
from chessnb.verdicts.judge import game_over
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.offer import offer_of

BETTER_BUDGET = 400_000
"""Positions for each question about each other move."""

REFUTED_WITHIN = 4
"""So long may a mate or a gain be that is searched to its end; longer ones are looked for."""

REFUTED_BESIDE = 3
"""Where a long mate is looked for and not found, a short one is refuted to its end."""

LESS = 2
"""So many points less must another move cost that loses something too."""

MOST_TRIED = 12
"""So many other moves are looked at, the likeliest first."""


def finding_better(
    verdict: Verdict, *, first: Iterable[chess.Move] = (), budget: int = BETTER_BUDGET
) -> Searching[chess.Move | None]:
    """Look for a move that costs less than one that loses.

    Parameters
    ----------
    verdict : Verdict
        What is said of the move: that it loses, or is mated.
    first : iterable of chess.Move
        Moves that are looked at before the others: the lesson's, an adviser's.
    budget : int
        Positions for each.

    Returns
    -------
    chess.Move or None
        One after which no mate in as many moves and one more was found, and
        nothing won within as many and one more, or two points less than the
        loss; None if none was found.  Both are searched, not replayed.
    """
    board = verdict.board
    preferred = list(first)
    moves = preferred + [move for move in _likely(board) if move not in preferred]
    for move in [one for one in moves if one != verdict.move][: MOST_TRIED + len(preferred)]:
        if (yield from costing_less(verdict, move, budget=budget)):
            return move
    return None


def costing_less(
    verdict: Verdict, move: chess.Move, *, budget: int = BETTER_BUDGET
) -> Searching[bool]:
    """Tell whether a move is searched to cost less, one move deeper than the loss.

    Parameters
    ----------
    verdict : Verdict
        What is said of the move that loses, or is mated.
    move : chess.Move
        Another legal move of the same position.
    budget : int
        Positions for each question.
    """
    board = verdict.board
    after = board.copy()
    after.push(move)
    if (over := game_over(after)) is not None:
        return over == "checkmate"
    deep = verdict.moves + 1
    is_long = verdict.kind == "mated" and deep > REFUTED_WITHIN
    mate = Mate(within=REFUTED_BESIDE if is_long else min(deep, REFUTED_WITHIN))
    mated = yield from searching(after, mate, not board.turn, None, budget, explain=False)
    if mated.status != "false":
        return False
    if is_long:  # too long to be refuted
        longer = Mate(within=deep)
        mated = yield from searching(after, longer, not board.turn, None, budget, explain=False)
        if mated.proof is not None:
            return False
    if verdict.kind == "mated":
        return True
    try:
        measure = Measure.loss(board).after(move)
    except TooWild:
        return False
    lost = yield from finding_most(
        after, not board.turn, measure, min(deep, REFUTED_WITHIN), budget
    )
    if lost.won is None and lost.taken is None:
        return lost.settled
    return lost.at_most is not None and lost.at_most <= verdict.points - LESS


def _likely(board: chess.Board) -> list[chess.Move]:
    """Order the legal moves: captures, then what moves an attacked piece, checks, the rest.

    What leaves something to be taken comes last.
    """

    def rank(move: chess.Move) -> tuple[bool, int, str]:
        leaves = offer_of(board, move).points > 0
        if board.is_capture(move):
            return leaves, 0, move.uci()
        if board.is_attacked_by(not board.turn, move.from_square):
            return leaves, 1, move.uci()
        return leaves, 2 if board.gives_check(move) else 3, move.uci()

    return sorted(board.legal_moves, key=rank)
