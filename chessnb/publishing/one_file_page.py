"""A lesson as one HTML file that needs nothing else: no network, no kernel, no other file.

It holds the lesson's pages with the living board, and the answers to every
first move, made while the lesson was run.  What is not asked for yet is sealed
as in a student edition (:mod:`chessnb.teaching.sealed_lesson`): a curtain, not
a lock.  One script is allowed, by its hash, and nothing is fetched.

The data stand in a JSON element that is no script::

    {"steps": 3, "parts": {"step 1": "…", "answers 1": "…", "told 1": "…", …}}

``step n``
    ``html``: the words before the page; ``first`` and ``home``: the page as it
    opens, and where its questions come from; null without a page;
``answers n``
    the answer to each legal move, by UCI;
``told n``
    the page once it has told; null where it asks nothing.
"""

from __future__ import annotations

import base64
import hashlib
import json
import os
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from chessnb.board.naming import counted
from chessnb.diagrams.ink import ink_rules
from chessnb.diagrams.svg import escaped
from chessnb.publishing.block_html import blocks_html, card_html
from chessnb.publishing.card_text import Card
from chessnb.publishing.copied_lesson import LessonCopy, lesson_copy
from chessnb.publishing.initials import Initials
from chessnb.publishing.output_file import check_output, write_output
from chessnb.publishing.prose import Block, blocks_of
from chessnb.teaching.page_copy import PageCopy
from chessnb.teaching.sealed_lesson import seal
from chessnb.widgets.esm import script, style


@dataclass(frozen=True, kw_only=True)
class OneFile:
    """What was written.

    Attributes
    ----------
    path : Path
        The file.
    steps : int
        How many steps it has.
    size : int
        Of the file, in bytes.
    """

    path: Path
    steps: int
    size: int

    @property
    def in_words(self) -> str:
        """Say it in one sentence."""
        return f"{counted(self.steps, 'step')}, {self.size // 1000} kB; it needs no other file."


def page_lesson(
    lesson: str | os.PathLike[str],
    output: str | os.PathLike[str],
    *,
    initials: bool = False,
    on_cell: Callable[[int, int], None] | None = None,
) -> OneFile:
    """Write a lesson as one HTML file.

    Parameters
    ----------
    lesson : path
        The lesson's notebook; it is run, and not changed.
    output : path
        The file to write.
    initials : bool
        Cut the players' names to initials.
    on_cell : callable, optional
        Called before each cell is run, with its number and how many there are.

    Raises
    ------
    NotebookError
        If it is no lesson, a cell of it fails, or the file cannot be written.

    Notes
    -----
    Every legal move where the class is asked is judged: up to half a second
    each, and at once where the lesson's proofs hold what they do.
    """
    target = Path(output)
    _check_target(target)
    copy = lesson_copy(lesson, on_cell=on_cell, recorded=True)
    return page_copied(copy, target, initials=initials)


def page_copied(
    lesson: LessonCopy, output: str | os.PathLike[str], *, initials: bool = False
) -> OneFile:
    """Write a lesson that was run and recorded already; see :func:`page_lesson`."""
    target = Path(output)
    _check_target(target)
    data = one_file(lesson, initials=initials).encode()
    write_output(target, data)
    return OneFile(path=target, steps=_count(lesson), size=len(data))


def one_file(lesson: LessonCopy, *, initials: bool = False) -> str:
    """Return the text of the file; the same for the same lesson."""
    short = Initials(name for page in lesson.pages if initials for name in page.players)
    steps = _steps(lesson, short)
    parts: dict[str, str] = {}
    for number, step in enumerate(steps, start=1):
        for name, value in step.items():
            parts[f"{name} {number}"] = seal(f"{name} {number}", value)
    opening = [block for source in lesson.opening for block in blocks_of(source)]
    title = next((block.text for block in opening if block.kind == "heading"), "A chess lesson")
    module = script("onefile.js")
    allowed = base64.b64encode(hashlib.sha256(module.encode()).digest()).decode("ascii")
    return _DOCUMENT.format(
        allowed=allowed,
        title=escaped(short.text(title)),
        style=ink_rules() + style("onepage.css"),
        opening=blocks_html([_shortened(block, short) for block in opening]),
        data=_in_html({"steps": len(steps), "parts": parts}),
        module=module,
    )


# The module begins right behind its tag: the hash is that of all between the two tags.
_DOCUMENT = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; \
script-src 'sha256-{allowed}'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; \
form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<main>
<header>{opening}</header>
<noscript><p>The boards of this lesson need a browser that runs scripts.</p></noscript>
<div id="steps"></div>
</main>
<script type="application/json" id="lesson">{data}</script>
<script type="module">{module}</script>
</body>
</html>
"""


def _in_html(data: Any) -> str:
    """Return JSON that ends no element, whatever it holds."""
    return json.dumps(data, ensure_ascii=True).replace("<", "\\u003c")


def _steps(lesson: LessonCopy, short: Initials) -> list[dict[str, Any]]:
    """Return what each step holds, by the names of its parts."""
    steps: list[dict[str, Any]] = []
    html = ""
    for part in _behind_the_title_page(lesson):
        if isinstance(part, PageCopy):
            steps.append(_step(html, part, short))
            html = ""
        elif isinstance(part, Card):
            html += card_html(_shortened_card(part, short))
        else:
            html += blocks_html([_shortened(block, short) for block in part])
    if html:
        steps.append({"step": {"html": html, "first": None, "home": None}})
    return steps


def _count(lesson: LessonCopy) -> int:
    return len(_steps(lesson, Initials(())))


def _behind_the_title_page(lesson: LessonCopy) -> list[PageCopy | Card | list[Block]]:
    """Return a lesson's parts; what its title page tells too early, behind the first question."""
    late = [block for source in lesson.late for block in blocks_of(source)]
    above = {*late, *(block for source in lesson.opening for block in blocks_of(source))}
    found: list[PageCopy | Card | list[Block]] = []
    opening = True
    for part in lesson.shared:
        if isinstance(part, PageCopy | Card):
            opening = False
            found.append(part)
            if late and isinstance(part, PageCopy) and part.asks:
                found.append(late)
                late = []
        else:
            blocks = blocks_of(part.source)
            found.append([block for block in blocks if not opening or block not in above])
    return [*found, late]


def _step(html: str, page: PageCopy, short: Initials) -> dict[str, Any]:
    recording = page.recording
    assert recording is not None, "the lesson was not recorded"
    said = short.everywhere(recording)
    return {
        "step": {"html": html, "first": said["first"], "home": said["home"]},
        "answers": said["answers"],
        "told": said["told"],
    }


def _shortened(block: Block, short: Initials) -> Block:
    runs = tuple(replace(run, text=short.text(run.text)) for run in block.runs)
    cells = tuple(
        tuple(replace(run, text=short.text(run.text)) for run in cell) for cell in block.cells
    )
    return replace(block, runs=runs, cells=cells)


def _shortened_card(card: Card, short: Initials) -> Card:
    return replace(card, paragraphs=tuple(map(short.text, card.paragraphs)))


def _check_target(target: Path) -> None:
    check_output(
        target, what="the page", instead="a page is an HTML file: give a name that ends in .html"
    )
