"""A chart that leads into the game: choose a point, and a board shows its position."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import anywidget
import traitlets

from chessnb.charts import HEIGHT, WIDTH, Chart
from chessnb.mistakes import CallError, checked
from chessnb.notation.letter_choice import piece_letters
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style


class LiveChart(anywidget.AnyWidget):
    """A chart beside a board: every point of it shows its position.

    A chart at the end of a cell comes alive by itself; this is for words of
    one's own, another language's letters, or Black's side below.

    Parameters
    ----------
    chart : Chart
        The chart, such as ``charts.material(lesson)``.
    turned : bool
        Show the board from Black's side.
    letters : str
        How moves are written, as for :class:`~chessnb.LiveBoard`.
    words : mapping of str to str, optional
        Translations; the keys are those of ``frontend/words.js`` and
        ``frontend/chartwords.js``.

    Raises
    ------
    UnknownLanguage
        If the letters of the language are not known.

    Examples
    --------
    >>> from chessnb import Lesson, charts
    >>> LiveChart(charts.material(Lesson.from_text("1. e4 d5 2. exd5")))
    LiveChart('material', points=4)
    """

    _esm = bundle("charting.js")
    _css = style("theme.css")

    table = traitlets.Dict(help="The chart and its line; set by Python only.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    words = traitlets.Dict(help="Translated words.").tag(sync=True)
    piece_letters = traitlets.Unicode("PNBRQK", help="How moves name the pieces.").tag(sync=True)

    @checked
    def __init__(
        self,
        chart: Chart,
        *,
        turned: bool = False,
        letters: str = "english",
        words: Mapping[str, str] | None = None,
    ) -> None:
        if not isinstance(chart, Chart):
            raise CallError("LiveChart takes a chart: write LiveChart(charts.material(lesson))")
        self.chart = chart
        super().__init__(
            table=chart_data(chart),
            turned=turned,
            words=dict(words or {}),
            piece_letters=piece_letters(letters),
        )

    def __repr__(self) -> str:
        return f"LiveChart({self.chart.title!r}, points={len(self.chart.points)})"

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """Show the chart as it is without scripts, and the live one over it."""
        return come_alive(self.chart._repr_mimebundle_(), self), {}


def chart_data(chart: Chart) -> dict[str, Any]:
    """Return what a page is given of a chart, ready for JSON."""
    return {
        "fen": chart.fen,
        "title": chart.title,
        "summary": chart.summary,
        "names": list(chart.names),
        "size": [WIDTH, HEIGHT],
        "svg": chart.svg(),
        "points": [
            {
                "address": point.address,
                "move": point.move,
                "values": [value for value in (point.value, point.other) if value is not None],
                "place": list(place),
            }
            for point, place in zip(chart.points, chart.places, strict=True)
        ],
    }
