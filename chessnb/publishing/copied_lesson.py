"""A lesson as plain values: its notebook, run once more, with a copy of each of its pages.

A lesson is published as it is found to be now: it is run from the first cell
to the last, and one that does not hold is not published.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chessnb.errors import NotebookError
from chessnb.notebooks import cell_key, is_lesson, plain, read_notebook, run_notebook, unescape
from chessnb.notebooks.answer_cells import TEACHERS_TAGS
from chessnb.notebooks.student_edition import EDITION, title_page
from chessnb.publishing.card_text import Card, card_of
from chessnb.publishing.prose import blocks_of
from chessnb.search.proof_book import KEEP
from chessnb.teaching.page_copy import COPIES, MIME, RECORDINGS, PageCopy, copy_from
from chessnb.teaching.spoilers import names_a_move


@dataclass(frozen=True, kw_only=True)
class Words:
    """A cell of prose.

    Attributes
    ----------
    source : str
        Its Markdown.
    """

    source: str


Part = Words | PageCopy | Card
"""What a lesson consists of: prose, pages, and what other cells show."""


@dataclass(frozen=True, kw_only=True)
class LessonCopy:
    """A lesson as values.

    Attributes
    ----------
    path : Path
        Its notebook.
    parts : tuple
        All of it, in order.
    opening : tuple of str
        The Markdown of the title page, without what gives a move away.
    late : tuple of str
        What the title page says besides, and gives a move away.
    kept_back : frozenset of int
        The numbers of the parts, from 0, that only the teacher sees.
    """

    path: Path
    parts: tuple[Part, ...]
    opening: tuple[str, ...]
    late: tuple[str, ...] = ()
    kept_back: frozenset[int] = frozenset()

    @property
    def shared(self) -> tuple[Part, ...]:
        """The parts that students may see too."""
        return tuple(part for number, part in enumerate(self.parts) if number not in self.kept_back)

    @property
    def pages(self) -> tuple[PageCopy, ...]:
        """Its pages, in order."""
        return tuple(part for part in self.parts if isinstance(part, PageCopy))

    @property
    def title(self) -> str:
        """What it is called: its first heading, or what its pages say."""
        for part in self.parts:
            if isinstance(part, Words):
                for block in blocks_of(part.source):
                    if block.kind == "heading":
                        return block.text
        return plain(self.pages[0].title if self.pages else self.path.stem)

    @property
    def minutes(self) -> int | None:
        """How long it takes, if it says so."""
        return self.pages[0].minutes if self.pages else None

    def is_told_by(self, text: str) -> bool:
        """Tell whether a text names a move of the lesson or one of its sidelines."""
        said = unescape(text)
        moves = {move for page in self.pages for move in page.moves}
        names = {name.casefold() for page in self.pages for name in page.names}
        return names_a_move(said, moves) or any(name in said.casefold() for name in names)


def lesson_copy(
    path: str | os.PathLike[str],
    *,
    on_cell: Callable[[int, int], None] | None = None,
    recorded: bool = False,
) -> LessonCopy:
    """Run a lesson and return it as values.

    Parameters
    ----------
    path : path
        The lesson's notebook; neither it nor anything beside it is changed.
    on_cell : callable, optional
        Called before each cell with its number and how many there are.
    recorded : bool
        Have each page also hold what its live form is told and answers.

    Raises
    ------
    NotebookError
        If it is no lesson, or a cell of it fails.
    """
    source = Path(path)
    notebook = read_notebook(source)
    if not is_lesson(notebook):
        raise NotebookError("this notebook is not a lesson", path=str(source))
    if notebook["metadata"]["chessnb"].get("edition") == EDITION:
        raise NotebookError("this is a student edition: name the lesson itself", path=str(source))
    done = run_notebook(
        notebook,
        folder=source.resolve().parent,
        name=str(source),
        on_cell=on_cell,
        environment={COPIES: "1", KEEP: "", RECORDINGS: "1" if recorded else ""},
    )
    shared = [cell for cell in done["cells"] if not _tags(cell) & TEACHERS_TAGS]
    opening, late = title_page(shared, source)
    parts: list[Part] = []
    kept_back: set[int] = set()
    for cell in done["cells"]:
        found = list(_parts(cell))
        if _tags(cell) & TEACHERS_TAGS:
            kept_back |= set(range(len(parts), len(parts) + len(found)))
        parts += found
    return LessonCopy(
        path=source,
        parts=tuple(parts),
        opening=tuple(opening),
        late=tuple(late),
        kept_back=frozenset(kept_back),
    )


def _parts(cell: Mapping[str, Any]) -> Iterator[Part]:
    if cell["cell_type"] == "markdown":
        if cell_key(cell) != "how to use" and str(cell["source"]).strip():
            yield Words(source=str(cell["source"]))
    elif cell["cell_type"] == "code" and cell_key(cell) != "lesson":
        yield from filter(None, map(_shown, cell["outputs"]))


def _shown(output: Mapping[str, Any]) -> Part | None:
    """Return what an output shows; None for what says nothing on paper."""
    data = output.get("data", {})
    if MIME in data:
        return copy_from(data[MIME])
    return card_of(data["text/html"]) if "text/html" in data else None


def _tags(cell: Mapping[str, Any]) -> set[str]:
    return set(cell.get("metadata", {}).get("tags", ()))
