"""Whether the search is compiled, and what that means to a teacher who waits for it."""

from __future__ import annotations

import sys

from chessnb.search.core import compiled

TIMES_SLOWER = 80
"""How many times as long a search takes that is not compiled (``tests/bench/compiled.py``)."""

_COMPILERS = {
    "linux": "a C compiler and Python's headers (on Debian: apt install gcc python3-dev)",
    "darwin": "Apple's command line tools (xcode-select --install)",
    "win32": "Microsoft's build tools for C++",
}


def slow_warning() -> str:
    """Return what a teacher is told where the search is not compiled; empty where it is."""
    if compiled:
        return ""
    needed = _COMPILERS.get(sys.platform, "a C compiler")
    return (
        f"The search is not compiled here, so proofs take about {TIMES_SLOWER} times as long. "
        f"To have it compiled, install {needed}, and then chessnb again."
    )
