"""The student's sheet: positions to solve, with room to write, and nothing that tells an answer.

The positions of one game tell on each other: the one after a move shows the
move.  So they are dealt out to several parts, each on pages of its own and to
be turned over to only when the part before is done.  Within a part no position
follows within a few moves of another that is asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from chessnb.board.naming import ordinal
from chessnb.board.sides import SIDES
from chessnb.diagrams import Diagram
from chessnb.publishing.copied_lesson import LessonCopy, Words
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.prose import Block, blocks_of
from chessnb.publishing.setting import set_block, set_diagram
from chessnb.teaching.page_copy import PageCopy

NEAR = 4
"""A position shows a move that was made so few moves (of either side) before."""

LINES = 3
"""So many lines there are to write on."""


@dataclass(frozen=True, kw_only=True)
class Question:
    """A position of the sheet.

    Attributes
    ----------
    number : int
        Its number on the sheet, from 1.
    heading : str
        What it is called; it does not tell.
    page : PageCopy
        The page that asks it.
    """

    number: int
    heading: str
    page: PageCopy


def parts_of(lesson: LessonCopy) -> list[list[Question]]:
    """Deal out what a lesson asks to the parts of its sheet, each in the order of the lesson."""
    parts: list[list[tuple[str, PageCopy]]] = []
    for heading, page in _headed(lesson):
        for part in parts:
            if not any(_tells_on(page, other) for _, other in part):
                part.append((heading, page))
                break
        else:
            parts.append([(heading, page)])
    numbered, number = [], 0
    for part in parts:
        questions = []
        for heading, page in part:
            number += 1
            questions.append(Question(number=number, heading=heading, page=page))
        numbered.append(questions)
    return numbered


def sheet_data(lesson: LessonCopy, lettering: Lettering) -> dict[str, Any]:
    """Return what stands on the sheet, ready for JSON."""
    opening = [block for source in lesson.opening for block in blocks_of(source)]
    title = next((block for block in opening if block.kind == "heading"), None)
    return {
        "kind": "sheet",
        "title": title.text if title else "Positions to solve",
        "front": [set_block(block, lettering) for block in opening if block is not title],
        "lines": LINES,
        "parts": [[_question(one, lettering, lesson) for one in part] for part in parts_of(lesson)],
        "figurines": lettering.figurines(),
    }


def _headed(lesson: LessonCopy) -> Sequence[tuple[str, PageCopy]]:
    """Return the pages that ask, each with the heading above it, if that does not tell."""
    found, heading = [], ""
    for part in lesson.shared:
        if isinstance(part, Words):
            headings = [block for block in blocks_of(part.source) if block.kind == "heading"]
            heading = headings[-1].text if headings and _is_of_a_stop(headings[-1]) else heading
        elif isinstance(part, PageCopy):
            if part.asks:
                told = not heading or lesson.is_told_by(heading)
                found.append((_place(part) if told else heading, part))
            heading = ""
    return found


def _is_of_a_stop(block: Block) -> bool:
    return block.level > 1


def _place(page: PageCopy) -> str:
    board = Diagram(fen=page.fen).board
    return f"{SIDES[board.turn]}’s {ordinal(board.fullmove_number)} move"


def _tells_on(page: PageCopy, other: PageCopy) -> bool:
    """Tell whether one of two positions shows what is asked in the other."""
    return page.game == other.game and 0 < abs(page.ply - other.ply) < NEAR


def _question(question: Question, lettering: Lettering, lesson: LessonCopy) -> dict[str, Any]:
    page = question.page
    answered = {other.ply + 1 for other in lesson.pages if other.asks and other.game == page.game}
    last = "" if page.ply in answered else page.last_move
    return {
        "number": str(question.number),
        "heading": lettering.text(question.heading),
        "asked": lettering.text(page.question),
        **set_diagram(page, last_move=last),
    }
