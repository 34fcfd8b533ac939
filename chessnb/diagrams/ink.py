"""The ink: every measure, colour and shape of a diagram, read from ``ink.json``.

``ink.json`` is the one source for the still diagram and for the live board in
the browser, which is handed the same text (:data:`INK_TEXT`).  Its shape::

    {
      "board":   {square, frame, left, top, width, height},
      "hatch":   {lines, trim, width, opacity},
      "letters": {family, size, rank, file, drop},
      "turn":    {side, width, left},
      "casing":  units,
      "marks":   {role: {label, said, layer, shape, width, …}},
      "events":  {last | check: {shape, width, …}},
      "themes":  {light | dark | print: {colour name: "#rrggbb"}},
      "page":    {light | dark: {colour name: "#rrggbb"}},
      "roles":   {role: {fill, stroke, width}},
      "contours": {"K" … "P": path},
      "pieces":  {"wK" … "bP": [{role} | {role, d}, …]}
    }

All measures are units of the drawing, whose origin is its top left corner and
which is ``width`` by ``height`` units large.

``board``
    A square is ``square`` units wide; the board's own top left corner lies
    ``left`` and ``top`` units from the origin, and a line ``frame`` units wide
    runs round it, outside.
``hatch``
    ``lines`` across a dark square, rising to the right at 45 degrees, evenly
    apart; their ends are a ``trim`` short of its sides.
``letters``
    Coordinates: the font's ``family`` and ``size``, the middle of the rank
    figures from the left (``rank``), how far their base line lies below the
    middle of the rank (``drop``), and the base line of the file letters from
    the top (``file``).
``turn``
    The small square that says who is to move: its ``side``, the ``width`` of
    its line, and how far it is from the ``left``.
``casing``
    What a pen stroke shows of paper on either side.
``marks``
    What may be drawn on a board.  A role is declared here and nowhere else:
    its ``label`` on the pen's button, how it is ``said`` to those who do not
    see it, its ``layer`` (below 0 under the pieces, above 0 over them, the
    lowest drawn first), its ``shape`` and the measures that this needs.  Its
    colour has the same name in every theme.
``events``
    What the position itself says, drawn beneath all marks: the last move and
    the check.
``shape``
    ``ring``: a circle of a ``radius``, and a second one where there is an
    ``inner``.  ``ticks``: four corners, ``inset`` from the edge of the square,
    with arms ``arm`` long.  ``outline``: a square, ``inset`` from the edge.
    ``underline``: a line, ``inset`` from the sides, ``drop`` below the top.
    ``stroke``: a line to another square, which starts (``start``) and ends
    (``stop``) so far from the middles of its squares, with a head that reaches
    back (``head``) and to either side (``spread``) where there is one.  Each
    has the ``width`` of its line, and may have a ``dash`` as in SVG.
``themes``
    ``ink``, ``paper``, ``tint`` (under the hatch), ``piece`` (the inside of
    White's pieces, the fine lines of Black's), and one colour for each mark and
    event.
``page``
    What stands around a live board: ``words`` and ``quiet`` text, ``link``,
    what is ``wrong``, the ``rule`` beside a text, and the grounds of the whole
    screen, ``screen`` behind one board and ``desk`` behind an explorer.  The
    front end's style sheets know them, and the colours of the themes, as
    custom properties of the same names.
``roles``
    How a shape of a piece is inked: the names of two theme colours or null,
    and the width of the line.  ``edge`` is the rim of paper that keeps the
    hatch off a piece, ``outline`` White's body and ``solid`` Black's; ``line``
    is a stroke of the pen inside White's; ``spot`` is what is full of ink in
    White's pieces, and ``glint`` what the graver has cut out of Black's.
``contours``
    The outline of each kind of piece, the same for both sides.
``pieces``
    What a piece is made of, the lowest shape first: ``d`` is a path, in units
    from the top left corner of the piece's square; a shape without one inks
    the contour of its kind.

The pieces were drawn for this project in the manner of wood type: every piece
stands on the same bracketed slab, and the light comes from the left.  The right
edges of White's pieces are as thick as a broad pen held level would make them, up
to 2.5 units; Black's are solid, with tapered cuts, as a graver leaves them.
"""

from __future__ import annotations

import json
import math
from importlib.resources import files
from typing import Any

INK_TEXT = files("chessnb.diagrams").joinpath("ink.json").read_text(encoding="utf-8")
"""``ink.json`` as it is, for whoever else draws boards from it."""

INK: dict[str, Any] = json.loads(INK_TEXT)
"""The measures, colours and shapes; not to be changed."""

SERIF = f"font-family: {INK['letters']['family']}"
"""The one typeface of all that is shown, still or live, as a style: that of the coordinates."""


def number(value: float) -> str:
    """Write a measure with one decimal at most, halves upwards.

    Any language that computes in IEEE doubles can follow this to the byte:
    ``String(Math.floor(value * 10 + 0.5) / 10)`` in JavaScript.

    Examples
    --------
    >>> number(45), number(22.5), number(16.25), number(-0.04)
    ('45', '22.5', '16.3', '0')
    """
    return f"{math.floor(value * 10 + 0.5) / 10:g}"


def ink_rules() -> str:
    """Return the ink's colours for a page as CSS custom properties, light and dark."""
    light, dark = INK["page"]["light"], INK["page"]["dark"]
    rules = "".join(f"--{name}:light-dark({light[name]},{dark[name]});" for name in light)
    return f":root{{{rules}--serif:{INK['letters']['family']};}}"
