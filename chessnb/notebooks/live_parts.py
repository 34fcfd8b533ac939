"""What belongs to a running notebook, and not into its file.

A widget's view points to a model in a kernel's memory.  Saved, it makes
JupyterLab show a "model not found" box where the still picture should be, and
the models' saved state makes the file grow by megabytes.  Times of execution,
the version of Python, and tracebacks with this computer's folders in them
differ from one run to the next, without the lesson having changed.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from chessnb.findings import CLOSING

if TYPE_CHECKING:
    from nbformat import NotebookNode

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"
WIDGET_STATE = "application/vnd.jupyter.widget-state+json"

_COLOURS = re.compile(r"\x1b\[[0-9;]*m")
_STACK = re.compile(r"Traceback \(most recent call last\)|(?:Cell In|File )\[?\S+, line \d+")


def is_lesson(notebook: Any) -> bool:
    """Tell whether a notebook, as JSON values, says of itself that it is a lesson."""
    metadata = notebook.get("metadata") if isinstance(notebook, Mapping) else None
    return isinstance(metadata, Mapping) and isinstance(metadata.get("chessnb"), Mapping)


def strip_widgets(notebook: dict[str, Any]) -> None:
    """Remove widget views and widget state from a notebook, in place, and nothing else.

    An output that was only a view disappears; every other output keeps its
    text and its picture.  Whatever is not shaped like a notebook is left alone.

    Parameters
    ----------
    notebook : dict
        A notebook as JSON values.
    """
    metadata = notebook.get("metadata")
    widgets = metadata.get("widgets") if isinstance(metadata, dict) else None
    if isinstance(widgets, dict) and WIDGET_STATE in widgets:
        del widgets[WIDGET_STATE]
        if not widgets:
            del notebook["metadata"]["widgets"]
    for cell in _cells_with_outputs(notebook):
        cell["outputs"] = [output for output in cell["outputs"] if _stays(output)]


def strip_own_widgets(notebook: dict[str, Any]) -> None:
    """Remove the views of this package's widgets, in place; the other widgets' stay.

    Ours are known by the still picture beside them, which is shown instead.

    Parameters
    ----------
    notebook : dict
        Any notebook, as JSON values.
    """
    for cell in _cells_with_outputs(notebook):
        for output in cell["outputs"]:
            data = output.get("data") if isinstance(output, dict) else None
            still = data.get("text/html") if isinstance(data, dict) else None
            lines = still if isinstance(still, list) else [still]
            if CLOSING in "".join(line for line in lines if isinstance(line, str)):
                _stays(output)


def _cells_with_outputs(notebook: dict[str, Any]) -> Iterator[dict[str, Any]]:
    cells = notebook.get("cells")
    for cell in cells if isinstance(cells, list) else ():
        if isinstance(cell, dict) and isinstance(cell.get("outputs"), list):
            yield cell


def _stays(output: Any) -> bool:
    """Take the view out of an output, and tell whether anything is left of it."""
    data = output.get("data") if isinstance(output, dict) else None
    if not isinstance(data, dict) or WIDGET_VIEW not in data:
        return True
    del data[WIDGET_VIEW]
    if isinstance(output.get("metadata"), dict):
        output["metadata"].pop(WIDGET_VIEW, None)
    return bool(data)


def without_live_parts(notebook: NotebookNode) -> NotebookNode:
    """Return a copy of a notebook with only what may be saved into a lesson.

    Widget views and state, times of execution and the version of Python are
    left out, and a traceback is cut down to the sentence of its error, unless
    the error writes its own (as this package's errors do).

    Parameters
    ----------
    notebook : NotebookNode
        A notebook, usually just run; it is not changed.
    """
    kept = copy.deepcopy(notebook)
    strip_widgets(kept)
    kept["metadata"].get("language_info", {}).pop("version", None)
    for cell in kept["cells"]:
        cell["metadata"].pop("execution", None)
        for output in cell.get("outputs", ()):
            if output["output_type"] == "error" and _has_stack(output["traceback"]):
                output["traceback"] = [f"{output['ename']}: {output['evalue']}"]
    return kept


def _has_stack(traceback: list[str]) -> bool:
    return bool(_STACK.search(_COLOURS.sub("", "\n".join(traceback))))
