"""The class in a table: who has answered what, what was missed most, what should come back."""

from __future__ import annotations

import csv
import io
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from chessnb.board.naming import counted
from chessnb.teaching.class_record.kept_answers import NAMES, KeptAnswer
from chessnb.teaching.class_record.record_file import ClassRecord

SHOWN = 10
"""So many of the questions that were missed most are shown."""


@dataclass(frozen=True, kw_only=True)
class Standing:
    """How one student stands: each question counts once, by its last answer."""

    nickname: str
    questions: int
    right: int
    part: int
    wrong: int
    not_proved: int
    credit: float


@dataclass(frozen=True, kw_only=True)
class Missed:
    """A question that was missed.

    Attributes
    ----------
    question, prompt, fen : str
        Its key, its text, its position.
    students : int
        How many answered it.
    missed : tuple of str
        Whose last answer to it is wrong, or right in part only.
    """

    question: str
    prompt: str
    fen: str
    students: int
    missed: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ClassTable:
    """A class, as its teacher sees it.

    Attributes
    ----------
    standings : tuple of Standing
        The students, by nickname.
    missed : tuple of Missed
        What was missed, by the most first; all of it should come back.
    """

    standings: tuple[Standing, ...]
    missed: tuple[Missed, ...]

    @classmethod
    def of(cls, record: ClassRecord) -> ClassTable:
        """Make the table of a record."""
        last = _last_answers(record.answers())
        return cls(standings=tuple(_standings(last)), missed=tuple(_missed(last)))

    def to_come_back(self, nickname: str) -> tuple[Missed, ...]:
        """Return what a student should be asked again."""
        return tuple(one for one in self.missed if nickname in one.missed)

    def lines(self) -> Iterator[str]:
        """Yield the table as lines of plain text."""
        if not self.standings:
            yield "Nobody has answered anything yet."
            return
        width = max(len("student"), *(len(one.nickname) for one in self.standings))
        yield f"{'student':<{width}}  asked  right  part  wrong  open  credit"
        for one in self.standings:
            yield (
                f"{one.nickname:<{width}}  {one.questions:>5}  {one.right:>5}  {one.part:>4}  "
                f"{one.wrong:>5}  {one.not_proved:>4}  {one.credit:>6.0%}"
            )
        if self.missed:
            yield ""
            yield "Missed most, and to come back:"
        for missed in self.missed[:SHOWN]:
            count = f"{len(missed.missed)} of {counted(missed.students, 'student')}"
            yield f"  {count}: {missed.prompt} [{missed.fen}]"
            yield f"    {', '.join(missed.missed)}"

    def __str__(self) -> str:
        return "\n".join(self.lines())


def _last_answers(answers: Iterable[KeptAnswer]) -> dict[tuple[str, str], KeptAnswer]:
    """Return each student's last answer to each question; answers come in their order."""
    return {(one.nickname, one.question): one for one in answers}


def _standings(last: dict[tuple[str, str], KeptAnswer]) -> Iterator[Standing]:
    by_name: dict[str, list[KeptAnswer]] = defaultdict(list)
    for one in last.values():
        by_name[one.nickname].append(one)
    for nickname, answers in sorted(by_name.items()):
        results = [one.result for one in answers]
        yield Standing(
            nickname=nickname,
            questions=len(answers),
            right=results.count("right"),
            part=results.count("part"),
            wrong=results.count("wrong"),
            not_proved=results.count("not proved"),
            credit=sum(one.credit for one in answers) / len(answers),
        )


def _missed(last: dict[tuple[str, str], KeptAnswer]) -> list[Missed]:
    by_question: dict[str, list[KeptAnswer]] = defaultdict(list)
    for one in last.values():
        by_question[one.question].append(one)
    found = []
    for question, answers in by_question.items():
        names = sorted(one.nickname for one in answers if one.result in ("wrong", "part"))
        if names:
            found.append(
                Missed(
                    question=question,
                    prompt=answers[0].prompt,
                    fen=answers[0].fen,
                    students=len(answers),
                    missed=tuple(names),
                )
            )
    return sorted(found, key=lambda one: (-len(one.missed), one.prompt, one.question))


# -- for a spreadsheet ---------------------------------------------------------

_FORMULA = re.compile(r"^[\s\0]*[=+\-@\t\r\n|%＝＋－＠]")


def as_csv(answers: Iterable[KeptAnswer]) -> str:
    """Write answers as CSV that no spreadsheet takes for formulas.

    A text that begins like a formula gets an apostrophe before it.

    Examples
    --------
    >>> as_csv([]).strip().split(",")[1]
    '"nickname"'
    """
    file = io.StringIO()
    writer = csv.writer(file, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow(NAMES)
    for one in answers:
        writer.writerow(map(_safe, one.data().values()))
    return file.getvalue()


def _safe(value: object) -> object:
    if isinstance(value, str) and _FORMULA.match(value):
        return f"'{value}"
    return value
