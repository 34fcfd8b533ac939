"""Still diagrams: a position as a value that shows itself."""

from __future__ import annotations

import base64
import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

import chess

from chessnb.board.position import Position, read_position
from chessnb.diagrams.alt_text import spoken
from chessnb.diagrams.ink import SERIF
from chessnb.diagrams.marks import Mark, read_marks
from chessnb.diagrams.pen import THEMES, Pen, Theme
from chessnb.diagrams.svg import board_svg, escaped
from chessnb.errors import InputError, ended, listed
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move

_TWO_SQUARES = re.compile(r"([a-h][1-8]){2}[qrbn]?")

SMALLEST, LARGEST = 160, 900
"""Widths between which a diagram was looked at and found good, in CSS pixels."""


@dataclass(frozen=True, kw_only=True)
class Diagram:
    """A position on paper, with what was drawn on it.

    Parameters
    ----------
    fen : str
        The position, kept as a FEN; also one that could not be played on.
    turned : bool
        Black's side at the bottom.
    last_move : str, chess.Move or None
        The move that led here, to be underlined; kept in UCI.
    marks : sequence of Mark
        What is drawn on it.
    caption : str
        What stands under it.  Plain text; it is escaped.

    Raises
    ------
    PositionError
        If the FEN cannot be read.
    InputError
        If the last move or a mark is not one.

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
        object.__setattr__(self, "marks", read_marks(self.marks))
        last: object = self.last_move
        if isinstance(last, chess.Move):
            object.__setattr__(self, "last_move", last.uci() if last else None)
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
        InputError
            If the size is out of bounds or the theme unknown.

        Examples
        --------
        >>> Diagram(fen="8/8/8/8/8/8/8/4K2k w - - 0 1").svg(size=280)[:67]
        '<svg xmlns="http://www.w3.org/2000/svg" role="img" width="280" heig'
        """
        if size not in range(SMALLEST, LARGEST + 1):
            raise InputError(f"size is a width of {SMALLEST} to {LARGEST} pixels", given=size)
        if theme not in THEMES:
            raise InputError(f"a theme is {listed(map(repr, THEMES), joint='or')}", given=theme)
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
        turn, _, pieces = self.words.partition(". ")
        return f"{ended(self.caption)} {pieces if turn in self.caption else self.words}"

    def _repr_html_(self) -> str:
        """Return the image and its caption, between the marks of a lesson's output."""
        words = ""
        if self.caption:
            caption = escaped(self.caption)
            words = f"<p class='tex2jax_ignore' style='{SERIF}'>{caption}</p>"
        return f"<div class='chessnb'>{self.img()}{words}<!--/chessnb--></div>"

    def _repr_mimebundle_(self, **_: Any) -> dict[str, str]:
        return {"text/plain": f"diagram: {self.fen}", "text/html": self._repr_html_()}

    def _move(self) -> chess.Move | None:
        if self.last_move is None:
            return None
        if isinstance(self.last_move, str):
            with suppress(ValueError):
                move = chess.Move.from_uci(self.last_move)
                if move and move.drop is None:
                    return move
        raise InputError(
            "the last move is written by its two squares, such as 'g1f3'", given=self.last_move
        )


@checked
def diagram(
    position: Position,
    *,
    turned: bool = False,
    last_move: MoveLike | None = None,
    marks: Iterable[Mark] = (),
    caption: str = "",
) -> Diagram:
    """Set a position as a diagram.

    Parameters
    ----------
    position : chess.Board, Moment or str
        A board, a position of a lesson, or a FEN; also a set-up that could not
        be played on.
    turned : bool
        Black's side at the bottom.
    last_move : chess.Move, str or None
        The move to underline: by its two squares, or in any notation where the
        position knows the moves that led to it.  It is not guessed from them,
        and a pass (the null move) is no move.
    marks : iterable of Mark
        What to draw on it.
    caption : str
        What to set under it.

    Raises
    ------
    PositionError
        If `position` is not one.
    InputError, NotationError
        If `last_move` or a mark is not one.

    Examples
    --------
    >>> diagram("start", last_move=None).fen
    'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1'
    """
    board = read_position(position, legal=False)
    return Diagram(
        fen=board.fen(),
        turned=turned,
        last_move=_last_move(board, last_move),
        marks=read_marks(marks),
        caption=caption,
    )


def _last_move(board: chess.Board, move: MoveLike | None) -> str | None:
    """Return the move that led to a position in UCI; read in the position before, if that is known.

    What else it may be is left to :class:`Diagram`, which refuses it.
    """
    if isinstance(move, chess.Move):
        return move.uci() if move else None
    if move is None or not board.move_stack or _TWO_SQUARES.fullmatch(str(move)):
        return move
    before = board.copy()
    before.pop()
    return read_move(before, move).uci()
