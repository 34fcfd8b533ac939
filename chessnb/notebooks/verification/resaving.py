"""Run lessons again, show what has changed, and save them again."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from chessnb.errors import NotebookError, ended
from chessnb.findings.record import read_records
from chessnb.notebooks import CellFailed, notebook_bytes, run_notebook, section_of, write_notebook
from chessnb.notebooks.verification.earlier_form import is_of_earlier_form
from chessnb.notebooks.verification.lesson_check import (
    OnCell,
    begin_reading,
    lessons_in,
    read_claims,
    read_prose,
)
from chessnb.notebooks.verification.output_difference import difference
from chessnb.notebooks.verification.report import NOTHING, Complaint, LessonReport, Report, in_order
from chessnb.notebooks.verification.saved_cards import check_cards

if TYPE_CHECKING:
    from nbformat import NotebookNode


def update_lessons(
    paths: Sequence[str | os.PathLike[str]], *, on_cell: OnCell | None, seconds_a_cell: int
) -> Report:
    """Run lessons again and save them; see :func:`chessnb.notebooks.verification.verify`."""
    lessons = lessons_in(paths)
    return Report(
        lessons=tuple(_update(shown, path, on_cell, seconds_a_cell) for shown, path in lessons)
    )


def _update(shown: str, path: Path, on_cell: OnCell | None, seconds_a_cell: int) -> LessonReport:
    before = begin_reading(shown, path)
    if isinstance(before, Complaint):
        return LessonReport(path=shown, complaints=(before,))

    def tell(number: int, count: int) -> None:
        if on_cell is not None:
            on_cell(shown, number, count)

    try:
        after = run_notebook(
            before, folder=path.parent, name=shown, on_cell=tell, seconds_a_cell=seconds_a_cell
        )
        resaved = notebook_bytes(after) != path.read_bytes()
        if resaved:
            write_notebook(after, path)
    except NotebookError as error:
        return LessonReport(path=shown, complaints=(_complaint(error),))
    differing = tuple(_changes(before, after))
    changes = tuple(change for change in differing if change.kind != "earlier-form")
    return LessonReport(
        path=shown,
        complaints=tuple(read_prose(after, folder=path.parent)),
        findings=sum(bool(new["outputs"]) for _, _, new in _run_before(before, after))
        - sum(change.now != NOTHING for change in differing),
        changes=in_order((*changes, *check_cards(before), *_fresh(before, after))),
        resaved=resaved,
        carried_over=len(differing) - len(changes),
        notes=tuple(read_claims(after, folder=path.parent, announced=_told(after))),
    )


def _told(notebook: NotebookNode) -> dict[int, list[dict[str, str]]]:
    """Return what the cells have just found, by the records of their outputs."""
    told: dict[int, list[dict[str, str]]] = {}
    for index, cell in enumerate(notebook["cells"]):
        for output in cell.get("outputs", ()):
            text = str(output.get("data", {}).get("text/plain", ""))
            records = read_records(text) if text else ()
            told.setdefault(index, []).extend({"record": str(record)} for record in records)
    return told


def _complaint(error: NotebookError) -> Complaint:
    if isinstance(error, CellFailed):
        return Complaint(
            kind="error",
            message=f"{ended(error.sentence)} Nothing was saved",
            cell=error.cell,
            section=error.section,
        )
    return Complaint(kind="unusable", message=error.reason)


def _changes(before: NotebookNode, after: NotebookNode) -> Iterator[Complaint]:
    """Yield how the cells that had been run before differ now."""
    earlier = is_of_earlier_form(before)
    for index, old, new in _run_before(before, after):
        found = difference(old["outputs"], new["outputs"], earlier_form=earlier)
        if found is not None:
            yield Complaint(
                kind=found.kind,
                message=found.message,
                cell=index + 1,
                section=section_of(after["cells"], index),
                saved=found.saved,
                now=found.now,
            )


def _fresh(before: NotebookNode, after: NotebookNode) -> Iterator[Complaint]:
    """Yield what the cells give that are new in a lesson that had been run before."""
    if not any(True for _ in _run_before(before, after)):
        return
    for index, (old, new) in enumerate(zip(before["cells"], after["cells"], strict=True)):
        if old["cell_type"] == "code" and old["execution_count"] is None and new["outputs"]:
            found = difference((), new["outputs"])
            given = "" if found is None else f": {found.now.removeprefix('line 1: ')}"
            yield Complaint(
                kind="new",
                message=f"run for the first time{given}",
                cell=index + 1,
                section=section_of(after["cells"], index),
            )


def _run_before(
    before: NotebookNode, after: NotebookNode
) -> Iterator[tuple[int, NotebookNode, NotebookNode]]:
    """Yield the code cells that the file held with what they gave then: index, old, new."""
    for index, (old, new) in enumerate(zip(before["cells"], after["cells"], strict=True)):
        if old["cell_type"] == "code" and old["execution_count"] is not None:
            yield index, old, new
