"""Cells of a lesson notebook: how they are made, and known again.

Every cell that is drafted carries two notes in its metadata, under
``chessnb``: ``cell``, the key it was drafted under, and ``drafted``, a
fingerprint of its text at that time; with several paragraphs or lines also
``parts``, a fingerprint of each.  A later draft can therefore tell three
sorts of cells apart: those it wrote and nobody touched, those it wrote and
the teacher has changed, and those that the teacher has added.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from chessnb.findings.seal import fingerprint
from chessnb.notebooks.cell_parts import marks_of
from chessnb.notebooks.markdown import unescape
from chessnb.notebooks.quick_loading import without_address_grammars

if TYPE_CHECKING:
    from nbformat import NotebookNode

_FENCE = re.compile(r" {0,3}(```|~~~)")
_HEADING = re.compile(r" {0,3}#{1,6}[ \t]+(.*?)(?:[ \t]+#+)?[ \t]*$")


def cell_id(key: str) -> str:
    """Return the id of the cell with a key: the same for the same key, always.

    Examples
    --------
    >>> cell_id("after 14. Nd5")
    'after-14-nd5-4aa0ec54'
    """
    words = re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")[:40].strip("-")
    mark = fingerprint(key)[:8]
    return f"{words}-{mark}" if words else mark


def markdown_cell(key: str, source: str) -> NotebookNode:
    """Return a cell of prose, drafted under a key.

    Parameters
    ----------
    key : str
        What the cell is for, unique in its notebook and the same in every draft.
    source : str
        Markdown.  Text that comes from outside goes through
        :func:`chessnb.notebooks.markdown.escape` first.
    """
    return _cell("markdown", key, source)


def code_cell(key: str, source: str, *, collapsed: bool = True) -> NotebookNode:
    """Return a cell of code without outputs, drafted under a key.

    Parameters
    ----------
    key : str
        What the cell is for, unique in its notebook and the same in every draft.
    source : str
        Python.
    collapsed : bool
        Whether JupyterLab opens the cell with its code folded away, so that
        the class sees only the finding.
    """
    cell = _cell("code", key, source)
    cell["outputs"] = []
    cell["execution_count"] = None
    if collapsed:
        cell["metadata"]["jupyter"] = {"source_hidden": True}
    return cell


def _cell(cell_type: str, key: str, source: str) -> NotebookNode:
    notes: dict[str, Any] = {"cell": key, "drafted": fingerprint(source)}
    if len(parts := marks_of(source, cell_type)) > 1:
        notes["parts"] = parts
    return _node(cell_type=cell_type, id=cell_id(key), metadata={"chessnb": notes}, source=source)


def _node(**values: Any) -> NotebookNode:
    with without_address_grammars():
        import nbformat

    make: Any = nbformat.from_dict  # carries no types
    node: NotebookNode = make(values)
    return node


def new_notebook(cells: Sequence[NotebookNode], *, notes: Mapping[str, Any]) -> NotebookNode:
    """Return a lesson notebook of these cells.

    Parameters
    ----------
    cells : sequence of cells
        In order.
    notes : mapping
        What the lesson notes about itself, as JSON values; kept under
        ``chessnb`` in the notebook's metadata, which also marks it as a lesson.
    """
    metadata = {
        "chessnb": dict(notes),
        "kernelspec": {
            "display_name": "Python 3 (ipykernel)",
            "language": "python",
            "name": "python3",
        },
        "language_info": {"name": "python"},
    }
    return _node(cells=list(cells), metadata=metadata, nbformat=4, nbformat_minor=5)


def cell_key(cell: Mapping[str, Any]) -> str | None:
    """Return the key a cell was drafted under, or None for a cell of the teacher's.

    A copy of a drafted cell carries its key too; see :func:`drafted_cells`.
    """
    notes = cell.get("metadata", {}).get("chessnb")
    key = notes.get("cell") if isinstance(notes, Mapping) else None
    return key if isinstance(key, str) else None


def is_edited(cell: Mapping[str, Any]) -> bool:
    """Tell whether a drafted cell's text differs from what was drafted."""
    notes = cell.get("metadata", {}).get("chessnb")
    drafted = notes.get("drafted") if isinstance(notes, Mapping) else None
    return bool(drafted != fingerprint(cell["source"]))


def drafted_cells(notebook: Mapping[str, Any]) -> dict[str, NotebookNode]:
    """Return the notebook's drafted cells by their keys, in the notebook's order.

    Every other cell is the teacher's, a copy of a drafted cell included: of
    two cells with one key, the one with the id of the draft is the original,
    else the first.

    Examples
    --------
    >>> drafted = code_cell("the fork", "lesson.after('14. Nd5')")
    >>> list(drafted_cells(new_notebook([drafted], notes={})))
    ['the fork']
    """
    found: dict[str, NotebookNode] = {}
    for cell in notebook["cells"]:
        key = cell_key(cell)
        if key is not None and (key not in found or cell.get("id") == cell_id(key)):
            found[key] = cell
    return found


def section_of(cells: Sequence[Mapping[str, Any]], index: int) -> str | None:
    """Return the last heading at or above a cell, as a reader sees it.

    Parameters
    ----------
    cells : sequence of cells
        A notebook's cells.
    index : int
        The cell, counted from 0.

    Examples
    --------
    >>> cells = [markdown_cell("a", "## The fork"), code_cell("b", "1 + 1")]
    >>> section_of(cells, 1)
    'The fork'
    """
    for cell in reversed(cells[: index + 1]):
        if cell["cell_type"] == "markdown" and (headings := _headings(cell["source"])):
            return headings[-1]
    return None


def _headings(source: str) -> list[str]:
    headings: list[str] = []
    fence: str | None = None
    for line in source.splitlines():
        if opened := _FENCE.match(line):
            fence = opened[1] if fence is None else (None if fence == opened[1] else fence)
        elif fence is None and (found := _HEADING.match(line)):
            headings.append(unescape(found[1]))
    return headings


def place(cells: Sequence[Mapping[str, Any]], index: int) -> str:
    """Return where a cell stands, in words: its number and its section.

    Examples
    --------
    >>> place([markdown_cell("a", "## The fork"), code_cell("b", "1 + 1")], 1)
    'cell 2 (section “The fork”)'
    """
    section = section_of(cells, index)
    return place_in_words(index + 1, section)


def place_in_words(number: int, section: str | None) -> str:
    """Return “cell 7 (section “…”)” for a cell's number, counted from 1, and its section."""
    return f"cell {number}" if section is None else f"cell {number} (section “{section}”)"
