"""Double-check mate: two pieces give check at once, and the king has nowhere to go.

What counts
    The line ends in mate, and two pieces give the mating check.

What does not
    A double check after which the king still has a square.  A double check
    on the way to a mate by one piece.

What shows it
    Both checking pieces, the king, and the pieces that shut it in.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag
from chessnb.motifs.mating_pictures import mates_of_kind
from chessnb.motifs.motif import Example, Motif

NAME = "double-check mate"


def find(case: Case) -> Iterator[Tag]:
    """Find a mate by double check at the end of the line."""
    return mates_of_kind(NAME, case, is_double)


def is_double(board: chess.Board, _king: chess.Square) -> bool:
    """Tell whether two pieces give the mating check."""
    return len(board.checkers()) > 1


MOTIF = Motif(
    name=NAME,
    rank=170,
    definition="Two pieces give check at once, and it is mate: no answer meets both.",
    find=find,
    examples=(
        Example(
            fen="3qkb2/3p1p2/8/8/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nf6#",
            why="no move meets both checks, and the king has no square",
        ),
        Example(
            fen="3qk3/3p1p2/8/8/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nf6+ Kf8",
            shows=False,
            why="f8 is a way out",
        ),
    ),
)
