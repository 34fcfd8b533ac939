"""Exercises on paper: questions collected over the games of a course, and their key."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

import chess

from chessnb.errors import NotebookError
from chessnb.findings.record import read_records
from chessnb.lessons import Lesson
from chessnb.notation import write_line
from chessnb.notebooks import read_notebook
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.output_file import check_output, write_output
from chessnb.publishing.paper import Paper, Printed
from chessnb.publishing.prose import Run
from chessnb.publishing.setting import for_print
from chessnb.publishing.student_sheet import LINES, NEAR
from chessnb.publishing.typesetting import check_typesetter, pdf_of
from chessnb.teaching.questions.course_games import lessons_in
from chessnb.teaching.questions.question_values import Question
from chessnb.teaching.questions.sheets import collect

COUNT = 12
"""How many exercises a sheet has, unless the teacher says otherwise."""


def print_exercises(
    games: Sequence[str | os.PathLike[str]],
    output: str | os.PathLike[str],
    *,
    title: str = "",
    motif: str | None = None,
    level: str | None = None,
    count: int = COUNT,
    without: Sequence[str | os.PathLike[str]] = (),
    key: bool = False,
    paper: Paper | None = None,
    on_game: Callable[[int, int], None] | None = None,
) -> Printed:
    """Set exercises from games on paper, as a PDF.

    Parameters
    ----------
    games : sequence of path
        Game files, and folders whose game files are all read.
    output : path
        The PDF to write.
    title : str
        What stands above; else what the exercises are about.
    motif, level : str, optional
        Which questions are collected; see :func:`chessnb.questions.collect`.
    count : int
        So many at most.
    without : sequence of path
        Lessons whose positions are left out: what was asked in class is no homework.
    key : bool
        Write the key: the same exercises with their answers.
    paper : Paper, optional
        How it is set.
    on_game : callable, optional
        Called before each game is looked through, with its number and how many there are.

    Raises
    ------
    GameFileError
        If a file cannot be used, or a folder holds none.
    NotebookError
        If no question is found, or the file cannot be written.
    LessonError, InputError
        If there is no such tactic, level, or letters.
    """
    chosen = paper or Paper()
    lettering = Lettering(chosen.letters)
    target = Path(output)
    check_output(
        target,
        what="the PDF",
        instead="exercises are printed as a PDF: give a name that ends in .pdf",
    )
    check_typesetter()
    lessons = [lesson for path in games for lesson in lessons_in(path)]
    known = {position for lesson in without for position in positions_of(lesson)}
    found = collect(_one_by_one(lessons, on_game), motif=motif, level=level)
    asked = apart([one for one in found if one.board.epd() not in known], count)
    if not asked:
        about = f" of the kind “{motif}”" if motif else ""
        raise NotebookError(
            f"no exercise{about} was found in these games: a move that wins by a tactic, played "
            "or in a sideline, becomes one",
            path=", ".join(map(str, games)),
        )
    data = key_of(asked, lettering) if key else sheet_of(asked, lettering)
    data["title"] = title or (f"Exercises: {motif}" if motif else "Exercises")
    layout = {
        "size": chosen.size,
        "large": chosen.large,
        "columns": chosen.columns or (1 if key or chosen.large else 2),
    }
    pdf, pages = pdf_of({**data, **layout})
    write_output(target, pdf)
    return Printed(path=target, pages=pages, questions=len(asked), key=key, what="exercises")


def positions_of(lesson: str | os.PathLike[str]) -> set[str]:
    """Return the positions that the pages of a lesson show, as EPD."""
    found = set()
    for cell in read_notebook(lesson)["cells"]:
        for output in cell.get("outputs", ()):
            for record in read_records("".join(output.get("data", {}).get("text/plain", ""))):
                if record.kind == "position":
                    found.add(chess.Board(record.fields[0]).epd())
    return found


def _one_by_one(
    lessons: Sequence[Lesson], on_game: Callable[[int, int], None] | None
) -> Iterator[Lesson]:
    for number, lesson in enumerate(lessons, 1):
        if on_game is not None:
            on_game(number, len(lessons))
        yield lesson


def apart(questions: Sequence[Question], count: int) -> list[Question]:
    """Return the first questions of which none shows what another asks."""
    chosen: list[Question] = []
    for one in questions:
        if len(chosen) >= count:
            break
        if not any(_tells_on(one, other) for other in chosen):
            chosen.append(one)
    return chosen


def _tells_on(one: Question, other: Question) -> bool:
    """Tell whether one of two positions of a game stands shortly behind the other."""
    if one.start != other.start:
        return False
    short, long = sorted((one.led, other.led), key=len)
    return long[: len(short)] == short and 0 < len(long) - len(short) < NEAR


def sheet_of(asked: Sequence[Question], lettering: Lettering) -> dict[str, Any]:
    """Return what stands on the sheet, ready for JSON."""
    return {
        "kind": "sheet",
        "front": [],
        "lines": LINES,
        "parts": [[_exercise(number, one, lettering) for number, one in enumerate(asked, 1)]],
        "figurines": lettering.figurines(),
    }


def key_of(asked: Sequence[Question], lettering: Lettering) -> dict[str, Any]:
    """Return what stands in the key, ready for JSON."""
    return {
        "kind": "key",
        "front": [],
        "plan": None,
        "answers": [],
        "flow": [_answered(number, one, lettering) for number, one in enumerate(asked, 1)],
        "figurines": lettering.figurines(),
    }


def _exercise(number: int, one: Question, lettering: Lettering) -> dict[str, Any]:
    head, _, asked = one.prompt.partition(". ")
    return {
        "number": str(number),
        "heading": lettering.text(f"{head}." if asked else ""),
        "asked": lettering.text(asked or one.prompt),
        **_picture(one),
    }


def _answered(number: int, one: Question, lettering: Lettering) -> dict[str, Any]:
    """Return an exercise of the key: what was asked, every right answer, and what shows it."""
    blocks: list[dict[str, Any]] = [_told((Run(text=one.prompt, italic=True),), lettering)]
    for right in one.right:
        if right.line:
            told = f"{write_line(one.board, right.line)}."
        else:
            told = right.sentence or f"{right.text}."
        blocks.append(_told((Run(text=told),), lettering))
    return {
        "kind": "stop",
        "heading": lettering.text(f"No. {number}"),
        "number": "",
        "caption": lettering.text(one.picture.caption or ""),
        **_picture(one),
        "blocks": blocks,
    }


def _told(runs: tuple[Run, ...], lettering: Lettering) -> dict[str, Any]:
    return {"kind": "told", "deep": 0, "runs": lettering.runs(runs)}


def _picture(one: Question) -> dict[str, str]:
    return {"svg": for_print(one.picture.svg(theme="print")), "words": one.picture.words}
