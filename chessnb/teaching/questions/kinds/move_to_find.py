"""Find the move: one that mates, wins material, or saves the game.

Every move that does what is asked is right, whether the lesson plays it or
not.  Another is tried out when it is given: right if it is proved to do the
same, right in part where it mates later or wins less, wrong only where a
search to its end shows that it does not do it.
"""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.findings import gathered
from chessnb.lessons import Moment
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_line, write_move
from chessnb.proof import Gain, Goal, Mate, Measure, Proof
from chessnb.search.budget import BUDGET, Searching, finish
from chessnb.search.prover import settle
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_one_move
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.move_goals import (
    goal_in_words,
    grading_try,
    reached,
    read_goal,
)
from chessnb.teaching.questions.question_kind import Asked, Kind
from chessnb.teaching.questions.question_values import (
    Graded,
    Hint,
    Question,
    QuestionError,
    Right,
    graded,
)
from chessnb.verdicts.depth import USUAL
from chessnb.verdicts.judge import Measures, judging_all
from chessnb.verdicts.move_verdict import Verdict

NAME = "find the move"


@gathered
@checked
def find_move(
    position: Position,
    *,
    right: MoveLike | Iterable[MoveLike] | None = None,
    mate: int | None = None,
    at_least: int | None = None,
    within: int | None = None,
    draw: bool = False,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
    budget: int = BUDGET,
) -> Question:
    """Ask for a move that mates, wins material or saves the game.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move.
    right : str, chess.Move or several, optional
        What you say is right; by default the lesson's own move, where there is one.
    mate : int, optional
        Ask for a mate within so many moves.
    at_least, within : int, optional
        Ask for so many points within so many moves.
    draw : bool
        Ask for a perpetual check.  If nothing is named, it is worked out what
        the best move does.
    hints : bool
        Give hints, as the level has them.
    level : {"beginner", "club", "strong"}, optional
        For whom; by default the lesson's.
    question : str
        The question in your own words.
    budget : int
        Positions for what you say is right.

    Returns
    -------
    Question
        With every move that is known to be right.

    Raises
    ------
    QuestionError
        If a move that is said to be right is not proved to be, or nothing is
        proved of any move.

    Examples
    --------
    >>> asked = find_move("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", right="Ra8#")
    >>> asked.prompt, asked.right[0].text
    ('White to move. White mates in one. Find the move.', 'Ra8#')
    """
    asked = Asked.of(position)
    board = asked.board
    stated = _stated(position, board, right)
    goal = read_goal(board, mate=mate, at_least=at_least, within=within, draw=draw)
    if goal is None:
        goal, best = _worked_out(board, stated)
        stated = stated or best
    proofs = _proofs(position, board, goal, stated, budget)
    known = tuple(_right(board, proof) for proof in proofs)
    for_whom = read_level(level, position)
    side = SIDES[board.turn]
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"{side} to move. {goal_in_words(goal, side)} Find the move.",
        right=known,
        side=board.turn,
        goal=goal,
        hints=given_hints(hints, for_whom, *move_hints(board, proofs[0])),
        status="proved",
    )


def _stated(
    position: Position, board: chess.Board, right: MoveLike | Iterable[MoveLike] | None
) -> list[chess.Move]:
    if right is None:
        following = position.next if isinstance(position, Moment) else None
        return [following.move] if following is not None and following.move else []
    moves = [right] if isinstance(right, str | chess.Move) else list(right)
    return [read_move(board, move) for move in moves]


def _worked_out(board: chess.Board, stated: list[chess.Move]) -> tuple[Goal, list[chess.Move]]:
    """Return what the best move does as a goal, and the moves that are proved to do it.

    Raises
    ------
    QuestionError
        If nothing is proved of any move, or what is said to be right does less.
    """
    found = finish(judging_all(board, depth=USUAL, measures=Measures.of(board)))
    by_move = {verdict.move: verdict for verdict in found}
    best = found[0] if found else None
    for move in stated:
        _refuse_if_worse(board, by_move[move], best)
    if best is None or best.kind not in ("checkmate", "mates", "wins"):
        raise QuestionError(
            "nothing is proved to be won here, so no answer could be graded: say what is to be "
            "found (mate=…, or at_least=… and within=…)",
            board=board,
        )
    if best.kind == "wins":
        goal: Goal = Gain(
            points=best.points, within=max(best.moves, 1), measure=Measure.gain(board)
        )
    else:
        goal = Mate(within=max(best.moves, 1))
    return goal, [one.move for one in found if one.rank == best.rank]


def _refuse_if_worse(board: chess.Board, said: Verdict, best: Verdict | None) -> None:
    """Refuse a stated move that loses something, or does less than another."""
    if said.is_bad:
        words = f"is {said.words}" if said.kind == "mated" else said.words
        who = SIDES[board.turn] if said.kind == "mated" else "it"
        raise QuestionError(
            f"{said.san} is not right: {who} {words}, {said.written}", board=board, moves=said.line
        )
    if best is not None and said.rank > best.rank and best.kind in ("checkmate", "mates", "wins"):
        does = "nothing is proved of it" if not _wins(said) else f"it {said.words}"
        raise QuestionError(
            f"{said.san} is not the move to find: {does}, and {best.san} {_does(best)}, "
            f"{best.written}",
            board=board,
            moves=best.line,
        )


def _wins(verdict: Verdict) -> bool:
    return verdict.kind in ("checkmate", "mates", "wins")


def _does(verdict: Verdict) -> str:
    return "is mate" if verdict.kind == "checkmate" else verdict.words


def _proofs(
    position: Position, board: chess.Board, goal: Goal, stated: list[chess.Move], budget: int
) -> list[Proof]:
    """Prove each move that is said to be right, or find one.

    Raises
    ------
    QuestionError
        If one of them does not do it, or it is not proved.
    """
    proofs = []
    sought: list[chess.Move | None] = [*stated] or [None]
    for move in sought:
        outcome = settle(board, goal, side=board.turn, key=move, budget=budget, position=position)
        if outcome.proof is None:
            named = "no move" if move is None else write_move(board, move)
            raise QuestionError(
                _refusal(board, named, goal, outcome.escape, outcome.status),
                board=board,
                moves=outcome.escape,
            )
        proofs.append(outcome.proof)
    return proofs


def _refusal(
    board: chess.Board, named: str, goal: Goal, escape: tuple[chess.Move, ...], status: str
) -> str:
    wanted = goal_in_words(goal, SIDES[board.turn]).rstrip(".")
    if status == "not settled":
        return f"{named} is not proved within the budget to be right: “{wanted}”"
    shown = f": {write_line(board, escape)}" if len(escape) > 1 else " (searched)"
    return f"{named} does not do what is asked, “{wanted}”{shown}"


def _right(board: chess.Board, proof: Proof) -> Right:
    move = proof.key
    assert move is not None
    san = write_move(board, move)
    return Right(
        key=move.uci(), text=san, sentence=f"{san} {reached(proof)}.", line=proof.main_line
    )


def move_hints(board: chess.Board, proof: Proof) -> tuple[Hint, ...]:
    """Return the hints to a move: where it goes, what moves, how it ends, the move."""
    move = proof.key
    assert move is not None
    line = proof.main_line
    last = line[-1] if len(line) % 2 else line[-2] if len(line) > 1 else move
    taken = "Something can be won for nothing, or for less."
    ends = "Look at every check." if board.gives_check(move) else "The first move gives no check."
    if isinstance(proof.goal, Gain):
        ends = taken if board.is_capture(move) else "What is attacked, and what defends it?"
    return (
        hinting.area([move.to_square, last.to_square]),
        hinting.mover(board, [move]),
        hinting.idea(ends),
        hinting.first_move(board, move),
    )


def _grade(question: Question, text: str, language: str) -> Searching[Graded]:
    said = read_one_move(question.board, text, language)
    if said.move is None:
        return graded(question, "wrong", f"{said.text} cannot be played: {said.reason}.")
    for one in question.right:
        if one.key == said.move.uci():
            return graded(question, "right", f"Right: {one.sentence}", line=one.line)
    return (yield from grading_try(question, said.move))


KIND = Kind(name=NAME, asks="a move that mates, wins material or saves the game", grade=_grade)
