"""Questions that ask for pieces of a sort: what they share."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import chess

from chessnb.board.naming import the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.board.squares import Square, name, read_squares
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_pieces, says_none
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.listing import Entry, graded_list
from chessnb.teaching.questions.question_kind import Asked
from chessnb.teaching.questions.question_values import Graded, Hint, Question, QuestionError, Right


def not_asked_for(
    board: chess.Board, square: chess.Square, sides: Sequence[chess.Color], *, king: str
) -> str:
    """Say why what stands on a square cannot be an answer at all; empty if it can.

    `king` is what is said of a king.
    """
    color = board.color_at(square)
    if color is None:
        return f"{name(square)} is empty"
    if color not in sides:
        return f"it is {SIDES[color]}'s"
    return king if board.piece_type_at(square) == chess.KING else ""


def ask_for_pieces(
    position: Position,
    asked: Asked,
    kind: str,
    found: Sequence[Right],
    *,
    also: Sequence[Right] = (),
    side: chess.Color,
    about: str = "",
    prompt: str,
    idea: str,
    stated: Square | Sequence[Square] | None,
    why_not: Callable[[chess.Square], str],
    hints: bool,
    level: str | None,
) -> Question:
    """Make a question for the pieces that were found.

    Raises
    ------
    QuestionError
        If what is said to be right is not what was found.
    """
    board = asked.board
    if stated is not None:
        _check_stated(board, found, stated, why_not)
    squares = [chess.parse_square(one.key) for one in found]
    offered = [hinting.idea(idea)]
    if squares:
        offered += [hinting.area(squares), hinting.kinds_of(board, squares)]
        offered.append(Hint(sort="first move", text=f"One stands on {name(squares[0])}."))
    return Question(
        kind=kind,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=prompt,
        right=tuple(found),
        every=True,
        also=tuple(also),
        about=about,
        side=side,
        hints=given_hints(hints, read_level(level, position), *offered),
    )


def _check_stated(
    board: chess.Board,
    found: Sequence[Right],
    stated: Square | Sequence[Square],
    why_not: Callable[[chess.Square], str],
) -> None:
    squares = read_squares(stated)
    known = {chess.parse_square(one.key) for one in found}
    for square in squares:
        if square not in known:
            reason = why_not(square)
            raise QuestionError(f"{the_piece(board, square)} is not one: {reason}", board=board)
    for square in sorted(known - set(squares)):
        raise QuestionError(f"{the_piece(board, square)} is one as well", board=board)


def grading_pieces(
    question: Question, text: str, *, noun: str, why_not: Callable[[chess.Square], str]
) -> Graded:
    """Grade an answer that names pieces; `why_not` says why one is none of them."""
    if says_none(text):
        return graded_list(question, (), noun=noun)
    board = question.board
    meant = chess.SquareSet(board.occupied)
    entries = []
    for said in read_pieces(board, text, among=meant):
        key = name(said.square)
        if said.reason:
            entries.append(Entry(key="", text=key, reason=said.reason))
        else:
            entries.append(Entry(key=key, text=said.text, reason=why_not(said.square)))
    return graded_list(question, entries, noun=noun)
