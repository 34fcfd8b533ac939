"""What a long search shows while it runs, and leaves no trace of.

A search that takes longer than a second says so in a note at the foot of the
page.  The note belongs to no cell and to no output: a widget's model acts in
the browser as soon as it is made, and this one is never displayed.
"""

from __future__ import annotations

import time
from typing import Any

import anywidget
import traitlets

from chessnb.widgets.esm import bundle

PATIENCE_S = 1.0
"""A search may take so long before anything is shown; in seconds."""

EVERY_S = 0.25
"""The note changes at most so often; in seconds."""


class Progress(anywidget.AnyWidget):
    """The note at the foot of the page.

    Attributes
    ----------
    text : str
        What it says; nothing is shown while it is empty.
    """

    _esm = bundle("progress.js")
    text = traitlets.Unicode("").tag(sync=True)


class Watching:
    """Shows the progress of searches, once they take long."""

    def __init__(self) -> None:
        self._began: float | None = None
        self._shown = 0.0
        self._note: Any = None

    def __call__(self, positions: int) -> None:
        """Hear how many positions a search has looked at; 0 when it has ended."""
        now = time.monotonic()
        if not positions:
            self._began = None
            if self._note is not None:
                self._note.text = ""
            return
        if self._began is None:
            self._began = now
        if now - self._began < PATIENCE_S or now - self._shown < EVERY_S:
            return
        self._shown = now
        if self._note is None:
            self._note = Progress()
        self._note.text = f"proving: {positions:,} positions looked at (the stop button ends it)"
