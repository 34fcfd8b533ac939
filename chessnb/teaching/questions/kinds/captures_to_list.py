"""All captures: every move that takes something.

Good or bad, and en passant too.
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

NAME = "all captures"


@gathered
@checked
def captures(
    position: Position, *, hints: bool = True, level: str | None = None, question: str = ""
) -> Question:
    """Ask for every move that takes something.

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
    >>> [one.text for one in captures("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2").right]
    ['exd6']
    """
    side = SIDES[Asked.of(position).board.turn]
    return ask_for_moves(
        position,
        NAME,
        _is_wanted,
        prompt=question or f"What can {side} take? Name all captures, the bad ones too.",
        idea="Look at every piece in turn, the pawns and the king too.",
        hints=hints,
        level=level,
    )


def _is_wanted(board: chess.Board, move: chess.Move) -> bool:
    return board.is_capture(move)


def _grade(question: Question, text: str, language: str) -> Graded:
    return grading_moves(question, text, language, noun="capture", not_one="it takes nothing")


KIND = Kind(name=NAME, asks="every move that takes something", grade=at_once(_grade))
