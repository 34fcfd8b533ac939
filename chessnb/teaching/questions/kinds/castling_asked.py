"""Castling: whether a side may castle now, and on which side; or has the right at all."""

from __future__ import annotations

import re

import chess

from chessnb.board.naming import listed
from chessnb.board.position import Position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.diagrams import Mark
from chessnb.facts import Castling, Wing
from chessnb.facts import castling as castling_of
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.mistakes import checked
from chessnb.teaching.questions import hinting
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

NAME = "can the king castle"


@gathered
@checked
def castling(
    position: Position,
    *,
    side: Side | None = None,
    ever: bool = False,
    right: str | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask whether a side may castle, and on which side of the board.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    side : {"White", "Black"} or chess.Color, optional
        Whose castling; by default that of the side to move.
    ever : bool
        Ask for the right to castle, be it now or later, and not for what may be played now.
    right : str, optional
        What you say is right, such as ``"kingside"`` or ``"no"``; another answer is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If what you say is right is not so.

    Examples
    --------
    >>> castling("r3k2r/8/8/8/2b5/8/8/R3K2R w KQkq - 0 1").right[0].text
    'queenside'
    """
    asked = Asked.of(position)
    board = asked.board
    color = read_side(side, default=board.turn)
    found = _castling(board, color)
    open_wings = [wing.wing for wing in found.wings if _is_open(wing, ever)]
    one = Right(
        key=" ".join(open_wings),
        text=listed(open_wings) or "no",
        sentence=" ".join(found.paragraphs),
        marks=tuple(
            Mark(role="target", square=square)
            for square in sorted({square for wing in found.wings for square in wing.attacked})
        ),
    )
    who = SIDES[color]
    asks = (
        f"Has {who} still the right to castle, now or later? On which side?"
        if ever
        else f"May {who} castle now? On which side?"
    )
    made = Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or asks,
        right=(one,),
        about="ever" if ever else "now",
        side=color,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.idea(
                "Have king and rook moved? Is the way free? Is the king attacked, on its way too?"
            ),
        ),
    )
    if right is not None and _grade(made, right, "english").result != "right":
        raise QuestionError(f"{right!r} is not so: {one.sentence}", board=board)
    return made


def _castling(board: chess.Board, color: chess.Color) -> Castling:
    with aside():
        return castling_of(board, color)


def _is_open(wing: Wing, ever: bool) -> bool:
    return not wing.lost if ever else wing.may


# -- answers -----------------------------------------------------------------

_KINGSIDE = re.compile(r"king'?s?[- ]?side|\bshort\b|\b[o0]-[o0]\b(?!-)|\bking\b", re.IGNORECASE)
_QUEENSIDE = re.compile(r"queen'?s?[- ]?side|\blong\b|\b[o0]-[o0]-[o0]\b|\bqueen\b", re.IGNORECASE)
_BOTH = re.compile(r"\b(?:both|either)\b", re.IGNORECASE)
_NO = re.compile(r"\b(?:no|not|cannot|can't|never|neither|none|nowhere)\b", re.IGNORECASE)
_YES = re.compile(r"\b(?:yes|y|can|may|it can)\b", re.IGNORECASE)


def _read(text: str) -> tuple[set[str] | None, bool]:
    """Read the wings that are named, and whether that is all; None stands for "yes" alone.

    Raises
    ------
    AnswerError
        If neither a side of the board nor yes or no is named.
    """
    if _BOTH.search(text) and not _NO.search(text):
        return {"kingside", "queenside"}, True
    clauses = re.split(r"\bbut\b|[,;]", text)
    wings: set[str] = set()
    denied = False
    for clause in clauses:
        named = set()
        if _QUEENSIDE.search(clause):
            named.add("queenside")
        rest = _QUEENSIDE.sub(" ", clause)
        if _KINGSIDE.search(rest):
            named.add("kingside")
        if _NO.search(clause):
            denied = True
        else:
            wings |= named
    if wings:
        return wings, True
    if denied:
        return set(), True
    if _YES.search(text):
        return None, False
    raise AnswerError("answer kingside, queenside, both or no", given=text)


def _grade(question: Question, text: str, language: str) -> Graded:
    right = question.right[0]
    said, _ = _read(text)
    true = set(right.key.split())
    if said is None:
        if true:
            return graded(question, "part", "Right. On which side?")
        return graded(question, "wrong", right.sentence, marks=right.marks)
    if said == true:
        return graded(question, "right", f"Right. {right.sentence}", marks=right.marks)
    if said and said < true:
        return graded(question, "part", "Right in part: that is not the only side.")
    if said & true:
        return graded(question, "part", f"Right in part. {right.sentence}", marks=right.marks)
    return graded(question, "wrong", right.sentence, marks=right.marks)


KIND = Kind(name=NAME, asks="whether a side may castle, and where", grade=at_once(_grade))
