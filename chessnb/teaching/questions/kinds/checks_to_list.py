"""All checks: every move that gives check, mate among them.

A check that is uncovered counts, and so do castling and promotion with check.
"""

from __future__ import annotations

import chess

from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.teaching.questions.moves_listed import ask_for_moves, grading_moves
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import Graded, Question

NAME = "all checks"


@gathered
@checked
def checks(
    position: Position, *, hints: bool = True, level: str | None = None, question: str = ""
) -> Question:
    """Ask for every move that gives check.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    hints : bool
        Give hints, as the level has them.
    level : {"beginner", "club", "strong"}, optional
        For whom; by default the lesson's.
    question : str
        The question in your own words.

    Raises
    ------
    QuestionError
        If the game is over, or there are too many to write down.

    Examples
    --------
    >>> [one.text for one in checks("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1").right]
    ['Ra8#']
    """
    side = SIDES[Asked.of(position).board.turn]
    return ask_for_moves(
        position,
        NAME,
        _is_wanted,
        prompt=question or f"Which checks can {side} give? Name them all.",
        idea="A check may also be uncovered by a piece that steps aside.",
        hints=hints,
        level=level,
    )


def _is_wanted(board: chess.Board, move: chess.Move) -> bool:
    return board.gives_check(move)


def _grade(question: Question, text: str, language: str) -> Graded:
    return grading_moves(question, text, language, noun="check", not_one="it gives no check")


KIND = Kind(name=NAME, asks="every move that gives check", grade=at_once(_grade))
