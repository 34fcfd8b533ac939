"""Marks: pen strokes on a diagram, whose shape tells what they mean.

============= ============================================= =================
role          meaning                                       shape
============= ============================================= =================
``"actor"``   the piece that acts                           a ring
``"target"``  what it aims at                               four corner ticks
``"force"``   a line of force                               a solid stroke
                                                            with an open head
``"blocked"`` a line that is blocked, pinned or seen        a dashed stroke
              through
``"lure"``    a square that was cleared, or that a piece    a dotted outline
              was lured to
============= ============================================= =================

The last move (a thin underline of its two squares) and a check (a double ring
round the king) are drawn from the position, not from marks.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal, get_args

import chess

from chessnb.board.squares import Square, read_square
from chessnb.diagrams.ink import INK, number
from chessnb.diagrams.pen import Pen
from chessnb.errors import InputError

Role = Literal["actor", "target", "force", "blocked", "lure"]
"""What a mark means."""

ROLES: tuple[Role, ...] = get_args(Role)
STROKES: tuple[Role, ...] = ("force", "blocked")
"""The roles that go from one square to another."""


@dataclass(frozen=True, kw_only=True)
class Mark:
    """One pen stroke on a diagram.

    Parameters
    ----------
    role : {"actor", "target", "force", "blocked", "lure"}
        What it means; the shape follows from it.
    square : str or chess.Square
        The square it is on, or where the stroke begins, such as ``"e4"``; kept
        as its name.
    to : str, chess.Square or None
        Where the stroke ends: needed for ``"force"`` and ``"blocked"``, and
        meaningless for the others.

    Raises
    ------
    InputError
        If the role or a square does not exist, a stroke has no end, or another
        mark has one.

    Examples
    --------
    >>> Mark(role="force", square="d5", to="c7")
    Mark(role='force', square='d5', to='c7')
    """

    role: Role
    square: str
    to: str | None = None

    def __post_init__(self) -> None:
        if self.role not in ROLES:
            raise InputError(f"a mark's role is one of {', '.join(ROLES)}", given=self.role)
        self._name_square("square", self.square)
        if self.role in STROKES:
            if self.to is None:
                raise InputError(
                    f"a mark of role {self.role!r} is a stroke: say where it ends, to=…",
                    given=self.to,
                )
            self._name_square("to", self.to)
            if self.to == self.square:
                raise InputError(
                    "a stroke needs two different squares", given=(self.square, self.to)
                )
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


def under_men(pen: Pen, marks: Iterable[Mark]) -> str:
    """Return the marks that lie under the men: dots, dashed strokes, ticks, rings.

    A dashed stroke passes behind the men that it is seen through, so that
    a pinned man stays whole.
    """
    return _of_roles(pen, marks, ("lure", "blocked", "target", "actor"))


def over_men(pen: Pen, marks: Iterable[Mark]) -> str:
    """Return the marks that lie over the men: the lines of force."""
    return _of_roles(pen, marks, ("force",))


def _of_roles(pen: Pen, marks: Iterable[Mark], roles: tuple[Role, ...]) -> str:
    given = list(marks)
    return "".join(
        _SHAPES[role](pen, mark) for role in roles for mark in given if mark.role == role
    )


def underline(pen: Pen, square: chess.Square) -> str:
    """Return the line under a square of the last move."""
    ink = INK["marks"]["last"]
    x, y = pen.corner(square)
    length = INK["board"]["square"] - 2 * ink["inset"]
    path = f"M{number(x + ink['inset'])} {number(y + ink['drop'])}h{number(length)}"
    return _stroke(pen, "last", path)


def double_ring(pen: Pen, square: chess.Square) -> str:
    """Return the two rings round a king in check."""
    ink = INK["marks"]["check"]
    return _circle(pen, "check", square, ink["radius"]) + _circle(
        pen, "check", square, ink["inner"]
    )


def _ring(pen: Pen, mark: Mark) -> str:
    radius = INK["marks"]["actor"]["radius"]
    return _circle(pen, "actor", chess.parse_square(mark.square), radius)


def _circle(pen: Pen, role: str, square: chess.Square, radius: float) -> str:
    x, y = pen.middle(square)
    across = number(2 * radius)
    arc = f"a{number(radius)} {number(radius)} 0 1 1"
    path = f"M{number(x - radius)} {number(y)}{arc} {across} 0{arc} -{across} 0Z"
    return _stroke(pen, role, path)


def _ticks(pen: Pen, mark: Mark) -> str:
    ink = INK["marks"]["target"]
    x, y = pen.corner(chess.parse_square(mark.square))
    near, far, arm = ink["inset"], INK["board"]["square"] - ink["inset"], ink["arm"]
    path = "".join(
        f"M{number(x + across)} {number(y + down + arm * down_way)}"
        f"v{number(-arm * down_way)}h{number(arm * across_way)}"
        for across, down, across_way, down_way in (
            (near, near, 1, 1),
            (far, near, -1, 1),
            (far, far, -1, -1),
            (near, far, 1, -1),
        )
    )
    return _stroke(pen, "target", path)


def _dots(pen: Pen, mark: Mark) -> str:
    ink = INK["marks"]["lure"]
    x, y = pen.corner(chess.parse_square(mark.square))
    side = number(INK["board"]["square"] - 2 * ink["inset"])
    path = f"M{number(x + ink['inset'])} {number(y + ink['inset'])}h{side}v{side}h-{side}Z"
    return _stroke(pen, "lure", path)


def _line(pen: Pen, mark: Mark) -> str:
    """Draw from square to square, and at the end of a line of force its head."""
    assert mark.to is not None  # Mark sees to it
    ink = INK["marks"][mark.role]
    x1, y1 = pen.middle(chess.parse_square(mark.square))
    x2, y2 = pen.middle(chess.parse_square(mark.to))
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
    return _stroke(pen, mark.role, path)


def _stroke(pen: Pen, role: str, path: str) -> str:
    """Ink a path: first the rim of paper that lifts it off the hatch, then itself."""
    ink = INK["marks"][role]
    rim = pen.paint(stroke="paper", width=ink["width"] + 2 * INK["marks"]["casing"])
    line = pen.paint(stroke=role, width=ink["width"], dash=ink.get("dash"))
    return f'<path d="{path}"{rim}/><path d="{path}"{line}/>'


_SHAPES: dict[Role, Callable[[Pen, Mark], str]] = {
    "actor": _ring,
    "target": _ticks,
    "force": _line,
    "blocked": _line,
    "lure": _dots,
}
