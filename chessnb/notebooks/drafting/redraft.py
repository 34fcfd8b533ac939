"""Drafting a lesson again without losing what the teacher has done to it.

Three sorts of cells stand in a lesson: drafted and untouched, drafted and
edited, and the teacher's own.  A new draft replaces only the first sort.  Of an
edited cell it keeps what was edited: a paragraph, a line of code that was
changed, added or taken out; the rest is as it is drafted now.  A cell of the
teacher's own stays behind the cell that it stood behind; a drafted cell that the
teacher threw out stays out.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from chessnb.board.naming import counted, listed
from chessnb.notebooks import cell_key, drafted_cells, is_edited
from chessnb.notebooks.cell_parts import merged as merged_text

if TYPE_CHECKING:
    from nbformat import NotebookNode

_START = ""


@dataclass(frozen=True, kw_only=True)
class Kept:
    """What a redraft kept of the teacher's work, as numbers of cells."""

    added: int = 0
    edited: int = 0
    removed: int = 0

    @property
    def in_words(self) -> str:
        """Say it in one sentence or two; nothing where nothing was kept."""
        mine = [
            f"{counted(number, 'cell')} that you {what}"
            for number, what in ((self.added, "added"), (self.edited, "edited"))
            if number
        ]
        sentences = [f"Kept {listed(mine)}."] if mine else []
        if self.removed:
            sentences.append(f"Left out {counted(self.removed, 'cell')} that you had removed.")
        return " ".join(sentences)


def merge(cells: Sequence[NotebookNode], old: Mapping[str, Any]) -> tuple[list[NotebookNode], Kept]:
    """Put the teacher's work of an earlier lesson into a new draft.

    Parameters
    ----------
    cells : sequence of cells
        The new draft.
    old : notebook
        The lesson as it is; it is not changed.

    Returns
    -------
    (list of cells, Kept)
        The new lesson's cells, and what was kept.
    """
    drafted = drafted_cells(old)
    types = {cell_key(cell): cell["cell_type"] for cell in cells}
    edited = {
        key: cell
        for key, cell in drafted.items()
        if is_edited(cell) or cell["cell_type"] != types.get(key, cell["cell_type"])
    }
    removed = removed_keys(old)
    own = _own_cells(old, drafted)
    new_keys = [cell_key(cell) for cell in cells]
    # What the new draft no longer has, but the teacher edited, is the teacher's own now.
    orphans = [key for key in edited if key not in new_keys]
    merged = [copy.deepcopy(cell) for cell in own.pop(_START, [])]
    for cell, key in zip(cells, new_keys, strict=True):
        if key is not None and key not in removed:
            mine = edited.get(key)
            same = _with_notes(cell, drafted.get(key))
            merged.append(same if mine is None else _with_edits(cell, mine))
        merged.extend(copy.deepcopy(own.pop(key or _START, [])))
    for key in orphans:
        merged.append(copy.deepcopy(edited[key]))
        merged.extend(copy.deepcopy(own.pop(key, [])))
    for left in own.values():
        merged.extend(copy.deepcopy(left))
    kept = Kept(
        added=sum(len(entry) for entry in _own_cells(old, drafted).values()),
        edited=len(edited),
        removed=len(removed & set(new_keys)),
    )
    return merged, kept


def removed_keys(old: Mapping[str, Any]) -> set[str]:
    """Return the keys of drafted cells that the teacher has taken out, now or before."""
    notes = old.get("metadata", {}).get("chessnb", {})
    lists = (notes.get("cells"), notes.get("removed")) if isinstance(notes, Mapping) else ()
    known = {
        key for keys in lists if isinstance(keys, list) for key in keys if isinstance(key, str)
    }
    return known - set(drafted_cells(old))


def is_thrown_out(old: Mapping[str, Any], address: str) -> bool:
    """Tell whether the teacher has taken out the stop at a move: its words and its page."""
    gone = f"stop {address}" in removed_keys(old)
    return gone and f"page {address}" not in drafted_cells(old)


def _with_notes(cell: NotebookNode, old: NotebookNode | None) -> NotebookNode:
    """Return a new cell with the tags and other metadata that the old one was given."""
    if old is None:
        return cell
    noted = copy.deepcopy(cell)
    for name, value in old["metadata"].items():
        noted["metadata"].setdefault(name, value)
    return noted


def _with_edits(cell: NotebookNode, mine: NotebookNode) -> NotebookNode:
    """Return an edited cell with what is drafted otherwise now in the parts that nobody touched."""
    parts = mine["metadata"].get("chessnb", {}).get("parts")
    if cell["cell_type"] != mine["cell_type"] or not isinstance(parts, list):
        return copy.deepcopy(mine)
    edited = copy.deepcopy(mine)
    edited["metadata"]["chessnb"] = copy.deepcopy(cell["metadata"]["chessnb"])
    edited["source"] = merged_text(
        [str(part) for part in parts],
        str(mine["source"]),
        str(cell["source"]),
        cell_type=cell["cell_type"],
    )
    return edited


def _own_cells(
    old: Mapping[str, Any], drafted: Mapping[str, NotebookNode]
) -> dict[str, list[NotebookNode]]:
    """Return the teacher's own cells by the key of the drafted cell that they stand behind."""
    own: dict[str, list[NotebookNode]] = {}
    behind = _START
    originals = {id(cell): key for key, cell in drafted.items()}
    for cell in old["cells"]:
        key = originals.get(id(cell))
        if key is not None:
            behind = key
        else:
            own.setdefault(behind, []).append(cell)
    return own
