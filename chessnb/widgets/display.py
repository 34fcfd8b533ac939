"""A still output with a widget beside it: the still stays for a reader without a kernel."""

from __future__ import annotations

import sys
from typing import Any

from chessnb.findings import typeset
from chessnb.findings.seal import with_added

WIDGET_VIEW = "application/vnd.jupyter.widget-view+json"
"""The MIME type under which a notebook shows a widget."""


def under_kernel() -> bool:
    """Tell whether this code runs in an IPython kernel: a notebook, not a script or a terminal."""
    ipython = sys.modules.get("IPython")
    shell = None if ipython is None else ipython.get_ipython()
    return getattr(shell, "kernel", None) is not None


def view_of(widget: Any) -> dict[str, Any]:
    """Return the part of an output that shows a widget."""
    return {WIDGET_VIEW: {"version_major": 2, "version_minor": 1, "model_id": widget.model_id}}


COMES_ALIVE = "Run this cell to play on the board."
"""What a reader sees under a still picture whose live board is gone with its kernel."""


def come_alive(still: dict[str, Any], widget: Any) -> dict[str, Any]:
    """Add a widget to the still output that stands in its place when it is not there.

    The still says how it comes alive; the line lies within what nbval does
    not compare.
    """
    hint = typeset(f"<p><i>{COMES_ALIVE}</i></p>")
    card = with_added(still["text/plain"], still["text/html"], hint)
    return {**still, "text/html": card, **view_of(widget)}
