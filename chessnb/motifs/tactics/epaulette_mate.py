"""Epaulette mate: a king is mated from in front, with its own pieces on both shoulders.

What counts
    One rook or queen checks along a rank or file, it is mate, and on the line
    across it pieces or pawns of the king's own side stand on both sides of it.
    The king is on the edge of the board, or the two pieces are rooks.

What does not
    A shoulder that is free, or that only our attack keeps from the king.

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
    line_of,
    mates_of_kind,
    own_pieces,
    what_is_free,
)
from chessnb.motifs.motif import Example, Motif

NAME = "epaulette mate"


def find(case: Case) -> Iterator[Tag]:
    """Find an epaulette mate at the end of the line."""
    return mates_of_kind(NAME, case, is_epaulette)


def is_epaulette(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether own pieces stand on both sides of a king that is mated across them."""
    for ranks in (True, False):
        edge = chess.square_rank(king) if ranks else chess.square_file(king)
        beside = around(king) & line_of(king, ranks=ranks)
        both = len(beside) == 2 and own_pieces(board, beside) == beside
        rooks = all(board.piece_type_at(square) == chess.ROOK for square in beside)
        if (edge in (0, 7) or rooks) and both and checked_along(board, king, ranks=not ranks):
            return True
    return False


MOTIF = Motif(
    name=NAME,
    rank=160,
    definition=(
        "A king on the edge is mated from the front while its own pieces on both sides take its "
        "ways out."
    ),
    find=find,
    why_not=what_is_free,
    examples=(
        Example(
            fen="3rkr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
            moves="Qe6#",
            why="the rooks take d8 and f8 from their king",
        ),
        Example(
            fen="4kr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
            moves="Qe6+ Kd8",
            shows=False,
            why="d8 is a way out",
        ),
    ),
)
