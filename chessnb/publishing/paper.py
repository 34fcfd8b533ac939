"""A lesson on paper: the student's sheet, or the teacher's key."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

from chessnb.board.naming import counted
from chessnb.errors import InputError, NotebookError, listed
from chessnb.publishing.copied_lesson import LessonCopy, lesson_copy
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.output_file import check_output, write_output
from chessnb.publishing.student_sheet import parts_of, sheet_data
from chessnb.publishing.teachers_key import key_data
from chessnb.publishing.typesetting import check_typesetter, pdf_of

Size = Literal["a4", "letter"]
"""A size of paper."""


@dataclass(frozen=True, kw_only=True)
class Paper:
    """How a lesson is set.

    Parameters
    ----------
    size : {"a4", "letter"}
        The paper.
    large : bool
        In large print: letters of 16 points, and larger diagrams.
    columns : int or None
        1 or 2; by default two columns of diagrams for the student, and for
        the teacher a column of text with its diagrams beside it.
    letters : str
        How moves name the pieces: ``"figurine"``, or a language.

    Raises
    ------
    InputError
        If there is no such paper, or no such number of columns.
    """

    size: str = "a4"
    large: bool = False
    columns: int | None = None
    letters: str = "figurine"

    def __post_init__(self) -> None:
        if self.size not in get_args(Size):
            raise InputError(f"paper is {listed(get_args(Size), joint='or')}", given=self.size)
        if self.columns not in (None, 1, 2):
            raise InputError("a page has 1 column or 2", given=self.columns)


@dataclass(frozen=True, kw_only=True)
class Printed:
    """What was written.

    Attributes
    ----------
    path : Path
        The PDF.
    pages : int
        Of paper.
    questions : int
        How many positions the students are asked about.
    key : bool
        Whether it is the teacher's.
    what : {"lesson", "exercises"}
        What was set.
    """

    path: Path
    pages: int
    questions: int
    key: bool
    what: str = "lesson"

    @property
    def in_words(self) -> str:
        """Say it in one sentence."""
        what = "the teacher's key" if self.key else "the student's sheet"
        if self.what == "exercises":
            what = "the key to the exercises" if self.key else "the exercises"
        asked = counted(self.questions, "position")
        return f"{what}, {counted(self.pages, 'page')}, {asked} to solve."


def print_lesson(
    lesson: str | os.PathLike[str],
    output: str | os.PathLike[str],
    *,
    key: bool = False,
    paper: Paper | None = None,
    on_cell: Callable[[int, int], None] | None = None,
) -> Printed:
    """Set a lesson on paper, as a PDF.

    Parameters
    ----------
    lesson : path
        The lesson's notebook; it is run, and not changed.
    output : path
        The PDF to write.
    key : bool
        Write the teacher's key: all that the lesson tells, with the answers
        and the plan of the hour; else the student's sheet, which asks and
        tells no answer.
    paper : Paper, optional
        How it is set.
    on_cell : callable, optional
        Called before each cell is run, with its number and how many there are.

    Raises
    ------
    NotebookError
        If it is no lesson, a cell of it fails, the student is asked nothing
        in it, or the file cannot be written.
    InputError
        If moves cannot be written in those letters.
    """
    chosen = paper or Paper()
    Lettering(chosen.letters)  # what is not known is said before the lesson is run
    _check_target(Path(output))
    check_typesetter()
    return print_copy(lesson_copy(lesson, on_cell=on_cell), output, key=key, paper=chosen)


def print_copy(
    lesson: LessonCopy,
    output: str | os.PathLike[str],
    *,
    key: bool = False,
    paper: Paper | None = None,
) -> Printed:
    """Set a lesson that was run already; see :func:`print_lesson`."""
    chosen, target = paper or Paper(), Path(output)
    _check_target(target)
    asked = _asked(lesson)
    if not asked and not key:
        raise NotebookError(
            "the class is asked nothing in this lesson, so there is no sheet for students: "
            "open a page with page(…, ask='find the move'), or print the key",
            path=str(lesson.path),
        )
    lettering = Lettering(chosen.letters)
    layout = {
        "size": chosen.size,
        "large": chosen.large,
        "columns": chosen.columns or (1 if key or chosen.large else 2),
    }
    data = key_data(lesson, lettering) if key else sheet_data(lesson, lettering)
    pdf, pages = pdf_of({**data, **layout})
    write_output(target, pdf)
    return Printed(path=target, pages=pages, questions=asked, key=key)


def _asked(copy: LessonCopy) -> int:
    return sum(map(len, parts_of(copy)))


def _check_target(target: Path) -> None:
    check_output(
        target,
        what="the PDF",
        instead="a lesson is printed as a PDF: give a name that ends in .pdf",
    )
