"""What a move that is sought must reach: read from what a teacher writes, or worked out.

And what another move does beside it: the one place where a try at a goal is graded.
"""

from __future__ import annotations

import chess

from chessnb.board.naming import NUMBERS, counted
from chessnb.board.sides import SIDES
from chessnb.notation import write_move
from chessnb.proof import Gain, Goal, Mate, Measure, Perpetual, Proof, TooWild
from chessnb.proof.goals import MOST_MOVES
from chessnb.search.budget import BUDGET, Searching
from chessnb.search.prover import Outcome, proving
from chessnb.teaching.questions.question_values import Graded, Question, QuestionError, graded
from chessnb.teaching.tries import judged
from chessnb.verdicts.move_verdict import Verdict

SLOWER = 2
"""A mate that is so many moves slower is still right in part."""

SLOWER_BUDGET = 200_000
"""Positions for the question whether there is one."""


def read_goal(
    board: chess.Board, *, mate: int | None, at_least: int | None, within: int | None, draw: bool
) -> Goal | None:
    """Return the goal that a teacher names; None if none is named.

    Raises
    ------
    QuestionError
        If what is named does not make one goal.
    """
    if (mate is not None) + (at_least is not None) + draw > 1:
        raise QuestionError("ask for one thing: mate=…, at_least=… or draw=True", board=board)
    if (at_least is None) != (within is None):
        raise QuestionError("material is asked for by both at_least=… and within=…", board=board)
    if mate is not None:
        return Mate(within=mate)
    if at_least is not None and within is not None:
        try:
            return Gain(points=at_least, within=within, measure=Measure.gain(board))
        except TooWild:
            raise QuestionError(
                "so many captures can follow that nobody can say what is won", board=board
            ) from None
    return Perpetual() if draw else None


def goal_in_words(goal: Goal, side: str) -> str:
    """Say what is to be found, as a sentence: ``"White mates in two."``."""
    if isinstance(goal, Mate):
        return f"{side} mates in {_number(goal.within)}."
    if isinstance(goal, Gain):
        points = counted(goal.points, "point")
        moves = counted(goal.within, "move")
        return f"{side} wins material: at least {points} within {moves}."
    return f"{side} saves the game by perpetual check."


def _number(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def reached(proof: Proof) -> str:
    """Say what a proof reaches, as a clause: ``"mates in 3"``, ``"wins at least 5 points"``."""
    if isinstance(proof.goal, Mate) or proof.mates:
        return "is mate" if proof.moves == 1 else f"mates in {proof.moves}"
    if isinstance(proof.goal, Gain):
        return f"wins at least {counted(proof.goal.points, 'point')}"
    return "forces perpetual check"


def proving_move(
    board: chess.Board, goal: Goal, move: chess.Move, budget: int = BUDGET
) -> Searching[Outcome]:
    """Return the search for whether a move reaches a goal."""
    return (yield from proving(board, goal, key=move, budget=budget))


def grading_try(question: Question, move: chess.Move) -> Searching[Graded]:
    """Grade a legal move that is not known to be right, by whether it reaches the goal."""
    board, goal = question.board, question.goal
    assert goal is not None
    san = write_move(board, move)
    outcome = yield from proving_move(board, goal, move)
    if outcome.proof is not None:
        line = outcome.proof.main_line
        return graded(question, "right", f"Right: {san} {_also(outcome.proof)}.", line=line)
    if outcome.status == "not settled":
        return graded(
            question,
            "not proved",
            f"{san} is not proved either way: ask your teacher.",
            line=[move],
        )
    verdict = yield from judged(board, move, depth=question.depth)
    slower = yield from _slower_mate(board, goal, move)
    if slower is not None:
        sentence = f"Right in part: {san} mates in {slower.moves}, but there is a faster mate."
        return graded(question, "part", sentence, line=slower.main_line)
    if (less := _wins_less(goal, verdict)) is not None:
        sentence = f"Right in part: {san} {verdict.words}, but there is more."
        return graded(question, "part", sentence, credit=less, line=verdict.line)
    sentence, shown = _why_wrong(board, goal, outcome, verdict)
    return graded(question, "wrong", sentence, line=shown)


def _also(proof: Proof) -> str:
    words = reached(proof)
    return words if words == "is mate" else f"also {words}"


def _slower_mate(board: chess.Board, goal: Goal, move: chess.Move) -> Searching[Proof | None]:
    if not isinstance(goal, Mate):
        return None
    longer = Mate(within=min(goal.within + SLOWER, MOST_MOVES))
    outcome = yield from proving_move(board, longer, move, SLOWER_BUDGET)
    return outcome.proof


def _wins_less(goal: Goal, verdict: Verdict) -> float | None:
    """Return the credit of a move that wins something, but not what is asked; None if nothing."""
    if verdict.kind != "wins":
        return None
    if isinstance(goal, Gain) and verdict.points < goal.points:
        return max(0.25, min(0.5, verdict.points / goal.points))
    return 0.25 if isinstance(goal, Mate) else None


def _why_wrong(
    board: chess.Board, goal: Goal, outcome: Outcome, verdict: Verdict
) -> tuple[str, tuple[chess.Move, ...]]:
    """Say why a move does not reach the goal, and the line that shows it."""
    san = write_move(board, verdict.move)
    if verdict.kind == "mated":
        return f"After {san} {SIDES[board.turn]} is {verdict.words}.", verdict.line
    if verdict.kind == "loses":
        return f"{san} {verdict.words}.", verdict.line
    if verdict.kind in ("draw", "stalemate"):
        return f"{san} is {verdict.words}.", verdict.line
    if verdict.kind == "offers":
        return f"{san} does not do it. {verdict.taken}.", verdict.line
    return f"{san} {_falls_short(goal)}.", outcome.escape or (verdict.move,)


def _falls_short(goal: Goal) -> str:
    if isinstance(goal, Mate):
        return f"does not mate in {goal.within}"
    if isinstance(goal, Gain):
        points, moves = counted(goal.points, "point"), counted(goal.within, "move")
        return f"does not win {points} within {moves}"
    return "does not force perpetual check"
