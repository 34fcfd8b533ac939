"""Still diagrams: a position as a value that shows itself."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import chess

from chessnb.board.position import Position, read_position
from chessnb.diagrams.alt_text import spoken
from chessnb.diagrams.marks import Mark
from chessnb.diagrams.pen import THEMES, Pen, Theme
from chessnb.diagrams.svg import board_svg, escaped
from chessnb.errors import PositionError, ended

SMALLEST, LARGEST = 160, 900
"""Widths between which a diagram was looked at and found good, in CSS pixels."""


@dataclass(frozen=True, kw_only=True)
class Diagram:
    """A position on paper, with what was drawn on it.

    Parameters
    ----------
    fen : str
        The position; also one that could not be played on.
    turned : bool
        Black's side at the bottom.
    last_move : str or None
        The move that led here, in UCI, to be underlined.
    marks : sequence of Mark
        What is drawn on it.
    caption : str
        What stands under it.  Plain text; it is escaped.

    Raises
    ------
    PositionError
        If the FEN cannot be read, or the last move is not one.

    Examples
    --------
    >>> Diagram(fen="8/8/8/8/8/8/8/4K2k b - -", last_move="e2e1").words
    'Black to move. White: king e1. Black: king h1. Last move: king from e2 to e1.'
    """

    fen: str
    turned: bool = False
    last_move: str | None = None
    marks: tuple[Mark, ...] = ()
    caption: str = ""

    def __post_init__(self) -> None:
        # One position, one FEN: what is equal must also compare equal.
        object.__setattr__(self, "fen", read_position(self.fen, legal=False).fen())
        object.__setattr__(self, "marks", tuple(self.marks))
        for mark in self.marks:
            if not isinstance(mark, Mark):
                raise PositionError("a mark is written Mark(role=…, square=…)", given=repr(mark))
        self._move()

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def words(self) -> str:
        """The diagram in spoken words, for those who do not see it."""
        return spoken(self.board, turned=self.turned, last_move=self._move(), marks=self.marks)

    def svg(self, *, size: int = 360, theme: Theme = "auto") -> str:
        """Return the diagram as one SVG element; the same bytes every time.

        Parameters
        ----------
        size : int
            Width and height in CSS pixels, from 160 to 900.
        theme : {"auto", "light", "dark", "print"}
            ``"auto"`` is light, and dark where the page around it is dark
            (``prefers-color-scheme``); ``"print"`` is black and white.

        Raises
        ------
        ValueError
            If the size is out of bounds or the theme unknown.

        Examples
        --------
        >>> Diagram(fen="8/8/8/8/8/8/8/4K2k w - - 0 1").svg(size=280)[:67]
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" width="280" heig'
        """
        if size not in range(SMALLEST, LARGEST + 1):
            raise ValueError(
                f"a diagram is {SMALLEST} to {LARGEST} pixels wide, and size={size!r} is not"
            )
        if theme not in THEMES:
            raise ValueError(f"theme={theme!r} is not one of {', '.join(THEMES)}")
        return board_svg(
            self.board,
            pen=Pen(theme=theme, turned=self.turned),
            size=size,
            title=self.caption or "Chess diagram",
            words=self.words,
            last_move=self._move(),
            marks=self.marks,
        )

    def img(self, *, size: int = 360) -> str:
        """Return an HTML image of the diagram that needs no other file.

        Unlike an inline SVG it survives in a notebook that is not trusted,
        and its colours follow the page: browsers hand the colour scheme of
        the element that holds it to an SVG image.

        Parameters
        ----------
        size : int
            Width and height in CSS pixels, from 160 to 900.

        Examples
        --------
        >>> Diagram(fen="8/8/8/8/8/8/8/4K2k w - - 0 1").img()[:36]
        "<img src='data:image/svg+xml;base64,"
        """
        data = base64.b64encode(self.svg(size=size).encode()).decode("ascii")
        return (
            f"<img src='data:image/svg+xml;base64,{data}'"
            f" alt='{escaped(self._spoken())}' width='{size}' height='{size}'>"
        )

    def _spoken(self) -> str:
        """Return the caption and the words; whose move it is only once."""
        if not self.caption:
            return self.words
        turn, _, men = self.words.partition(". ")
        return f"{ended(self.caption)} {men if turn in self.caption else self.words}"

    def _repr_html_(self) -> str:
        """Return the image and its caption, between the marks of a lesson's output."""
        words = f"<p class='tex2jax_ignore'>{escaped(self.caption)}</p>" if self.caption else ""
        return f"<div class='chessnb'>{self.img()}{words}<!--/chessnb--></div>"

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        return {"text/plain": f"diagram: {self.fen}", "text/html": self._repr_html_()}

    def _move(self) -> chess.Move | None:
        if self.last_move is None:
            return None
        try:
            move = chess.Move.from_uci(self.last_move)
        except ValueError:
            move = chess.Move.null()
        if not move or move.drop is not None:
            raise PositionError(
                "the last move is written by its two squares, such as 'g1f3'",
                given=repr(self.last_move),
            )
        return move


def diagram(
    position: Position,
    *,
    turned: bool = False,
    last_move: chess.Move | None = None,
    marks: Iterable[Mark] = (),
    caption: str = "",
) -> Diagram:
    """Set a position as a diagram.

    Parameters
    ----------
    position : chess.Board, moment or str
        A board, a moment of a lesson, or a FEN; also a set-up that could not
        be played on.
    turned : bool
        Black's side at the bottom.
    last_move : chess.Move or None
        The move to underline.  It is not guessed from the board's history,
        and a pass (the null move) is no move.
    marks : iterable of Mark
        What to draw on it.
    caption : str
        What to set under it.

    Raises
    ------
    PositionError
        If `position` is not one.

    Examples
    --------
    >>> diagram("start", last_move=None).fen
    'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1'
    """
    return Diagram(
        fen=read_position(position, legal=False).fen(),
        turned=turned,
        last_move=last_move.uci() if last_move else None,
        marks=tuple(marks),
        caption=caption,
    )
