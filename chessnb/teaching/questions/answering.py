"""Answers: what a student gives is read, graded by its kind, and told with a reason."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

import chess

from chessnb.errors import InputError
from chessnb.mistakes import checked
from chessnb.search.budget import Searching, finish
from chessnb.teaching.questions.all_kinds import KINDS
from chessnb.teaching.questions.question_kind import Given
from chessnb.teaching.questions.question_values import AnswerError, Graded, Question

Listener = Callable[[Question, str, Graded], object]
"""Is told a question, the answer as it was typed, and what it is worth."""

listeners: list[Listener] = []
"""Who hears of each answer that was graded: nobody, unless a record is switched on."""

LONGEST = 2_000
"""So many characters an answer may have."""


@checked
def answer(
    question: Question, given: Given, *, hints: int = 0, language: str = "english"
) -> Graded:
    """Grade an answer.

    Parameters
    ----------
    question : Question
        What was asked.
    given : str, chess.Move, list of these, int or bool
        The answer, as a person types it: moves in any notation or in words,
        squares, pieces, counts such as ``"2-1"``, ``"White, by a pawn"``.
    hints : int
        How many hints were taken: each costs a quarter of what is earned.
    language : str
        Whose piece letters moves are written with.

    Returns
    -------
    Graded
        Right, right in part, wrong, or not proved, with what shows it.

    Raises
    ------
    AnswerError
        If it cannot be read; such an answer does not count.

    Examples
    --------
    >>> from chessnb import questions
    >>> asked = questions.checks("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1")
    >>> questions.answer(asked, "rook to a8").sentence
    'Right: Ra8#.'
    """
    return finish(grading(question, given, hints=hints, language=language))


def grading(
    question: Question, given: Given, *, hints: int = 0, language: str = "english"
) -> Searching[Graded]:
    """Return the search that :func:`answer` runs."""
    if not isinstance(question, Question):
        raise InputError(
            "a question is what questions.find_move(…) and the like make", given=question
        )
    if isinstance(hints, bool) or not isinstance(hints, int) or hints < 0:
        raise InputError("hints is how many were taken, a number from 0 on", given=hints)
    text = as_text(given)
    found = yield from KINDS[question.kind].grade(question, text, language)
    found = replace(found, hints=hints)
    for listener in listeners:
        listener(question, text, found)
    return found


def as_text(given: Given) -> str:
    """Return an answer as text, whatever it was given as.

    Raises
    ------
    AnswerError
        If it is empty, far too long, or no answer at all.

    Examples
    --------
    >>> as_text(["Qh7+", chess.Move.from_uci("e2e4")]), as_text(True), as_text(2)
    ('Qh7+, e2e4', 'yes', '2')
    """
    if isinstance(given, bool):
        return "yes" if given else "no"
    if isinstance(given, int):
        return str(given)
    if isinstance(given, chess.Move):
        return given.uci()
    if isinstance(given, str):
        text = (
            " ".join(given.split("\n")) if "\n" not in given.strip() else given.replace("\n", ", ")
        )
        text = " ".join(text.split())
        if not text:
            raise AnswerError("there is no answer yet", given=given)
        if len(text) > LONGEST:
            raise AnswerError(f"an answer has {LONGEST} characters at most", given=given)
        return text
    if isinstance(given, Iterable) and not isinstance(given, bytes | bytearray | Mapping):
        parts = list(given)
        if not parts:
            return "none"
        if all(isinstance(part, str | chess.Move) for part in parts):
            return as_text(", ".join(as_text(part) for part in parts))
    raise AnswerError("an answer is text, such as 'Nf3', or a list of moves", given=given)
