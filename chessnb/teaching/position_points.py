"""What is to be found in a single position: a mate, a gain, a threat, or a plan.

A position of a list is no turn of a game: it is looked at by itself.  Its answer
is the move that the list gives, or the one that the search proves; where there is
neither, the class is asked about what the structure shows.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.naming import NUMBERS
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.lessons import Moment
from chessnb.notation import write_move
from chessnb.proof import Gain, Mate, TooWild
from chessnb.proof.measure import Measure
from chessnb.search.budget import finish
from chessnb.search.most_won import finding_most
from chessnb.search.prover import searching
from chessnb.teaching.cell_code import Expression, call
from chessnb.teaching.quiet_signs import cell_of, features

MATE = 4
"""Mates in so many moves are looked for."""

WITHIN = 3
"""Gains within so many moves are looked for."""

BUDGET = 400_000
"""So many positions for each question."""

WORTH = 2
"""So many points a gain must have to be asked for."""


@dataclass(frozen=True, kw_only=True)
class PositionPoint:
    """What is asked and told at a position.

    Attributes
    ----------
    question : str
        What the class is asked.
    key : chess.Move or None
        The move to find; ``None`` where no move is asked for.
    cells : tuple of str
        The calls that tell the answer, for the position ``m``.
    """

    question: str
    key: chess.Move | None = None
    cells: tuple[str, ...] = ()


M = Expression("m")
"""The position, as the page of a lesson calls it."""


def position_point(moment: Moment) -> PositionPoint:
    """Return what is to be found in a position; its own answer first.

    Notes
    -----
    Some seconds at most, compiled.
    """
    board = moment.board
    given = None if moment.next is None else moment.next.move
    return (
        _mate(board, given)
        or _gain(board, given)
        or _given(board, given)
        or _threat(board)
        or _plan(board)
    )


def _mate(board: chess.Board, given: chess.Move | None) -> PositionPoint | None:
    """Return the shortest mate, by the move that is given or by any."""
    for within in range(1, MATE + 1):
        proof = finish(
            searching(board, Mate(within=within), board.turn, given, BUDGET, explain=False)
        ).proof
        if proof is None or proof.key is None:
            continue
        moves = "one move" if within == 1 else f"{NUMBERS[within]} moves"
        return PositionPoint(
            question=f"{SIDES[board.turn]} mates in {moves}. How?",
            key=proof.key,
            cells=(call("claims.mates", M, within=within, move=write_move(board, proof.key)),),
        )
    return None


def _gain(board: chess.Board, given: chess.Move | None) -> PositionPoint | None:
    """Return the most that is won by force, if it is by the move that is given or none is."""
    try:
        measure = Measure.gain(board)
    except TooWild:
        return None
    most = finish(finding_most(board, board.turn, measure, WITHIN, BUDGET)).won
    if most is None or most.proof is None or not isinstance(most.goal, Gain):
        return None
    key, goal = most.proof.key, most.goal
    if key is None or goal.points < WORTH or given not in (None, key):
        return None
    san = write_move(board, key)
    return PositionPoint(
        question=f"{SIDES[board.turn]} wins material. How?",
        key=key,
        cells=(
            call("claims.wins_material", M, at_least=goal.points, within=goal.within, move=san),
        ),
    )


def _given(board: chess.Board, given: chess.Move | None) -> PositionPoint | None:
    """Return the move that the list gives, of which nothing is proved."""
    if given is None:
        return None
    return PositionPoint(question=f"What does {SIDES[board.turn]} play?", key=given)


def _threat(board: chess.Board) -> PositionPoint | None:
    """Return the mate that the side that is not to move threatens."""
    passed = after_pass(board)
    if passed is None:
        return None
    for within in (1, 2):
        goal = Mate(within=within)
        proof = finish(searching(passed, goal, passed.turn, None, BUDGET, explain=False)).proof
        if proof is not None and proof.key is not None:
            san = write_move(passed, proof.key)
            return PositionPoint(
                question=f"What does {SIDES[passed.turn]} threaten?",
                cells=(call("claims.threatens", M, san, mate=within),),
            )
    return None


def _plan(board: chess.Board) -> PositionPoint:
    """Return a question about what the position's structure shows most."""
    found = sorted(features(board).values(), key=lambda one: -one.weight)
    about = [one for one in found if one.about]
    if not about:
        return PositionPoint(
            question=f"{SIDES[board.turn]} is to move. Who has what?",
            cells=(call("facts.material", M),),
        )
    first = about[0]
    return PositionPoint(question=first.question, cells=(cell_of(M, first.about),))
