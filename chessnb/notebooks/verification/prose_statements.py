"""What the prose of a lesson states, paragraph by paragraph, each with the position it is about.

A paragraph of moves alone leads on: what follows it is a comment on the last
of them.  Before the first, a section speaks of the move in its heading, else of
the position that its first cell names.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chessnb.errors import ChessnbError
from chessnb.lessons import Lesson, Moment
from chessnb.notebooks import cell_key, is_edited
from chessnb.notebooks.verification.named_positions import CodeReader, sections
from chessnb.notebooks.verification.prose_moves import visible
from chessnb.teaching.statements.reader import read_statements
from chessnb.teaching.statements.sentence_breaks import sentences
from chessnb.teaching.statements.statement import Statement
from chessnb.teaching.thread.choosing import told_of

_PARAGRAPH = re.compile(r"\n\s*\n|\n(?=\s*(?:[-*] |\d+\) |#))")
_NUMBERED = re.compile(r"(\d+)\s*(\.{3}|…|\.)\s*")
_MOVE = r"(?:[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=[QRBN])?|O-O(?:-O)?)[+#]?[!?]*"
_MOVES = re.compile(rf"(?:(?:\d+\s*(?:\.{{3}}|…|\.)\s*)?{_MOVE}[ ,=+/−±∓⩲⩱∞□-]*)+")
_LAST = re.compile(rf"(\d+)\s*(\.{{3}}|…|\.)\s*({_MOVE})(?:\s+({_MOVE}))?[^\d]*$")


@dataclass(frozen=True, kw_only=True)
class Said:
    """A sentence of the prose.

    Attributes
    ----------
    cell : int
        Its cell, counted from 0.
    section : tuple of int
        The cells of its section.
    sentence : str
        The sentence.
    statements : tuple of Statement
        What it states, as far as that is clear.
    heading : bool
        Whether it stands in a heading.
    is_thread : bool
        Whether the game's moves show it, as they stand now.
    variable : str
        What the lesson is called in the code.
    judgement : bool
        Whether the cell's tag says that it is the teacher's judgement.
    """

    cell: int
    section: tuple[int, ...]
    sentence: str
    statements: tuple[Statement, ...]
    heading: bool = False
    is_thread: bool = False
    variable: str = "lesson"
    judgement: bool = False


TAG = "judgement"
"""The tag of a cell of prose whose sentences are the teacher's judgement."""


def said_in(notebook: Mapping[str, Any], *, folder: Path) -> Iterator[Said]:
    """Yield the sentences of a lesson's Markdown and raw cells, with what they state.

    Parameters
    ----------
    notebook : notebook
        The lesson, as nbformat reads it.
    folder : Path
        Where it lies: games are named relative to it.
    """
    cells: Sequence[Mapping[str, Any]] = notebook["cells"]
    reader = CodeReader(folder)
    named = [
        reader.moments(str(cell["source"])) if cell["cell_type"] == "code" else [] for cell in cells
    ]
    for section in sections(list(cells)):
        moments = [moment for index in section for moment in named[index]]
        at = moments[0] if moments else None
        for index in section:
            if cells[index]["cell_type"] in ("markdown", "raw") and not _is_drafted(cells[index]):
                for paragraph in _PARAGRAPH.split(visible(str(cells[index]["source"]))):
                    at, found = _read(paragraph, at, reader.lessons)
                    shown = told_of(at) if at is not None and found else frozenset()
                    for sentence, statements, heading in found:
                        yield Said(
                            cell=index, section=tuple(section), sentence=sentence,
                            statements=statements, heading=heading,
                            is_thread=sentence in shown,
                            variable=reader.variable_of(at),
                            judgement=TAG in cells[index].get("metadata", {}).get("tags", ()),
                        )  # fmt: skip


def _is_drafted(cell: Mapping[str, Any]) -> bool:
    """Tell whether a cell is one that speaks of the lesson, as it was drafted."""
    return cell_key(cell) in ("title", "how to use", "recap") and not is_edited(cell)


def _read(
    paragraph: str, at: Moment | None, lessons: Sequence[Lesson]
) -> tuple[Moment | None, list[tuple[str, tuple[Statement, ...], bool]]]:
    """Read a paragraph: return the position after it, and its sentences with what they state."""
    text = " ".join(paragraph.split()).strip()
    heading = text.startswith("#")
    text = text.lstrip("#>-* ").strip("* ")
    if not text:
        return at, []
    if _MOVES.fullmatch(text) or (heading and re.match(r"(?:After|Before) \d", text)):
        return _led_to(text, at, lessons), []
    if at is None:
        return at, [(sentence, (), heading) for sentence in sentences(text)]
    read = read_statements(text, at)
    return at, [
        (sentence, tuple(one for one in read if one.sentence == sentence), heading)
        for sentence in sentences(text)
    ]


def _led_to(text: str, at: Moment | None, lessons: Sequence[Lesson]) -> Moment | None:
    """Return the position after the last move of a paragraph of moves, where the lesson has it."""
    last = _LAST.search(text)
    if last is None:
        return at
    number, dots, move, reply = last.groups()
    address = f"{number}{'...' if len(dots) > 1 or dots == '…' else '.'} {move}"
    if reply:
        address = f"{number}... {reply}"
    own = [at.lesson] if at is not None else []
    for lesson in [*own, *lessons]:
        if isinstance(lesson, Lesson):
            with suppress(ChessnbError):
                found = lesson.after(address.rstrip("!?"))
                is_before = text.startswith("Before") and found.back is not None
                return found.back if is_before else found
    return at
