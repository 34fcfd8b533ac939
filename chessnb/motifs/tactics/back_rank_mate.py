"""Back-rank mate: a rook or queen mates along the first rank of a king that its own pieces shut in.

What counts
    The king stands on its own first rank, one rook or queen checks along that
    rank, it is mate, and pieces or pawns of the king's side hold most of the
    squares before it (in a corner one of the two is enough).

What does not
    A mate from in front, or along a file.  A king whose way out is barred
    mostly by our attacks: then its own pieces are not to blame.

What shows it
    The mating piece, the king, and the pieces that shut it in.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag
from chessnb.motifs.mating_pictures import (
    around,
    checked_along,
    mates_of_kind,
    own_pieces,
    what_is_free,
)
from chessnb.motifs.motif import Example, Motif

NAME = "back-rank mate"


def find(case: Case) -> Iterator[Tag]:
    """Find a back-rank mate at the end of the line."""
    return mates_of_kind(NAME, case, is_back_rank)


def is_back_rank(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a rook or queen mates along the king's own first rank, its pieces before it."""
    home = 0 if board.turn else 7
    if chess.square_rank(king) != home or not checked_along(board, king, ranks=True):
        return False
    front = around(king) & chess.SquareSet(chess.BB_RANKS[1 if board.turn else 6])
    held = len(own_pieces(board, front))
    return held * 2 > len(front) or (held * 2 == len(front) and len(front) == 2)


MOTIF = Motif(
    name=NAME,
    rank=130,
    definition=(
        "A rook or queen mates along the king's own first rank, and the king's own pieces and "
        "pawns before it leave it no way out."
    ),
    find=find,
    why_not=what_is_free,
    examples=(
        Example(
            fen="6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1",
            moves="Ra8#",
            why="the three pawns shut the king in",
        ),
        Example(
            fen="6k1/5pp1/7p/8/8/8/5PPP/R5K1 w - - 0 1",
            moves="Ra8+ Kh7",
            shows=False,
            why="h7 is a way out",
        ),
    ),
)
