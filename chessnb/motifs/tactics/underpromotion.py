"""Underpromotion: a pawn becomes less than a queen, because a queen would win less.

What counts
    A pawn is promoted to a rook, bishop or knight; the move wins, and the same
    move with a queen would not.

What does not
    A promotion to a lesser piece where a queen does as well, or where nothing
    is won.

What shows it
    The promoted piece and the square that the pawn left.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.squares import name
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, ring
from chessnb.motifs.motif import Example, Motif

NAME = "underpromotion"


def find(case: Case) -> Iterator[Tag]:
    """Find a promotion to another piece than a queen that a queen would spoil."""
    if case.proof is None or case.move.promotion in (None, chess.QUEEN):
        return
    queen = chess.Move(case.move.from_square, case.move.to_square, chess.QUEEN)
    if case.wins_at_once(queen):
        return
    kind = chess.piece_name(case.move.promotion or chess.QUEEN)
    yield case.tag(
        NAME,
        sound=True,
        actor=case.move.to_square,
        squares=(case.move.from_square,),
        sentence=f"The pawn becomes a {kind} on {name(case.move.to_square)}: a queen wins less",
        marks=(ring(case.move.to_square),),
    )


MOTIF = Motif(
    name=NAME,
    rank=280,
    definition="A pawn becomes a rook, bishop or knight, where a queen would win less.",
    find=find,
    examples=(
        Example(
            fen="8/3P1k2/4q3/8/8/8/6PP/7K w - - 0 1",
            moves="d8=N+ Ke7 Nxe6",
            why="the knight forks; a queen would lose to nothing better",
        ),
        Example(
            fen="8/3P1k2/8/2q5/8/8/6PP/7K w - - 0 1",
            moves="d8=N+ Ke7",
            shows=False,
            why="the knight forks nothing",
        ),
    ),
)
