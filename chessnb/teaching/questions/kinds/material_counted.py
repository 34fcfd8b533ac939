"""Who is ahead, and by how much: in pieces or in points, as people say it."""

from __future__ import annotations

import re

import chess

from chessnb.board.naming import counted
from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.claims.material_words import is_true_of
from chessnb.facts import Material, material
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
    Result,
    Right,
    graded,
)

NAME = "who is ahead"


@gathered
@checked
def ahead(
    position: Position,
    *,
    right: str | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask who is ahead in material, and by how much.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    right : str, optional
        What you say is right, as in ``"White is a pawn ahead"``; if it is not
        so it is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If what you say is right is not how the material stands.

    Examples
    --------
    >>> ahead("4k3/pp6/8/8/8/8/PPP5/4K3 w - - 0 1").right[0].text
    'White is a pawn ahead'
    """
    asked = Asked.of(position)
    board = asked.board
    found = _material(board)
    if right is not None and _result(found, right)[0] != "right":
        raise QuestionError(f"{right!r} is not so: {_truth(found)}", board=board)
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or "Who is ahead in material, and by how much?",
        right=(Right(key="", text=_truth(found), sentence=f"{_truth(found)}."),),
        side=board.turn,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.idea("A pawn is 1 point, a knight or a bishop 3, a rook 5, a queen 9."),
        ),
    )


def _material(board: chess.Board) -> Material:
    with aside():
        return material(board)


def _truth(found: Material) -> str:
    words = found.in_words.split(";")[0]
    return "Material is level" if words == "level" else words


_SIDE = re.compile(r"\b(?:white|black|w|b)(?:'s)?\b", re.IGNORECASE)
_EVEN = re.compile(
    r"(?:(?:it|material|everything|both|they|both sides)(?: is| are)? )?"
    r"(?:even|level|equal|equals|balanced|a draw|the same|nobody|neither|no one|none|=|0|"
    r"nobody is ahead|neither is ahead)(?: material| in points| in material)?",
    re.IGNORECASE,
)
_POINTS = re.compile(
    r"(?:(?P<sign>[+-])\s*)?(?P<many>\d{1,3})(?:\s*(?:points?|pts?))?", re.IGNORECASE
)
_JOINTS = re.compile(
    r"\b(?:is|by|ahead|up|better|has|more|leads?|with|in|material|down|behind)\b|[,:+]",
    re.IGNORECASE,
)


def _grade(question: Question, text: str, language: str) -> Graded:
    found = _material(question.board)
    result, sentence = _result(found, text)
    return graded(question, result, sentence)


def _result(found: Material, text: str) -> tuple[Result, str]:
    """Say whether an answer is right, right in part or wrong, and what is told of it."""
    said = text.strip(" .!")
    balance = found.balance
    if _EVEN.fullmatch(said):
        if balance == 0:
            return "right", f"Right: {_truth(found)}."
        return "wrong", "One side has more. Count again."
    sides = {match[0][0].lower() for match in _SIDE.finditer(said)}
    if len(sides) != 1:
        raise AnswerError("say who is ahead and by how much, as in “White, by a pawn”", given=text)
    side = sides == {"w"}
    behind = re.search(r"\b(?:down|behind|less)\b|-\s*\d", said) is not None
    leader = side != behind
    amount = _amount(found, side, behind, said)
    if balance == 0:
        if amount is True:
            return "right", f"Right: {_truth(found)}."
        return "wrong", "Nobody is ahead in points. Count again."
    if leader != (balance > 0):
        return "wrong", f"{SIDES[leader]} is not ahead. Count again."
    if amount is None:
        return "part", f"Right: {SIDES[leader]} is ahead. By how much?"
    if amount:
        return "right", f"Right: {_truth(found)}."
    return "part", f"Right in part: {SIDES[leader]} is ahead, but not by that much."


def _amount(found: Material, side: chess.Color, behind: bool, said: str) -> bool | None:
    """Tell whether the amount that is said is true; None if none is said.

    Raises
    ------
    AnswerError
        If what is said is not understood.
    """
    rest = " ".join(_JOINTS.sub(" ", _SIDE.sub(" ", said)).split())
    if not rest:
        return None
    if points := _POINTS.fullmatch(rest.lstrip("- ")):
        return int(points["many"]) == abs(found.balance)
    words = f"{SIDES[side]} is {rest} {'behind' if behind else 'ahead'}"
    for form in (said, words, f"{SIDES[side]} has {rest}"):
        true = is_true_of(found, form)
        if true is not None:
            return true
    if re.fullmatch(r"\w+ points?", rest) and (numbers := numbers_in(rest)):
        return numbers[0] == abs(found.balance)
    raise AnswerError(
        f"“{rest}” is not understood; say it in pieces or points, as in “White, by a pawn”, "
        f"“Black, {counted(3, 'point')}”",
        given=said,
    )


KIND = Kind(name=NAME, asks="who is ahead in material, and by how much", grade=at_once(_grade))
