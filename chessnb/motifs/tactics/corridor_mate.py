"""Corridor mate: a king is mated along the only line that it has.

What counts
    One rook or queen checks from a distance along a rank or file, and it is
    mate.  Beside that line at least two squares next to the king, and at least
    half of those on the board, hold pieces or pawns of its own side.

What does not
    A check from the next square.  A mate that has a name of its own: on the
    king's first rank, or between its own pieces on both sides.

What shows it
    The mating piece, the king, and the pieces that wall it in.
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
from chessnb.motifs.tactics.back_rank_mate import is_back_rank
from chessnb.motifs.tactics.epaulette_mate import is_epaulette

NAME = "corridor mate"


def find(case: Case) -> Iterator[Tag]:
    """Find a corridor mate at the end of the line."""
    return mates_of_kind(NAME, case, is_corridor)


def is_corridor(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a rook or queen mates along a line that own pieces, or the edge, wall in."""
    for ranks in (True, False):
        if not checked_along(board, king, ranks=ranks) or _is_close(board, king):
            continue
        if is_back_rank(board, king) or is_epaulette(board, king):
            continue
        beside = around(king) - line_of(king, ranks=ranks)
        walls = own_pieces(board, beside)
        if len(walls) >= 2 and len(walls) * 2 >= len(beside):
            return True
    return False


def _is_close(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether the checking piece stands next to the king."""
    return chess.square_distance(king, next(iter(board.checkers()))) < 2


MOTIF = Motif(
    name=NAME,
    rank=150,
    definition=(
        "A rook or queen mates along a line on which the king stands as in a corridor, walled in "
        "by its own pieces and pawns or the edge of the board."
    ),
    find=find,
    why_not=what_is_free,
    examples=(
        Example(
            fen="6r1/6pk/6p1/8/8/8/6K1/R7 w - - 0 1",
            moves="Rh1#",
            why="its own rook and pawns wall the king in on the edge",
        ),
        Example(
            fen="6r1/6pk/8/8/8/8/6K1/R7 w - - 0 1",
            moves="Rh1+ Kg6",
            shows=False,
            why="g6 is a way out",
        ),
    ),
)
