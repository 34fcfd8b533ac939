"""Grading an answer that lists things of which all are wanted: credit for each that is there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chessnb.board.naming import counted, listed
from chessnb.diagrams import Mark
from chessnb.teaching.questions.question_values import Graded, Question, graded


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One thing that an answer names.

    Attributes
    ----------
    key : str
        What it is compared by.
    text : str
        As it is told back.
    reason : str
        If it is wrong: why, as a clause (``"it gives no check"``).
    """

    key: str
    text: str
    reason: str = ""


def graded_list(question: Question, said: Sequence[Entry], *, noun: str) -> Graded:
    """Grade a list: a part for each that is right, less where something wrong is named too.

    What is missing is counted and not named, so that the student can go on.

    Parameters
    ----------
    question : Question
        With `every` set.
    said : sequence of Entry
        What was named; nothing: that there is none.
    noun : str
        What is listed: ``"check"``.
    """
    wanted = {one.key: one for one in question.right}
    free = {one.key for one in question.also}
    hits = [one for one in said if one.key in wanted]
    wrong = [one for one in said if one.key not in wanted and one.key not in free]
    missing = len(wanted) - len(hits)
    marks = tuple(mark for one in hits for mark in wanted[one.key].marks)
    beside = _beside(question, said)
    if not wrong and not missing:
        return graded(question, "right", f"{_right(question, noun)}{beside}", marks=marks)
    if not wanted:
        return graded(question, "wrong", _reasons(wrong))
    credit = len(hits) / (len(wanted) + len(wrong))
    told = [f"Right: {listed(one.text for one in hits)}." if hits else ""]
    told.append(_reasons(wrong))
    if missing and not said:
        told.append(f"There {_is(len(wanted))} {counted(len(wanted), noun)}.")
    elif missing:
        told.append(f"{counted(missing, noun)} {_is(missing)} still missing.")
    told.append(beside.strip())
    sentence = " ".join(filter(None, told))
    return graded(question, "part" if hits else "wrong", sentence, credit=credit, marks=marks)


def _right(question: Question, noun: str) -> str:
    if not question.right:
        return f"Right: there is no {noun}."
    return f"Right: {listed(one.text for one in question.right)}."


def _beside(question: Question, said: Sequence[Entry]) -> str:
    """Say what was named that is neither wanted nor wrong."""
    free = {one.key: one for one in question.also}
    told = [free[one.key].sentence for one in said if one.key in free]
    return f" {' '.join(told)}" if told else ""


def _reasons(wrong: Sequence[Entry]) -> str:
    return " ".join(f"{begun(one.text)}: {one.reason}." for one in wrong)


def begun(text: str) -> str:
    """Begin a sentence with a capital, unless it begins with a square or a move."""
    return text if len(text) > 1 and text[1].isdigit() else text[:1].upper() + text[1:]


def _is(number: int) -> str:
    return "is" if number == 1 else "are"


def rings(squares: Sequence[str]) -> tuple[Mark, ...]:
    """Mark squares as targets."""
    return tuple(Mark(role="target", square=square) for square in squares)
