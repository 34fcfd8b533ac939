"""What can be told from a lesson's file alone: whether there is anything to compare.

nbval passes a notebook without outputs, and a cell that was never run,
without comparing anything.  A lesson must not look checked when it is not.
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from typing import Any

from chessnb.notebooks import section_of
from chessnb.notebooks.verification.report import Complaint


def check_saved(notebook: Mapping[str, Any]) -> list[Complaint]:
    """List what keeps a lesson from being compared.

    Parameters
    ----------
    notebook : notebook
        The lesson.

    Returns
    -------
    list of Complaint
        One of kind ``nothing-saved`` if no cell has outputs; else one of kind
        ``not-run`` for each cell that was never run in the state it is in.
    """
    code = [
        (index, cell)
        for index, cell in enumerate(notebook["cells"])
        if cell["cell_type"] == "code" and _does_something(cell["source"])
    ]
    if not code:
        message = "there is no code in this notebook: nothing in it can be checked"
        return [Complaint(kind="nothing-saved", message=message)]
    if not any(cell["outputs"] for _, cell in code):
        message = (
            "no outputs are saved, so there is nothing to compare. Run all cells in JupyterLab "
            "and save, or use chessnb verify --update"
        )
        return [Complaint(kind="nothing-saved", message=message)]
    return [
        Complaint(
            kind="not-run",
            message="this cell was not run before saving, so nothing of it is compared. Run all "
            "cells and save, or use chessnb verify --update",
            cell=index + 1,
            section=section_of(notebook["cells"], index),
        )
        for index, cell in code
        if cell["execution_count"] is None
    ]


def _does_something(source: str) -> bool:
    """Tell whether a cell holds more than comments; what Python alone cannot read does."""
    try:
        return bool(ast.parse(source).body)
    except (SyntaxError, ValueError):
        return bool(source.strip())
