"""More than one question about a position: every key, the fastest mate, a threat, each reply."""

from __future__ import annotations

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.sides import Side
from chessnb.board.turns import after_pass
from chessnb.mistakes import checked
from chessnb.proof import Goal, Mate
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.search.budget import BUDGET, Searching, finish
from chessnb.search.prover import Outcome, proving


@checked
def keys(
    position: Position, goal: Goal, *, budget: int = BUDGET
) -> tuple[tuple[chess.Move, Outcome], ...]:
    """Return every move of the side to move that reaches a goal, with its proof.

    Two keys mean that a problem has a second solution, or that an exercise
    needs both as answers.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    goal : Goal
        What the side to move is to reach.
    budget : int
        Positions for each move.

    Returns
    -------
    tuple of (chess.Move, Outcome)
        Proved moves first, then those that are not settled; each by UCI.
    """
    return finish(finding_keys(position, goal, budget=budget))


def finding_keys(
    position: Position, goal: Goal, *, budget: int = BUDGET
) -> Searching[tuple[tuple[chess.Move, Outcome], ...]]:
    """Return the search that :func:`keys` runs."""
    board = read_position(position)
    found = []
    for move in sorted(board.legal_moves, key=chess.Move.uci):
        outcome = yield from proving(board, goal, key=move, budget=budget)
        if outcome.status != "false":
            found.append((move, outcome))
    return tuple(sorted(found, key=lambda entry: entry[1].status != "proved"))


@checked
def mates(
    position: Position, *, within: int, budget: int = BUDGET
) -> tuple[tuple[chess.Move, Outcome], ...]:
    """Return every move that mates within so many moves; see :func:`keys`.

    Examples
    --------
    >>> [move.uci() for move, _ in mates("k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1", within=1)]
    ['c2c8', 'g1g8']
    """
    return keys(position, Mate(within=within), budget=budget)


@checked
def fastest(
    position: Position,
    *,
    within: int,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Outcome:
    """Find the fastest mate: proved within n moves, and searched for none within n - 1.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    within : int
        The longest mate that is looked for.
    side : {"White", "Black"} or chess.Color, optional
        Who mates; the side to move if it is left out.
    budget : int
        Positions for each length.

    Returns
    -------
    Outcome
        Its goal is the shortest mate that is not refuted: proved, or not
        settled.  False, with the goal `within`, if there is no mate.
    """
    return finish(finding_fastest(position, within=within, attacker=side, budget=budget))


def finding_fastest(
    position: Position,
    *,
    within: int,
    attacker: Side | None = None,
    budget: int = BUDGET,
) -> Searching[Outcome]:
    """Return the search that :func:`fastest` runs."""
    whole_number("within", within, most=MOST_MOVES)
    for moves in range(1, within + 1):
        outcome = yield from proving(position, Mate(within=moves), attacker=attacker, budget=budget)
        if outcome.status != "false":
            break
    return outcome


@checked
def threat(position: Position, goal: Goal, *, budget: int = BUDGET) -> Outcome | None:
    """Ask what the side that is not to move would reach if the other side passed.

    Returns
    -------
    Outcome or None
        The answer for the position after a pass, the side that threatens to
        move.  None in check, where nobody can pass.
    """
    return finish(finding_threat(position, goal, budget=budget))


def finding_threat(
    position: Position, goal: Goal, *, budget: int = BUDGET
) -> Searching[Outcome | None]:
    """Return the search that :func:`threat` runs."""
    passed = after_pass(read_position(position))
    if passed is None:
        return None
    return (yield from proving(passed, goal, budget=budget))


@checked
def best_replies(
    position: Position, goal: Goal, *, budget: int = BUDGET
) -> tuple[tuple[chess.Move, Outcome], ...]:
    """Ask of every reply whether the side that just moved still reaches its goal.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position, the defender to move.
    goal : Goal
        The other side's goal, its moves counted from the next.
    budget : int
        Positions for each reply.

    Returns
    -------
    tuple of (chess.Move, Outcome)
        Every legal reply: those that prevent the goal first, then those not
        settled, then those that do not prevent it, longest resistance first.
    """
    return finish(finding_best_replies(position, goal, budget=budget))


def finding_best_replies(
    position: Position, goal: Goal, *, budget: int = BUDGET
) -> Searching[tuple[tuple[chess.Move, Outcome], ...]]:
    """Return the search that :func:`best_replies` runs."""
    board = read_position(position)
    found = []
    for move in sorted(board.legal_moves, key=chess.Move.uci):
        after = board.copy()
        after.push(move)
        outcome = yield from proving(after, goal, budget=budget)
        found.append((move, outcome))

    def rank(entry: tuple[chess.Move, Outcome]) -> tuple[int, int]:
        outcome = entry[1]
        order = ("false", "not settled", "proved").index(outcome.status)
        return order, -(outcome.proof.moves if outcome.proof else 0)

    return tuple(sorted(found, key=rank))
