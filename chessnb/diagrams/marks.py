"""Marks: what is drawn on a diagram; its shape tells what it means.

============= ============================================= =================
role          meaning                                       shape
============= ============================================= =================
``"actor"``   the piece that acts                           a ring
``"target"``  what it aims at                               four corner ticks
``"force"``   a line of force                               a solid line
                                                            with an open head
``"blocked"`` a line that is blocked, pinned or seen        a dashed line
              through
``"lure"``    a square that was cleared, or that a piece    a dotted outline
              was lured to
============= ============================================= =================

The last move (a thin underline of its two squares) and a check (a double ring
round the king) are drawn from the position, not from marks.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import chess

from chessnb.board.squares import Square, read_square
from chessnb.diagrams.ink import INK, number
from chessnb.diagrams.pen import Pen
from chessnb.errors import InputError

ROLES: tuple[str, ...] = tuple(INK["marks"])
"""What a mark may mean."""

STROKES: tuple[str, ...] = tuple(role for role in ROLES if INK["marks"][role]["shape"] == "stroke")
"""The roles that go from one square to another."""


@dataclass(frozen=True, kw_only=True)
class Mark:
    """One mark that is drawn on a diagram.

    Parameters
    ----------
    role : str
        What it means, one of the roles above; the shape follows from it.
    square : str or chess.Square
        The square it is on, or where the line begins, such as ``"e4"``; kept
        as its name.
    to : str, chess.Square or None
        Where the line ends: needed for a role that is a line, and
        meaningless for the others.

    Raises
    ------
    InputError
        If the role or a square does not exist, a line has no end, or another
        mark has one.

    Examples
    --------
    >>> Mark(role="force", square="d5", to="c7")
    Mark(role='force', square='d5', to='c7')
    """

    role: str
    square: str
    to: str | None = None

    def __post_init__(self) -> None:
        if self.role not in ROLES:
            raise InputError(f"a mark's role is one of {', '.join(ROLES)}", given=self.role)
        self._name_square("square", self.square)
        if self.role in STROKES:
            if self.to is None:
                raise InputError(
                    f"a mark of role {self.role!r} is a line: say where it ends, to=…",
                    given=self.to,
                )
            self._name_square("to", self.to)
            if self.to == self.square:
                raise InputError("a line needs two different squares", given=(self.square, self.to))
        elif self.to is not None:
            raise InputError(
                f"a mark of role {self.role!r} is on one square; only"
                f" {' and '.join(map(repr, STROKES))} go to another",
                given=self.role,
            )

    def _name_square(self, field: str, square: Square) -> None:
        """Keep a square by its name, so that marks of one square are equal."""
        object.__setattr__(self, field, chess.square_name(read_square(square)))


def read_marks(marks: object) -> tuple[Mark, ...]:
    """Return the marks that were given, one or several.

    Raises
    ------
    InputError
        If one of them is no mark.
    """
    given = marks if isinstance(marks, Iterable) and not isinstance(marks, str) else (marks,)
    read: list[Mark] = []
    for mark in given:
        if not isinstance(mark, Mark):
            raise InputError("a mark is written Mark(role=…, square=…)", given=mark)
        read.append(mark)
    return tuple(read)


# -- drawing ---------------------------------------------------------------

Ink = dict[str, Any]
"""A shape and its measures, as ``ink.json`` has them."""

Paths = Iterator[str]
"""What a shape is made of; each is inked on a rim of its own."""

_FROM_BELOW = sorted(ROLES, key=lambda role: INK["marks"][role]["layer"])
_UNDER = tuple(role for role in _FROM_BELOW if INK["marks"][role]["layer"] < 0)
_OVER = tuple(role for role in _FROM_BELOW if INK["marks"][role]["layer"] > 0)


def under_pieces(pen: Pen, marks: Iterable[Mark]) -> str:
    """Return the marks that lie under the pieces: dots, dashed strokes, ticks, rings.

    A dashed stroke passes behind the pieces that it is seen through, so that
    a pinned piece stays whole.
    """
    return _of_roles(pen, marks, _UNDER)


def over_pieces(pen: Pen, marks: Iterable[Mark]) -> str:
    """Return the marks that lie over the pieces: the lines of force."""
    return _of_roles(pen, marks, _OVER)


def event(pen: Pen, name: str, square: chess.Square) -> str:
    """Return what the position says of a square: ``"last"`` of the last move, or a ``"check"``."""
    return _inked(pen, name, INK["events"][name], square)


def _of_roles(pen: Pen, marks: Iterable[Mark], roles: tuple[str, ...]) -> str:
    given = list(marks)
    return "".join(_mark(pen, mark) for role in roles for mark in given if mark.role == role)


def _mark(pen: Pen, mark: Mark) -> str:
    squares = [chess.parse_square(name) for name in (mark.square, mark.to) if name]
    return _inked(pen, mark.role, INK["marks"][mark.role], *squares)


def _inked(pen: Pen, name: str, ink: Ink, *squares: chess.Square) -> str:
    """Ink a shape: of each path first the rim of paper that lifts it off the hatch, then itself."""
    rim = pen.paint(stroke="paper", width=ink["width"] + 2 * INK["casing"])
    line = pen.paint(stroke=name, width=ink["width"], dash=ink.get("dash"))
    paths = _SHAPES[ink["shape"]](pen, ink, *squares)
    return "".join(f'<path d="{path}"{rim}/><path d="{path}"{line}/>' for path in paths)


def _ring(pen: Pen, ink: Ink, square: chess.Square) -> Paths:
    x, y = pen.middle(square)
    for radius in (ink["radius"], ink.get("inner")):
        if radius is not None:
            across = number(2 * radius)
            arc = f"a{number(radius)} {number(radius)} 0 1 1"
            yield f"M{number(x - radius)} {number(y)}{arc} {across} 0{arc} -{across} 0Z"


def _ticks(pen: Pen, ink: Ink, square: chess.Square) -> Paths:
    x, y = pen.corner(square)
    near, far, arm = ink["inset"], INK["board"]["square"] - ink["inset"], ink["arm"]
    yield "".join(
        f"M{number(x + across)} {number(y + down + arm * down_way)}"
        f"v{number(-arm * down_way)}h{number(arm * across_way)}"
        for across, down, across_way, down_way in (
            (near, near, 1, 1),
            (far, near, -1, 1),
            (far, far, -1, -1),
            (near, far, 1, -1),
        )
    )


def _outline(pen: Pen, ink: Ink, square: chess.Square) -> Paths:
    x, y = pen.corner(square)
    side = number(INK["board"]["square"] - 2 * ink["inset"])
    yield f"M{number(x + ink['inset'])} {number(y + ink['inset'])}h{side}v{side}h-{side}Z"


def _underline(pen: Pen, ink: Ink, square: chess.Square) -> Paths:
    x, y = pen.corner(square)
    length = number(INK["board"]["square"] - 2 * ink["inset"])
    yield f"M{number(x + ink['inset'])} {number(y + ink['drop'])}h{length}"


def _stroke(pen: Pen, ink: Ink, square: chess.Square, to: chess.Square) -> Paths:
    """Draw from square to square, and at the end a head where the ink has one."""
    x1, y1 = pen.middle(square)
    x2, y2 = pen.middle(to)
    length = math.sqrt((x2 - x1) * (x2 - x1) + (y2 - y1) * (y2 - y1))
    along, down = (x2 - x1) / length, (y2 - y1) / length
    tip_x, tip_y = x2 - along * ink["stop"], y2 - down * ink["stop"]
    start = f"{number(x1 + along * ink['start'])} {number(y1 + down * ink['start'])}"
    path = f"M{start}L{number(tip_x)} {number(tip_y)}"
    if "head" in ink:
        back_x, back_y = tip_x - along * ink["head"], tip_y - down * ink["head"]
        aside_x, aside_y = -down * ink["spread"], along * ink["spread"]
        path += (
            f"M{number(back_x + aside_x)} {number(back_y + aside_y)}"
            f"L{number(tip_x)} {number(tip_y)}"
            f"L{number(back_x - aside_x)} {number(back_y - aside_y)}"
        )
    yield path


_SHAPES: dict[str, Callable[..., Paths]] = {
    "ring": _ring,
    "ticks": _ticks,
    "outline": _outline,
    "underline": _underline,
    "stroke": _stroke,
}
