"""Telling a check what was found in its run: a channel of its own, which no cell prints to.

While lessons are checked, the variable names a file; every finding, and every
claim that is refused, is appended there as it comes about, a line of JSON each.
What a cell prints, what its source says and what is saved prove nothing.  A
lesson is code, and could write there too: this guards against slips.
"""

from __future__ import annotations

import json
import os
from typing import Any

VARIABLE = "CHESSNB_ANNOUNCED"
"""The name of the variable."""


def announce(found: Any) -> None:
    """Tell of a finding, of several, or of a claim that is refused; nothing if nobody asks."""
    path = os.environ.get(VARIABLE)
    if not path:
        return
    lines = [
        json.dumps({"record": str(one.record), "fen": _fen_of(one)}) + "\n"
        for one in (found if isinstance(found, tuple) else (found,))
        if getattr(one, "record", None) is not None
    ]
    if lines:
        with open(path, "a", encoding="utf-8") as file:
            file.writelines(lines)


def _fen_of(found: Any) -> str:
    """Return the position that a finding is about; of a move, the one before it."""
    return str(getattr(found, "before", "") or getattr(found, "fen", "") or "")
