"""The pen: from colour names and squares to SVG attributes and units.

One pen draws one diagram.  It knows the theme and which way the board is
turned, so that the modules that draw pieces and marks need not.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.diagrams.ink import INK, number

Theme = Literal["auto", "light", "dark", "print"]
"""``"auto"`` is light, and dark where the page around the picture is dark."""

THEMES: tuple[Theme, ...] = ("auto", "light", "dark", "print")


@dataclass(frozen=True, kw_only=True)
class Pen:
    """What turns a colour's name into paint and a square into a place.

    Parameters
    ----------
    theme : {"auto", "light", "dark", "print"}
        Whose colours to use.
    turned : bool
        Black's side at the bottom.

    Examples
    --------
    >>> white, black = Pen(theme="light"), Pen(theme="light", turned=True)
    >>> white.corner(chess.A8) == black.corner(chess.H1)
    True
    """

    theme: Theme
    turned: bool = False

    def name(self, thing: str) -> str:
        """Return the id of a thing that is drawn once and used by reference.

        What stands under an id depends on the theme alone, so that two
        diagrams in one page may well define it twice.
        """
        return f"chessnb-{self.theme}-{thing}"

    def corner(self, square: chess.Square) -> tuple[float, float]:
        """Return the top left corner of a square, in units."""
        column, row = chess.square_file(square), 7 - chess.square_rank(square)
        if self.turned:
            column, row = 7 - column, 7 - row
        board = INK["board"]
        return (
            board["left"] + board["square"] * column,
            board["top"] + board["square"] * row,
        )

    def middle(self, square: chess.Square) -> tuple[float, float]:
        """Return the middle of a square, in units."""
        x, y = self.corner(square)
        return x + INK["board"]["square"] / 2, y + INK["board"]["square"] / 2

    def paint(
        self,
        *,
        fill: str | None = None,
        stroke: str | None = None,
        width: float = 0,
        dash: str | None = None,
    ) -> str:
        """Return the attributes that ink a shape, with a space before each.

        Parameters
        ----------
        fill, stroke : str or None
            Names of theme colours; None for no paint.
        width : float
            Of the stroke, in units.
        dash : str or None
            The pattern of a broken stroke, as in SVG.
        """
        colours = INK["themes"]["light" if self.theme == "auto" else self.theme]
        text = ""
        if self.theme == "auto":
            kinds = (("fill", fill), ("stroke", stroke))
            text = f' class="{" ".join(f"chessnb-{kind}-{name}" for kind, name in kinds if name)}"'
        text += f' fill="{colours[fill] if fill else "none"}"'
        if stroke:
            text += f' stroke="{colours[stroke]}" stroke-width="{number(width)}"'
        if dash:
            text += f' stroke-dasharray="{dash}"'
        return text

    def style(self) -> str:
        """Return the style element that darkens an ``auto`` diagram; else nothing.

        The light colours stand in the attributes, so that a program that
        knows no style sheets draws a light diagram.  Print stays light.
        """
        if self.theme != "auto":
            return ""
        rules = "".join(
            f".chessnb-fill-{name}{{fill:{colour}}}.chessnb-stroke-{name}{{stroke:{colour}}}"
            for name, colour in INK["themes"]["dark"].items()
        )
        return f"<style>@media screen and (prefers-color-scheme:dark){{{rules}}}</style>"
