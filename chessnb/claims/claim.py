"""A claim: a statement about a position that holds, or an error that says why not.

Every function of :mod:`chessnb.claims` returns a :class:`Claim` with its
evidence, or raises

- :class:`FalseClaim`, with what contradicts it, on a diagram;
- :class:`UnprovedClaim`, where the budget does not settle it.

The line of a claim (what nbval compares) says what was claimed and that it
holds; lines of play are evidence, and may be written better one day.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass

import chess

from chessnb.diagram import Diagram, Mark, diagram
from chessnb.errors import ChessnbError
from chessnb.finding import Finding, card
from chessnb.notation import write_line
from chessnb.notation.words import SIDES, to_move
from chessnb.proof import Proof


@dataclass(frozen=True, kw_only=True)
class Claim(Finding):
    """A claim that holds.

    Attributes
    ----------
    fen : str
        The position.
    text : str
        What is claimed, as a sentence without its full stop.
    evidence : tuple of str
        Sentences and lines that show it.
    caution : str
        What the claim leaves out; empty if it follows from the rules alone.
    marks : tuple of Mark
        What the diagram shows.
    shown : str
        The position of the diagram, where that is another.
    last_move : str or None
        UCI of the move that led to the position of the diagram.
    proof : Proof or None
        The proof that was replayed, where the claim needed a search.
    """

    fen: str
    text: str
    evidence: tuple[str, ...] = ()
    caution: str = ""
    marks: tuple[Mark, ...] = ()
    shown: str = ""
    last_move: str | None = None
    proof: Proof | None = None

    @property
    def line(self) -> str:
        """The claim, and how it is known."""
        return f"claim: {self.text} ({'proved' if self.proof else 'by the rules'})"

    @property
    def picture(self) -> Diagram:
        """The position, marked."""
        last = None if self.last_move is None else chess.Move.from_uci(self.last_move)
        return diagram(self.shown or self.fen, marks=self.marks, last_move=last)

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The claim, its evidence, and what it leaves out."""
        sentences = (f"{self.text[0].upper()}{self.text[1:]}.", *self.evidence)
        return (*sentences, self.caution) if self.caution else sentences


class ClaimError(ChessnbError, ValueError):
    """A claim was put in a way that has no meaning; nothing is said about the position."""


class _Refused(ChessnbError):  # noqa: N818
    """A claim that cannot be shown as one; it is told with a diagram."""

    opening = ""

    def __init__(
        self,
        claim: str,
        reason: str,
        *,
        board: chess.Board,
        line: Sequence[chess.Move] = (),
        marks: Sequence[Mark] = (),
    ) -> None:
        super().__init__(f"“{claim}” {self.opening}: {reason} [{board.fen()}]")
        self.claim = claim
        self.reason = reason
        self.fen = board.fen()
        self.moves = tuple(line)
        self.marks = tuple(marks)
        self.caption = _caption(board, self.moves)
        self._is_drawn = False

    @property
    def picture(self) -> Diagram:
        """The position after the moves that contradict the claim."""
        board = chess.Board(self.fen)
        for move in self.moves:
            board.push(move)
        last = self.moves[-1] if self.moves else None
        return diagram(board, marks=self.marks, last_move=last, caption=self.caption)

    def _repr_html_(self) -> str:
        return card(self.caption, self.shown, picture=self.picture)

    def _render_traceback_(self) -> list[str]:
        """Show the diagram, and return the sentence (an IPython hook)."""
        ipython = sys.modules.get("IPython")
        shell = None if ipython is None else ipython.get_ipython()
        if getattr(shell, "kernel", None) is not None and not self._is_drawn:
            self._is_drawn = True  # kernels may ask twice, and one diagram is enough
            from IPython.display import publish_display_data

            # The sentence stands under it, as the error.
            told = f"{self.opening.removeprefix('is ')}: {self.claim}"
            publish_display_data(  # type: ignore[no-untyped-call]
                {"text/plain": told, "text/html": card(self.caption, picture=self.picture)}
            )
        return [self.shown]

    @property
    def shown(self) -> str:
        """What a notebook shows: the claim and the reason, in one sentence."""
        return f"“{self.claim}” {self.opening}: {self.reason}."


class FalseClaim(_Refused):
    """A claim is not true of the position.

    Attributes
    ----------
    claim : str
        What was claimed.
    reason : str
        What contradicts it, in words.
    fen : str
        The position.
    moves : tuple of chess.Move
        Moves from the position that show it, where moves can.
    caption : str
        The words under the diagram: which position it is.
    """

    opening = "is not so"


class UnprovedClaim(_Refused):
    """A claim is not settled within the budget: it may be true or false."""

    opening = "is not settled"


def _caption(board: chess.Board, moves: Sequence[chess.Move]) -> str:
    """Say which position stands on the diagram: after which moves, and whose move it is."""
    origin = board.copy()
    before = [origin.pop()] if origin.move_stack and origin.peek() else []
    after = board.copy()
    for move in moves:
        after.push(move)
    played = [*before, *moves]
    start = f"After {write_line(origin, played)}" if played else f"Move {board.fullmove_number}"
    return f"{start}. {to_move(after)}"


def side_of(side: str | chess.Color | None, default: chess.Color) -> chess.Color:
    """Read the name of a side.

    Raises
    ------
    ClaimError
        If it is neither White nor Black.
    """
    if side is None:
        return default
    if isinstance(side, bool):
        return side
    names = {name.lower(): color for color, name in SIDES.items()}
    try:
        return names[side.strip().lower()]
    except (KeyError, AttributeError):
        raise ClaimError(f"a side is “White” or “Black”, not {side!r}") from None
