"""Errors that only follow from an earlier one: the cell lacks what a failed cell should have given.

An error is told once, at the cell where it began.  A name that is missing
counts as its consequence only if that cell, or one that failed in its wake,
would have given the name.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from chessnb.notebooks.verification.named_positions import without_magics

_ASSIGNED = re.compile(r"(?m)^\s*(\w+)\s*=(?!=)")


def causes(cells: Sequence[Mapping[str, Any]], failed: Mapping[int, str]) -> dict[int, int]:
    """Return for each failed cell the cell in which its error began, often itself.

    Parameters
    ----------
    cells : sequence of cells
        The notebook's.
    failed : mapping of int to str
        The cells that failed, counted from 1, each with the name that it
        lacked; empty where that was not the error.

    Examples
    --------
    >>> sources = ["a = broken()", "b = a", "b", "c"]
    >>> cells = [{"source": source} for source in sources]
    >>> causes(cells, {1: "broken", 2: "a", 3: "b", 4: "c"})
    {1: 1, 2: 1, 3: 1, 4: 4}
    """
    begun: dict[int, int] = {}
    would_give: dict[str, int] = {}
    for cell, lacks in sorted(failed.items()):
        begun[cell] = would_give.get(lacks, cell)
        for name in names_given(str(cells[cell - 1]["source"])):
            would_give.setdefault(name, begun[cell])
    return begun


def names_given(source: str) -> set[str]:
    r"""Return the names that a cell gives to the cells behind it.

    Examples
    --------
    >>> sorted(names_given("from chessnb import claims as c\nm = lesson.after('e4')\nm.board"))
    ['c', 'm']
    """
    try:
        tree = ast.parse(without_magics(source))
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        return set(_ASSIGNED.findall(source))
    return set(_given(tree))


def _given(node: ast.AST) -> Iterator[str]:
    """Yield the names that are given in a scope, without what its functions keep for themselves."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield child.name
        elif isinstance(child, ast.alias):
            yield (child.asname or child.name).partition(".")[0]
        elif isinstance(child, ast.Name) and isinstance(child.ctx, ast.Store):
            yield child.id
        elif not isinstance(child, ast.Lambda):
            yield from _given(child)
