"""How a game stands, by the count of the pieces: is it still open.

Whoever is ahead by a piece for a while has won the game, for a class at least:
each further pawn is no news.  Counted is what each side can hold, so that an
exchange under way changes nothing.
"""

from __future__ import annotations

from statistics import median

import chess

from chessnb.board.points import balance
from chessnb.proof import TooWild, held

DECIDED = 3
"""Who is ahead by so many points for a while has won (common practice, no source)."""

LASTING = 3
"""The positions before so many moves show the lead."""

SETTLING = 5_000
"""Positions for working out what can be held; beyond, what stands on the board counts."""


def stands(board: chess.Board) -> int:
    """Return what the side to move is ahead by when exchanges under way are finished, in points."""
    try:
        return held(board, positions=SETTLING)
    except TooWild:
        return balance(board, board.turn)


class Standing:
    """How a game stands, looked at move by move."""

    def __init__(self) -> None:
        self.leads: list[int] = []
        self.turn = chess.WHITE

    def look(self, board: chess.Board) -> None:
        """Note how the game stands before a move."""
        lead = stands(board)
        self.turn = board.turn
        self.leads.append(lead if board.turn == chess.WHITE else -lead)

    @property
    def is_behind(self) -> bool:
        """Whether the side to move is behind by a piece."""
        lately = self.leads[-1:]
        return bool(lately) and (lately[0] if self.turn == chess.WHITE else -lately[0]) <= -DECIDED

    @property
    def is_decided(self) -> bool:
        """Whether the side to move is behind by a piece, or one side has been for some moves."""
        lately = self.leads[-LASTING:]
        if self.is_behind:
            return True
        return len(lately) == LASTING and abs(median(lately)) >= DECIDED
