"""All legal moves: everything that the side to move may do.

Meant for positions with few replies, such as a check.
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

NAME = "all legal moves"


@gathered
@checked
def legal_moves(
    position: Position, *, hints: bool = True, level: str | None = None, question: str = ""
) -> Question:
    """Ask for every legal move.

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
    >>> [one.text for one in legal_moves("7k/8/8/8/8/8/6r1/7K w - - 0 1").right]
    ['Kxg2']
    """
    side = SIDES[Asked.of(position).board.turn]
    return ask_for_moves(
        position,
        NAME,
        _is_wanted,
        prompt=question or f"Which moves does {side} have? Name all that are legal.",
        idea="The king goes away, the piece is taken, or something steps between.",
        hints=hints,
        level=level,
    )


def _is_wanted(board: chess.Board, move: chess.Move) -> bool:
    return board.is_legal(move)


def _grade(question: Question, text: str, language: str) -> Graded:
    return grading_moves(question, text, language, noun="move", not_one="it is not legal")


KIND = Kind(name=NAME, asks="every legal move", grade=at_once(_grade))
