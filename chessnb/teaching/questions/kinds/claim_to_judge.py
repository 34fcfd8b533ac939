"""True or false: a claim, made with the functions of :mod:`chessnb.claims`.

The claim is tried out when the question is made.  One that is not proved
either way cannot be asked.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import chess

from chessnb.claims import Claim, FalseClaim, UnprovedClaim
from chessnb.errors import as_given
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.mistakes import checked
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_yes_no
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import (
    Graded,
    Question,
    QuestionError,
    Right,
    graded,
)

NAME = "true or false"


@gathered
@checked
def true_or_false(
    claim: Callable[..., Claim],
    position: Any,
    *args: Any,
    right: bool | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
    **options: Any,
) -> Question:
    """Ask whether a claim is true.

    Parameters
    ----------
    claim : callable
        A function of :mod:`chessnb.claims`, without brackets.
    position : chess.Board, Moment or str
        The position that it is about.
    *args, **options
        What else it is given.
    right : bool, optional
        What you say is right; the other is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If the claim is not proved either way, or is not what you say.

    Examples
    --------
    >>> from chessnb import claims
    >>> asked = true_or_false(claims.mates, "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", within=1)
    >>> asked.prompt, asked.right[0].text
    ('True or false: White mates in 1.', 'true')
    """
    asked = Asked.of(position)
    board = asked.board
    if not callable(claim):
        raise QuestionError(
            "give the claim itself, without brackets, as in true_or_false(claims.mates, m, "
            f"within=2), not {as_given(claim)}",
            board=board,
        )
    try:
        with aside():
            found = claim(position, *args, **options)
    except FalseClaim as error:
        one = _false(error)
        said, status = error.claim, "searched"
    except UnprovedClaim as error:
        raise QuestionError(
            f"“{error.claim}” is not proved either way: {error.reason}", board=board
        ) from None
    else:
        one, said, status = _true(found), found.words, found.record.status
    if right is not None and right != (one.key == "true"):
        raise QuestionError(f"“{said}” is {one.key}: {one.sentence}", board=board, moves=one.line)
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"True or false: {said}.",
        right=(one,),
        about=str(said),
        side=board.turn,
        hints=given_hints(
            hints, read_level(level, position), hinting.idea("Try it out on the board.")
        ),
        status=status if status in ("rules", "proved") else "searched",
    )


def _true(found: Claim) -> Right:
    proof = found.proof
    line: tuple[chess.Move, ...] = () if proof is None else proof.main_line
    if proof is not None and chess.Board(found.fen).fen() != proof.fen:
        line = ()  # a proof of another position: after a pass, or after a move
    return Right(
        key="true", text="true", sentence=found.paragraphs[0], line=line, marks=found.marks
    )


def _false(error: FalseClaim) -> Right:
    reason = f"{error.reason[0].upper()}{error.reason[1:]}."
    return Right(key="false", text="false", sentence=reason, line=error.moves, marks=error.marks)


def _grade(question: Question, text: str, language: str) -> Graded:
    right = question.right[0]
    said = "true" if read_yes_no(text) else "false"
    if said == right.key:
        sentence = f"Right, it is {said}. {right.sentence}"
        return graded(question, "right", sentence, line=right.line, marks=right.marks)
    sentence = f"It is {right.key}. {right.sentence}"
    return graded(question, "wrong", sentence, line=right.line, marks=right.marks)


KIND = Kind(name=NAME, asks="whether a claim is true", grade=at_once(_grade))
