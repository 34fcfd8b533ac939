"""Smothered mate: a knight mates a king that its own pieces leave no air.

What counts
    A knight alone gives the check, it is mate, and a piece or pawn of the
    king's own side stands on every square next to it.

What does not
    A knight's mate where one neighbouring square is empty and only attacked by
    us.  A knight that can be taken.

What shows it
    The knight, the king, and the pieces around it.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag
from chessnb.motifs.mating_pictures import around, mates_of_kind, own_pieces, what_is_free
from chessnb.motifs.motif import Example, Motif

NAME = "smothered mate"


def find(case: Case) -> Iterator[Tag]:
    """Find a smothered mate at the end of the line."""
    return mates_of_kind(NAME, case, is_smothered)


def is_smothered(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a knight mates a king that its own pieces shut in on every side."""
    checkers = list(board.checkers())
    knight = len(checkers) == 1 and board.piece_type_at(checkers[0]) == chess.KNIGHT
    return knight and own_pieces(board, around(king)) == around(king)


MOTIF = Motif(
    name=NAME,
    rank=140,
    telling=9,
    definition="A knight mates a king that its own pieces and pawns shut in on every side.",
    find=find,
    why_not=what_is_free,
    examples=(
        Example(
            fen="6rk/6pp/7N/8/8/8/6PP/6K1 w - - 0 1",
            moves="Nf7#",
            why="the rook and the two pawns shut the king in",
        ),
        Example(
            fen="5r1k/6pp/7N/8/8/8/6PP/6K1 w - - 0 1",
            moves="Nf7+ Rxf7",
            shows=False,
            why="the rook takes the knight",
        ),
    ),
)
