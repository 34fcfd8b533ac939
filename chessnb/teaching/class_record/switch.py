"""The switch: answers are kept from here on, under one nickname, until it is switched off.

What is kept is data about children wherever children answer: ask what your
school and the law where you teach allow.
"""

from __future__ import annotations

import os
from collections import Counter
from dataclasses import dataclass, field

from chessnb.mistakes import checked
from chessnb.teaching.class_record.kept_answers import CAUTION, KeptAnswer, read_nickname
from chessnb.teaching.class_record.record_file import ClassRecord
from chessnb.teaching.questions.answering import listeners
from chessnb.teaching.questions.question_values import Graded, Question


@dataclass(frozen=True, kw_only=True)
class Keeping:
    """That answers are kept: whose, and where.

    Attributes
    ----------
    nickname : str
        Under which name.
    record : ClassRecord
        Where.
    """

    nickname: str
    record: ClassRecord
    tries: Counter[str] = field(default_factory=Counter, repr=False, compare=False)

    @property
    def words(self) -> str:
        """That it is switched on, and the caution."""
        return f"Answers of {self.nickname} are kept in {self.record.path}. {CAUTION}"

    def keep(self, question: Question, given: str, graded: Graded) -> None:
        """Keep one answer; each further one to a question is a further try."""
        tries = self.tries[question.key] + 1
        self.record.add(KeptAnswer.of(self.nickname, question, given, graded, tries=tries))
        self.tries[question.key] = tries

    def __str__(self) -> str:
        return self.words


@checked
def switch_on(nickname: str, *, path: str | os.PathLike[str] | None = None) -> Keeping:
    """Keep answers from here on, under a nickname and never more.

    Ask what your school and the law where you teach allow before you do so.

    Parameters
    ----------
    nickname : str
        Not a full name, and no address.
    path : path, optional
        The file; by default one among the user's own data, outside of every repository.

    Raises
    ------
    ClassRecordError
        If the nickname or the file cannot be used.
    """
    switch_off()
    keeping = Keeping(nickname=read_nickname(nickname), record=ClassRecord(path))
    keeping.record.add()  # a file that cannot be used is told now, not in class
    listeners.append(keeping.keep)
    return keeping


def switch_off() -> None:
    """Keep nothing any more; what was kept stays."""
    listeners.clear()
