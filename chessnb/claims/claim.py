"""A claim: a statement about a position that holds, or an error that says why not.

Every function of :mod:`chessnb.claims` returns a :class:`Claim` with its
evidence, or raises

- :class:`FalseClaim`, with what contradicts it, on a diagram;
- :class:`UnprovedClaim`, where the budget does not decide it.

The record of a claim (what nbval compares; for the errors, their message) says
what was claimed and what became of it; lines of play are evidence, and may be
written better one day.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace

import chess

from chessnb.board.naming import to_move
from chessnb.claims.evidence_lines import ProofLines
from chessnb.claims.sentences import sentence_of
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.errors import ChessnbError
from chessnb.findings import Finding, Record, content, sealed, typeset
from chessnb.findings.record_fields import place_of
from chessnb.notation import write_line
from chessnb.proof import Proof


@dataclass(frozen=True, kw_only=True)
class Claim(Finding):
    """A claim that holds.

    Attributes
    ----------
    said : Record
        What is claimed, and how it is known.
    fen : str
        The position.
    evidence : iterable of str
        Sentences and lines that show it; those of a proof are written when they are read.
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

    said: Record
    fen: str
    evidence: tuple[str, ...] | ProofLines = ()
    caution: str = ""
    marks: tuple[Mark, ...] = ()
    shown: str = ""
    last_move: str | None = None
    proof: Proof | None = None

    @property
    def record(self) -> Record:
        """What is claimed, and how it is known."""
        return self.said

    @property
    def words(self) -> str:
        """What is claimed, as a sentence without its full stop."""
        return sentence_of(self.said, chess.Board(self.fen))

    @property
    def picture(self) -> Diagram:
        """The position, marked."""
        last = None if self.last_move is None else chess.Move.from_uci(self.last_move)
        return diagram(self.shown or self.fen, marks=self.marks, last_move=last)

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The claim, its evidence, and what it leaves out."""
        sentences = (f"{_begun(self.words)}.", *self.evidence)
        return (*sentences, self.caution) if self.caution else sentences


class ClaimError(ChessnbError, ValueError):
    """A claim was put in a way that has no meaning; nothing is said about the position."""


class _Refused(ChessnbError):  # noqa: N818
    """A claim that cannot be shown as one; it is told with a diagram."""

    opening = ""
    status = ""

    def __init__(
        self,
        claimed: Record,
        reason: str,
        *,
        board: chess.Board,
        line: Sequence[chess.Move] = (),
        marks: Sequence[Mark] = (),
    ) -> None:
        self.record = replace(claimed, status=self.status)
        super().__init__(str(self.record))
        self.claim = sentence_of(self.record, board)
        self.reason = reason
        self.fen = board.fen()
        # Outside a notebook Python shows the message and, under it, this.
        self.add_note(f"“{self.claim}” {self.opening}: {reason} [{self.fen}]")
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
        card = typeset(content(self.caption, self.shown, picture=self.picture))
        return sealed(str(self.record), card)

    def _render_traceback_(self) -> list[str]:
        """Show the diagram, and return the sentence (an IPython hook)."""
        ipython = sys.modules.get("IPython")
        shell = None if ipython is None else ipython.get_ipython()
        if getattr(shell, "kernel", None) is not None and not self._is_drawn:
            self._is_drawn = True  # kernels may ask twice, and one diagram is enough
            from IPython.display import publish_display_data

            # The sentence stands under it, as the error; the card's seal covers both.
            plain, shown = str(self.record), typeset(content(self.caption, picture=self.picture))
            publish_display_data(  # type: ignore[no-untyped-call]
                {"text/plain": plain, "text/html": sealed(plain, shown, beside=self.shown)}
            )
        return [self.shown]

    @property
    def shown(self) -> str:
        """What a notebook shows: the claim and the reason, in one sentence."""
        return f"“{self.claim}” {self.opening}: {self.reason}."


class FalseClaim(_Refused):
    """A claim is not true of the position.

    Its message is the record.

    Attributes
    ----------
    record : Record
        What was claimed, and that it is wrong.
    claim : str
        The same as a sentence without its full stop.
    reason : str
        What contradicts it, in words.
    fen : str
        The position.
    moves : tuple of chess.Move
        Moves from the position that show it, where moves can.
    caption : str
        The words under the diagram: which position it is.
    """

    opening = "is wrong"
    status = "wrong"


class UnprovedClaim(_Refused):
    """A claim is not proved within the budget: it may be true or false."""

    opening = "is not proved"
    status = "not proved"


def said(
    board: chess.Board,
    kind: str,
    *fields: str,
    move: chess.Move | None = None,
    status: str = "rules",
) -> Record:
    """Return the record of a claim about a position, or about a move in it."""
    return Record(place=place_of(board, move), kind=kind, fields=fields, status=status)


def _begun(words: str) -> str:
    """Begin a sentence with a capital, unless a move stands there as it was typed."""
    first = words.split(" ", 1)[0]
    return words if any(map(str.isdigit, first)) else words[0].upper() + words[1:]


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
