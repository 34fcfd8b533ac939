"""Attackers and defenders of a square, counted: ``"2-1"``, ``"two attackers, one defender"``."""

from __future__ import annotations

import re

import chess

from chessnb.board.naming import the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES, Side
from chessnb.board.squares import Square, read_square
from chessnb.facts import Pressure, pressure
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.mistakes import checked
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import numbers_in
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Question,
    QuestionError,
    Right,
    graded,
)

NAME = "attackers and defenders"


@gathered
@checked
def count(
    position: Position,
    square: Square,
    *,
    side: Side | None = None,
    right: tuple[int, int] | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask how many attack a square and how many defend it.

    Counted as :func:`chessnb.facts.pressure` does: a piece behind another on
    the same line counts, a pinned one only along its pin.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    square : str or chess.Square
        The square, or where the piece stands.
    side : {"White", "Black"} or chess.Color, optional
        Who attacks; by default the enemy of the piece there, for an empty
        square the side to move.
    right : (int, int), optional
        The attackers and defenders that you say are right.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If the numbers that you say are right are not those that are counted.

    Examples
    --------
    >>> count("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5").right[0].text
    '2-1'
    """
    asked = Asked.of(position)
    board = asked.board
    place = read_square(square)
    found = _pressure(board, place, side)
    numbers = (found.attacked_by, found.defended_by)
    if right is not None and tuple(right) != numbers:
        raise QuestionError(f"{right[0]}-{right[1]} is not so: {found.words}", board=board)
    what = the_piece(board, place)
    attacker, defender = SIDES[found.side], SIDES[not found.side]
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question
        or f"How many times does {attacker} attack {what}, and how many times does {defender} "
        "defend it?",
        right=(
            Right(
                key=f"{numbers[0]}-{numbers[1]}",
                text=f"{numbers[0]}-{numbers[1]}",
                sentence=f"On {found.words}.",
                marks=found.picture.marks,
            ),
        ),
        about=found.square,
        side=found.side,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.idea("A rook, bishop or queen behind another on the same line counts too."),
        ),
    )


def _pressure(board: chess.Board, square: chess.Square, side: Side | None) -> Pressure:
    with aside():
        return pressure(board, square, side=side)


_NAMED = re.compile(r"(?P<many>\w+)\s+(?:times?\s+)?(?:attack\w*|defen[dcs]\w*)", re.IGNORECASE)
_BEFORE = re.compile(
    r"(?P<what>attack\w*|defen[dcs]\w*)\s*(?:with|by|is|are|=|:)?\s*(?P<many>\w+)", re.IGNORECASE
)


def _grade(question: Question, text: str, language: str) -> Graded:
    attackers, defenders = map(int, question.right[0].key.split("-"))
    said = _numbers(text)
    marks = question.right[0].marks
    whole = question.right[0].sentence
    good = (said[0] == attackers, said[1] == defenders)
    if all(good):
        return graded(question, "right", f"Right: {whole}", marks=marks)
    if good[0]:
        told = "The attackers are right." if said[1] is not None else "Right. How many defenders?"
        more = "" if said[1] is None else " Count the defenders again."
        return graded(question, "part", f"{told}{more}")
    if good[1]:
        told = "The defenders are right." if said[0] is not None else "Right. How many attackers?"
        more = "" if said[0] is None else " Count the attackers again."
        return graded(question, "part", f"{told}{more}")
    if (said[1], said[0]) == (attackers, defenders):
        return graded(question, "wrong", "The attackers come first. Which is which?")
    return graded(question, "wrong", "Count both again, the pieces behind others too.")


def _numbers(text: str) -> tuple[int | None, int | None]:
    """Read the two numbers, attackers first unless they are named; None for one left out."""
    found = _named_numbers(text)
    if found is not None:
        return found
    numbers = numbers_in(text)
    if len(numbers) != 2:
        raise AnswerError(
            "write the attackers, then the defenders, as in 2-1 or “two attackers, one defender”",
            given=text,
        )
    return numbers[0], numbers[1]


def _named_numbers(text: str) -> tuple[int | None, int | None] | None:
    """Read the numbers that stand beside the words; None where no words stand."""
    named: dict[str, int] = {}
    for pattern in (_NAMED, _BEFORE):
        for match in pattern.finditer(text):
            numbers = numbers_in(match["many"])
            what = "a" if "attack" in match[0].lower() else "d"
            if len(numbers) == 1 and what not in named:
                named[what] = numbers[0]
        if named:
            break
    return (named.get("a"), named.get("d")) if named else None


KIND = Kind(name=NAME, asks="how many attack a square and defend it", grade=at_once(_grade))
