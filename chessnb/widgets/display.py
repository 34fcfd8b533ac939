"""How a moment comes alive at the end of a cell.

Moments and charts know no widget: below this layer they show as a line and a
still picture.  :func:`activate` tells IPython to add a live board to them.
The still diagram stays in the output, for a reader without a kernel.
"""

from __future__ import annotations

import functools
import sys
from typing import TYPE_CHECKING, Any

from chessnb.finding import CLOSING

if TYPE_CHECKING:
    from chessnb.position import Position

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
    before, closing, after = still["text/html"].rpartition(CLOSING)
    hint = f"<p><i>{COMES_ALIVE}</i></p>" if closing else ""
    return {**still, "text/html": f"{before}{hint}{closing}{after}", **view_of(widget)}


def still_and_live(
    bundle: dict[str, Any], position: Position, *, turned: bool = False
) -> dict[str, Any]:
    """Add a live board to the still output of a moment or a finding.

    Parameters
    ----------
    bundle : dict
        The output as it is without widgets, by MIME type.
    position : chess.Board, moment or str
        What the board shows.
    turned : bool
        Show it from Black's side.

    Returns
    -------
    dict
        A new bundle; outside a kernel, and for a position that cannot be
        played on, the same content as the one given.
    """
    if not under_kernel():
        return dict(bundle)
    from chessnb.errors import PositionError
    from chessnb.widgets.board import LiveBoard

    try:
        board = LiveBoard(position, turned=turned)
    except PositionError:
        return dict(bundle)
    return come_alive(bundle, board)


def activate(shell: Any = None) -> bool:
    """Make moments come alive in a notebook, from now on.

    Parameters
    ----------
    shell : IPython shell, optional
        Where to register; the running one if it is left out.

    Returns
    -------
    bool
        Whether there was a shell to register with.

    Notes
    -----
    Cheap: nothing of the widgets is imported before the first moment is shown.
    """
    if shell is None:
        ipython = sys.modules.get("IPython")
        shell = None if ipython is None else ipython.get_ipython()
    if shell is None:
        return False
    formatter = shell.display_formatter.mimebundle_formatter
    formatter.for_type_by_name("chessnb.lesson.moment", "Moment", _moment_bundle)
    formatter.for_type_by_name("chessnb.charts", "Chart", _chart_bundle)
    if under_kernel():
        _watch_searches()
    return True


def _watch_searches() -> None:
    """Have long searches show their progress; the note's own modules are imported then."""
    from chessnb.solver.budget import watchers

    if _watcher not in watchers:
        watchers.append(_watcher)


def _watcher(positions: int) -> None:
    _watching()(positions)


@functools.cache
def _watching() -> Any:
    from chessnb.widgets.progress import Watching

    return Watching()


def _moment_bundle(moment: Any) -> dict[str, Any]:
    """Show a moment as it shows itself, and alive."""
    return still_and_live(moment._repr_mimebundle_(), moment)


def _chart_bundle(chart: Any) -> dict[str, Any]:
    """Show a chart as it shows itself, and with a board that its points lead to."""
    bundle = dict(chart._repr_mimebundle_())
    if not under_kernel():
        return bundle
    from chessnb.widgets.charting import LiveChart

    return come_alive(bundle, LiveChart(chart))
