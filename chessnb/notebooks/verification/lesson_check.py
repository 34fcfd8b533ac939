"""Check lessons: all that was found is computed again and compared with what is saved."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.errors import NotebookError
from chessnb.notebooks import read_notebook, section_of
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.verification.earlier_form import is_of_later_form
from chessnb.notebooks.verification.follow_on_errors import causes
from chessnb.notebooks.verification.report import Complaint, LessonReport, Report, in_order
from chessnb.notebooks.verification.rerun import CellResult, ComputingFailed, compute_again
from chessnb.notebooks.verification.saved_cards import check_cards
from chessnb.notebooks.verification.saved_outputs import check_saved

if TYPE_CHECKING:
    from nbformat import NotebookNode

    from chessnb.notebooks.verification.prose_claims import Announced

OnCell = Callable[[str, int, int], None]
"""Told after each code cell: the notebook, how many cells are done, and of how many."""


@dataclass(kw_only=True)
class _Check:
    """The check of one lesson, while it goes on."""

    shown: str
    path: Path
    notebook: NotebookNode | None = None
    complaints: list[Complaint] = field(default_factory=list)
    results: list[CellResult] = field(default_factory=list)

    @property
    def cells(self) -> Sequence[Mapping[str, Any]]:
        cells: Sequence[Mapping[str, Any]] = self.notebook["cells"] if self.notebook else ()
        return cells

    @property
    def code_cells(self) -> int:
        return sum(cell["cell_type"] == "code" for cell in self.cells)


def check_lessons(
    paths: Sequence[str | os.PathLike[str]], *, on_cell: OnCell | None, seconds_a_cell: int
) -> Report:
    """Compute lessons again and compare; see :func:`chessnb.notebooks.verification.verify`."""
    checks = [_begin(shown, path) for shown, path in lessons_in(paths)]
    to_run = {str(check.path): check for check in checks if _can_be_compared(check)}

    def note(result: CellResult) -> None:
        check = to_run[result["path"]]
        check.results.append(result)
        if on_cell is not None:
            on_cell(check.shown, len(check.results), check.code_cells)

    broken = ""
    if to_run:
        try:
            compute_again(
                [check.path for check in to_run.values()],
                on_result=note,
                seconds_a_cell=seconds_a_cell,
            )
        except ComputingFailed as error:
            broken = f" ({error})"
    for check in to_run.values():
        check.complaints += _told(check, broken)
    return Report(lessons=tuple(_report_of(check) for check in checks))


def lessons_in(paths: Sequence[str | os.PathLike[str]]) -> list[tuple[str, Path]]:
    """Return the notebooks that paths name, each once: as it is shown, and its full path.

    A folder stands for all notebooks in it and in its folders, sorted; what
    begins with a dot is left out.  What is not there stays in the list.
    """
    found: dict[Path, str] = {}
    for named in map(Path, paths):
        inside = sorted(_notebooks(named)) if named.is_dir() else []
        for path in inside or [named]:
            found.setdefault(Path(os.path.abspath(path)), str(path))
    return [(shown, path) for path, shown in found.items()]


def _notebooks(folder: Path) -> Iterator[Path]:
    for path in folder.rglob("*.ipynb"):
        if not any(part.startswith(".") for part in path.relative_to(folder).parts):
            yield path


def begin_reading(shown: str, path: Path) -> NotebookNode | Complaint:
    """Return a notebook, or the complaint that it cannot be used."""
    if path.is_dir():
        return Complaint(kind="unusable", message="there is no notebook in this folder")
    try:
        check_hiding(path.parent, shown=shown)
        read = read_notebook(path)
    except NotebookError as error:
        return Complaint(kind="unusable", message=error.reason)
    if is_of_later_form(read):
        message = "saved by a later version of chessnb than this one: update chessnb"
        return Complaint(kind="unusable", message=message)
    return read


def _begin(shown: str, path: Path) -> _Check:
    check = _Check(shown=shown, path=path)
    read = begin_reading(shown, path)
    if isinstance(read, Complaint):
        check.complaints.append(read)
    else:
        check.notebook = read
        check.complaints += check_saved(read)
        check.complaints += check_cards(read)
        check.complaints += read_prose(read, folder=path.parent)
    return check


def read_prose(notebook: NotebookNode, *, folder: Path) -> list[Complaint]:
    """List what the prose of a lesson says that its positions do not bear out."""
    from chessnb.notebooks.verification.prose_moves import wrong_moves

    return [
        Complaint(
            kind="prose",
            message=f"the text says {fault.text!r}: {fault.reason}",
            cell=fault.cell,
            section=section_of(notebook["cells"], fault.cell - 1),
        )
        for fault in wrong_moves(notebook, folder=folder)
    ]


def read_claims(notebook: NotebookNode, *, folder: Path, announced: Announced) -> list[Complaint]:
    """List the sentences that are wrong, contradicted, or proved by no cell of their section."""
    from chessnb.notebooks.verification.prose_claims import faulty_sentences

    return [
        Complaint(
            kind=fault.kind if fault.kind in ("unproved", "judgement") else "wrong-sentence",
            message=fault.message,
            code=fault.code if fault.kind == "unproved" else "",
            cell=fault.cell,
            section=section_of(notebook["cells"], fault.cell - 1),
        )
        for fault in faulty_sentences(notebook, folder=folder, announced=announced)
    ]


def _can_be_compared(check: _Check) -> bool:
    return not any(
        complaint.kind in ("unusable", "nothing-saved") for complaint in check.complaints
    )


_WORDS = {
    "switched-off": "a tag or comment switches the comparison off, so this cell is not checked",
    "timeout": "this cell was not ready in time; the cells after it were not checked",
    "kernel-died": "the kernel stopped in the middle of this cell: it was ended, or the computer "
    "ran out of memory; the cells after it were not checked",
}


def _told(check: _Check, broken: str) -> list[Complaint]:
    """Return the complaints that follow from what became of the cells."""
    unusable = [result for result in check.results if result["kind"] == "unusable"]
    if unusable:
        message = f"no kernel could be started ({unusable[0]['message']})"
        return [Complaint(kind="unusable", message=f"{message}. Python with ipykernel is needed")]
    complaints = [_complaint(check, result) for result in check.results if _is_new(check, result)]
    complaints = _earlier_form_once(_without_wake(check, complaints))
    if len(check.results) < check.code_cells:
        done = f"after {len(check.results)} of {check.code_cells} cells"
        message = f"the check broke off {done}{broken}"
        complaints.append(Complaint(kind="unusable", message=message))
    return complaints


def _without_wake(check: _Check, complaints: list[Complaint]) -> list[Complaint]:
    """Tell an error once, and count the cells that only lack what it should have given them."""
    failed = {r["index"] + 1: r["lacks"] for r in check.results if r["kind"] == "error"}
    begun = causes(check.cells, failed)
    told = []
    for complaint in complaints:
        cell = complaint.cell or 0
        wake = sum(cause == cell != other for other, cause in begun.items())
        if complaint.kind != "error" or (begun[cell] == cell and not wake):
            told.append(complaint)
        elif begun[cell] == cell:
            below = f"{wake} more cells lack" if wake > 1 else "one more cell lacks"
            message = f"{complaint.message} ({below} what this cell gives)"
            told.append(replace(complaint, message=message))
    return told


def _earlier_form_once(complaints: list[Complaint]) -> list[Complaint]:
    """Tell once, of the whole lesson, that it was saved before findings had records."""
    earlier = sum(complaint.kind == "earlier-form" for complaint in complaints)
    others = [complaint for complaint in complaints if complaint.kind != "earlier-form"]
    if not earlier:
        return others
    say = "finding says" if earlier == 1 else "findings say"
    message = (
        f"saved by an earlier version of chessnb: {earlier} {say} the same in another form now. "
        "chessnb verify --update carries the lesson over"
    )
    return [Complaint(kind="earlier-form", message=message), *others]


def _is_new(check: _Check, result: CellResult) -> bool:
    """Tell whether a result is a complaint, and not one about a cell that was never run."""
    if result["kind"] in ("agrees", "not-reached"):
        return False
    never_run = {complaint.cell for complaint in check.complaints if complaint.kind == "not-run"}
    return result["kind"] != "changed" or result["index"] + 1 not in never_run


def _complaint(check: _Check, result: CellResult) -> Complaint:
    return Complaint(
        kind=result["kind"],
        message=result.get("message") or _WORDS[result["kind"]],
        cell=result["index"] + 1,
        section=section_of(check.cells, result["index"]),
        saved=result.get("saved"),
        now=result.get("now"),
    )


def _report_of(check: _Check) -> LessonReport:
    agreeing = sum(r["compared"] for r in check.results if r["kind"] == "agrees")
    return LessonReport(
        path=check.shown,
        complaints=in_order(check.complaints),
        findings=agreeing,
        notes=_notes(check),
    )


def _notes(check: _Check) -> tuple[Complaint, ...]:
    """Return what is to be said of the sentences, with what the cells proved in this run."""
    if check.notebook is None or any(one.kind == "unusable" for one in check.complaints):
        return ()
    announced = {result["index"]: result.get("announced", ()) for result in check.results}
    return tuple(read_claims(check.notebook, folder=check.path.parent, announced=announced))
