"""The teacher's key: all that a lesson tells, with its answers, its proofs and its plan."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from chessnb.publishing.card_text import Card, card_of
from chessnb.publishing.copied_lesson import LessonCopy
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.prose import Block, Run, blocks_of
from chessnb.publishing.setting import set_block, set_card, set_diagram, set_told
from chessnb.publishing.student_sheet import parts_of
from chessnb.teaching.hour_plan import HourPlan, Stop, hour_plan
from chessnb.teaching.page_copy import PageCopy

_TO_MOVE = re.compile(r"\. (?=(?:White|Black) (?:to move|is ))")


@dataclass(frozen=True, kw_only=True)
class _Stretch:
    """What leads to a page, and the page; without one it is the end of the lesson."""

    before: list[Block | Card] = field(default_factory=list)
    heading: Block | None = None
    story: list[Block | Card] = field(default_factory=list)
    page: PageCopy | None = None

    @property
    def name(self) -> str:
        """What the stop is called."""
        if self.heading is not None:
            return self.heading.text
        assert self.page is not None
        return _TO_MOVE.split(self.page.caption)[0]

    @property
    def words(self) -> int:
        """How many words are told."""
        told = [block for block in (*self.before, *self.story) if isinstance(block, Block)]
        return sum(len(block.text.split()) for block in told) + (
            self.page.words if self.page is not None else 0
        )


def plan_of(lesson: LessonCopy) -> HourPlan:
    """Return the plan of a lesson: its pages, fitted to its time."""
    stops = [
        Stop(
            name=stretch.name,
            asks=stretch.page.asks,
            ahead=max(1, stretch.page.ahead) if stretch.page.asks else 0,
            words=stretch.words,
        )
        for stretch in _stretches(lesson)
        if stretch.page is not None
    ]
    return hour_plan(stops, minutes=lesson.minutes)


def key_data(lesson: LessonCopy, lettering: Lettering) -> dict[str, Any]:
    """Return what stands in the key, ready for JSON."""
    numbers = {id(one.page): one.number for part in parts_of(lesson) for one in part}
    flow = [one for stretch in _stretches(lesson) for one in _set(stretch, lettering, numbers)]
    first = next((n for n, one in enumerate(flow) if one["kind"] in ("stop", "heading")), 0)
    return {
        "kind": "key",
        "title": lesson.title,
        "front": flow[:first],
        "plan": _plan(plan_of(lesson), lettering) if lesson.pages else None,
        "answers": _answers(lesson, lettering),
        "flow": flow[first:],
        "figurines": lettering.figurines(),
    }


def _stretches(lesson: LessonCopy) -> list[_Stretch]:
    """Divide a lesson at its pages; what stands before a page's heading comes first."""
    found: list[_Stretch] = []
    waiting: list[Block | Card] = []
    titled = False
    for part in lesson.parts:
        if isinstance(part, PageCopy):
            found.append(_stretch(waiting, part))
            waiting = []
        elif isinstance(part, Card):
            waiting.append(part)
        else:
            for block in blocks_of(part.source):
                if block.kind == "heading" and not titled:
                    titled = True  # it stands above all
                else:
                    waiting.append(block)
    return [*found, _Stretch(before=waiting)] if waiting else found


def _stretch(waiting: list[Block | Card], page: PageCopy) -> _Stretch:
    for at in reversed(range(len(waiting))):
        block = waiting[at]
        if isinstance(block, Block) and block.kind == "heading":
            return _Stretch(before=waiting[:at], heading=block, story=waiting[at + 1 :], page=page)
    return _Stretch(before=waiting, page=page)


def _set(
    stretch: _Stretch, lettering: Lettering, numbers: dict[int, int]
) -> Iterator[dict[str, Any]]:
    yield from _blocks(stretch.before, lettering)
    page = stretch.page
    if page is None:
        return
    number = numbers.get(id(page), 0)
    yield {
        "kind": "stop",
        "heading": lettering.text(stretch.name),
        "number": str(number) if number else "",
        "caption": lettering.text(page.caption),
        **set_diagram(page, last_move=page.last_move),
        "blocks": [*_story(stretch, lettering), *_page(page, lettering)],
    }


def _story(stretch: _Stretch, lettering: Lettering) -> Iterator[dict[str, Any]]:
    """Yield what has happened before a page: as the teacher tells it, else its last moves."""
    if stretch.story:
        yield from _blocks(stretch.story, lettering)
    elif stretch.page is not None and stretch.page.recalled:
        runs = (Run(text=stretch.page.recalled, bold=True),)
        yield {"kind": "paragraph", "runs": lettering.runs(runs)}


def _blocks(blocks: list[Block | Card], lettering: Lettering) -> Iterator[dict[str, Any]]:
    for block in blocks:
        if isinstance(block, Card):
            yield from set_card(block, lettering)
        else:
            yield set_block(block, lettering)


def _page(page: PageCopy, lettering: Lettering) -> Iterator[dict[str, Any]]:
    """Yield what a page asks and tells."""
    if page.question:
        yield {
            "kind": "question",
            "runs": lettering.runs((Run(text=page.question, italic=True),)),
        }
    for told in page.told:
        yield from set_told(told, lettering)
        if told.card:
            yield from set_card(card_of(told.card), lettering)
    for note in page.notes:
        yield {"kind": "note", "runs": lettering.text(note)}


def _answers(lesson: LessonCopy, lettering: Lettering) -> list[dict[str, Any]]:
    """Return the answers of the sheet, by their numbers."""
    return [
        {"number": str(one.number), "runs": lettering.text(one.page.answer)}
        for part in parts_of(lesson)
        for one in part
        if one.page.answer
    ]


def _plan(plan: HourPlan, lettering: Lettering) -> dict[str, Any]:
    return {
        "minutes": plan.minutes,
        "rows": [
            {
                "begins": str(begins),
                "name": lettering.text(name),
                "minutes": str(minutes) if minutes else "–",
            }
            for begins, name, minutes in plan.rows
        ],
        "words": lettering.text(plan.in_words),
    }
