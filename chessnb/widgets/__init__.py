"""Live views: a board to play on, and the hooks that bring a moment to life.

The names are looked up when they are first used: the widgets need packages
that take long to import, and a plain script has no use for them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from chessnb.widgets.display import activate, still_and_live

if TYPE_CHECKING:
    from chessnb.widgets.board import LiveBoard

__all__ = ["LiveBoard", "activate", "still_and_live"]


def __getattr__(name: str) -> Any:
    if name == "LiveBoard":
        from chessnb.widgets.board import LiveBoard

        return LiveBoard
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


activate()  # in a notebook, importing the package is what brings its moments to life
