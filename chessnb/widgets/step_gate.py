"""What stands in the place of a step that is not open yet: a sentence, and a quiet word."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import anywidget
import traitlets

from chessnb.teaching.step_order import WAITS
from chessnb.widgets.esm import bundle, style

ALL_THE_SAME = "open it all the same"
"""The word that opens a step whose question is not answered."""


class StepGate(anywidget.AnyWidget):
    """The line in front of a step.

    Parameters
    ----------
    on_open : callable
        Called when the step is wanted all the same.
    """

    _esm = bundle("gate.js")
    _css = style("theme.css")

    sentence = traitlets.Unicode(WAITS, help="What the step waits for.").tag(sync=True)
    label = traitlets.Unicode(ALL_THE_SAME, help="The word that opens it.").tag(sync=True)

    def __init__(self, on_open: Callable[[], None]) -> None:
        super().__init__()
        self._on_open = on_open
        self.on_msg(self._hear)

    def _hear(self, _widget: Any, content: Any, _buffers: Any) -> None:
        if isinstance(content, Mapping) and content.get("kind") == "open":
            self._on_open()
