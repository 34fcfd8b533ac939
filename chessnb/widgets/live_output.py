"""How a position comes alive at the end of a cell.

Positions and charts know no widget: below this layer they show as a line and a
still picture.  :func:`activate` tells IPython to add a live board to them.
"""

from __future__ import annotations

import functools
import sys
from typing import TYPE_CHECKING, Any

from chessnb.widgets.display import come_alive, under_kernel

if TYPE_CHECKING:
    from chessnb.board.position import Position


def still_and_live(
    bundle: dict[str, Any], position: Position, *, turned: bool = False
) -> dict[str, Any]:
    """Add a live board to the still output of a position or a finding.

    Parameters
    ----------
    bundle : dict
        The output as it is without widgets, by MIME type.
    position : chess.Board, Moment or str
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
    from chessnb.widgets.live_board import LiveBoard

    try:
        board = LiveBoard(position, turned=turned)
    except PositionError:
        return dict(bundle)
    return come_alive(bundle, board)


def activate(shell: Any = None) -> bool:
    """Make positions come alive in a notebook, from now on.

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
    Cheap: nothing of the widgets is imported before the first position is shown.
    """
    if shell is None:
        ipython = sys.modules.get("IPython")
        shell = None if ipython is None else ipython.get_ipython()
    if shell is None:
        return False
    formatter = shell.display_formatter.mimebundle_formatter
    formatter.for_type_by_name("chessnb.lessons.moment", "Moment", _moment_bundle)
    formatter.for_type_by_name("chessnb.charts", "Chart", _chart_bundle)
    if under_kernel():
        _watch_searches()
    return True


def _watch_searches() -> None:
    """Have long searches show their progress; the note's own modules are imported then."""
    from chessnb.search.budget import watchers

    if _watcher not in watchers:
        watchers.append(_watcher)


def _watcher(positions: int) -> None:
    _watching()(positions)


@functools.cache
def _watching() -> Any:
    from chessnb.widgets.search_note import Watching

    return Watching()


def _moment_bundle(moment: Any) -> dict[str, Any]:
    """Show a position as it shows itself, and alive."""
    return still_and_live(moment._repr_mimebundle_(), moment)


def _chart_bundle(chart: Any) -> dict[str, Any]:
    """Show a chart as it shows itself, and with a board that its points lead to."""
    bundle = dict(chart._repr_mimebundle_())
    if not under_kernel():
        return bundle
    from chessnb.widgets.live_chart import LiveChart

    return come_alive(bundle, LiveChart(chart))
