"""Put the claims that prove a lesson's sentences into the cells of their sections.

A claim goes to the end of the page of its section, else into a cell of its own
behind the sentence.  That cell alone is changed, with its outputs; every other
cell stays byte for byte as it was, and the file is written once, or not at all.
"""

from __future__ import annotations

import ast
import copy
import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, run_notebook, section_of, write_notebook
from chessnb.notebooks.verification.lesson_check import (
    OnCell,
    begin_reading,
    check_lessons,
    lessons_in,
)
from chessnb.notebooks.verification.named_positions import sections, without_magics
from chessnb.notebooks.verification.report import Complaint, LessonReport, Report

if TYPE_CHECKING:
    from nbformat import NotebookNode


def propose_claims(
    paths: Sequence[str | os.PathLike[str]], *, on_cell: OnCell | None, seconds_a_cell: int
) -> Report:
    """Put claims into lessons; see :func:`chessnb.notebooks.verification.verify`."""
    report = check_lessons(paths, on_cell=on_cell, seconds_a_cell=seconds_a_cell)
    found = dict(lessons_in(paths))
    return Report(
        lessons=tuple(
            _proposed(lesson, found[lesson.path], on_cell, seconds_a_cell)
            for lesson in report.lessons
        )
    )


def _proposed(
    lesson: LessonReport, path: Path, on_cell: OnCell | None, seconds_a_cell: int
) -> LessonReport:
    before = begin_reading(lesson.path, path)
    if lesson.complaints or isinstance(before, Complaint):
        return lesson
    after, put_in = with_claims(before, lesson.notes)
    if not put_in:
        return lesson

    def tell(number: int, count: int) -> None:
        if on_cell is not None:
            on_cell(lesson.path, number, count)

    try:
        run = run_notebook(
            after, folder=path.parent, name=lesson.path, on_cell=tell, seconds_a_cell=seconds_a_cell
        )
        changed = {change.cell for change in put_in}
        for index, cell in enumerate(run["cells"]):
            if index + 1 in changed:
                after["cells"][index] = cell
        write_notebook(after, path)
    except NotebookError as error:
        failed = Complaint(kind="unusable", message=f"{error.reason}. Nothing was put in")
        return LessonReport(path=lesson.path, complaints=(failed,))
    proved = {note for note in lesson.notes if note.code and note.cell is not None}
    left = tuple(note for note in lesson.notes if note not in proved)
    return replace(lesson, changes=tuple(put_in), notes=left, resaved=True)


def with_claims(
    notebook: NotebookNode, notes: Sequence[Complaint]
) -> tuple[NotebookNode, list[Complaint]]:
    """Return a lesson with the claims that notes propose, and a note on each that was put in.

    Parameters
    ----------
    notebook : NotebookNode
        The lesson; it is not changed.
    notes : sequence of Complaint
        What was said of its sentences.

    Returns
    -------
    (NotebookNode, list of Complaint)
        The lesson, and where which claim stands now.
    """
    made = copy.deepcopy(notebook)
    names = _imported(made["cells"])
    by_section = {index: section for section in sections(made["cells"]) for index in section}
    added: dict[int, list[str]] = {}  # by the cell that holds the claims, or that they stand behind
    for note in notes:
        lines = [line for line in _statements(note.code) if line.split(".")[0] in names]
        if note.cell is None or not lines:
            continue
        section = by_section[note.cell - 1]
        pages = [index for index in section if _is_page(made["cells"][index])]
        at = pages[0] if pages else note.cell - 1
        there = {line for index in section for line in _lines_of(made["cells"][index])}
        new = [line for line in lines if line not in there and line not in added.get(at, ())]
        added.setdefault(at, []).extend(dict.fromkeys(new))
    put_in: list[tuple[Any, str]] = []
    for at in sorted(added, reverse=True):  # from behind: a new cell moves those after it
        if not (lines := added[at]):
            continue
        cell = made["cells"][at]
        if _is_page(cell):
            source, blanks = str(cell["source"]).rstrip(), " " * _indent(cell)
            cell["source"] = "\n".join([source, *(f"{blanks}{line}" for line in lines)])
        else:
            source = "\n".join(lines)
            cell = code_cell(f"claims behind {cell.get('id', at)}: {source}", source)
            del cell["metadata"]["chessnb"]
            made["cells"].insert(at + 1, cell)
        put_in[:0] = [(cell, line) for line in lines]
    cells = made["cells"]
    places = {id(cell): index for index, cell in enumerate(cells)}
    told = [
        Complaint(
            kind="put-in",
            message=f"put in: {line}",
            cell=places[id(cell)] + 1,
            section=section_of(cells, places[id(cell)]),
        )
        for cell, line in put_in
    ]
    return made, told


def _statements(code: str) -> Iterator[str]:
    """Yield the statements of a piece of code, each on one line."""
    yield from (ast.unparse(one) for one in ast.parse(code).body)


def _parsed(cell: Mapping[str, Any]) -> ast.Module | None:
    if cell["cell_type"] != "code":
        return None
    try:
        return ast.parse(without_magics(str(cell["source"])))
    except (SyntaxError, ValueError):
        return None


def _is_page(cell: Mapping[str, Any]) -> bool:
    """Tell whether a cell ends in the block of a page."""
    tree = _parsed(cell)
    return tree is not None and bool(tree.body) and isinstance(tree.body[-1], ast.With)


def _indent(cell: Mapping[str, Any]) -> int:
    """Return by how many blanks the block of a page is indented."""
    tree = _parsed(cell)
    block = tree.body[-1] if tree is not None else None
    return block.body[0].col_offset if isinstance(block, ast.With) else 4


def _lines_of(cell: Mapping[str, Any]) -> Iterator[str]:
    tree = _parsed(cell)
    if tree is not None:
        yield from (ast.unparse(one) for one in ast.walk(tree) if isinstance(one, ast.stmt))


def _imported(cells: Sequence[Mapping[str, Any]]) -> set[str]:
    """Return the names that a lesson imports."""
    trees = (_parsed(cell) for cell in cells)
    return {
        name.asname or name.name
        for tree in trees
        if tree is not None
        for node in ast.walk(tree)
        if isinstance(node, ast.Import | ast.ImportFrom)
        for name in node.names
    }
