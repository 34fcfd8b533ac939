"""Stalemate trick: the side that is behind gives its last movable piece away.

What counts
    The side that moves is at least two points behind, and its other pieces can
    hardly move.  It offers a piece, or checks with it, so that within three
    moves it is stalemated against every reply.

What does not
    A pawn or a king that still has a move.  A stalemate of the other side.  A
    side that has no need of a draw.

What shows it
    The piece that offers itself.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, ring
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.saved_draws import backed, is_behind, needs_no_draw
from chessnb.notation import write_move
from chessnb.proof import Stalemate

NAME = "stalemate trick"


def find(case: Case) -> Iterator[Tag]:
    """Find a move of the side that is behind that forces a stalemate."""
    if not is_behind(case) or case.proof is not None or not _is_shut_in(case):
        return
    if case.after.is_stalemate() or not (case.gives_check or case.gives_up):
        return
    mover = case.move.to_square
    found = case.tag(
        NAME,
        sound=False,
        actor=mover,
        squares=(mover,),
        sentence=(
            f"{The(case.after, mover)} offers itself on {name(mover)}: "
            f"{case.us} would have no move left"
        ),
        marks=(ring(mover),),
    )
    yield from backed(case, found, Stalemate(within=3))


def _is_shut_in(case: Case) -> bool:
    """Tell whether our pieces other than the one that moved can hardly move."""
    others = [move for move in case.before.legal_moves if move.from_square != case.move.from_square]
    return len(others) <= 3


def why_not(case: Case) -> str:
    """Say that a draw is not needed, or what may still be moved."""
    if not is_behind(case):
        return needs_no_draw(case)
    board = moved(case.after, list(case.line[:1]))
    free = sorted(board.legal_moves, key=chess.Move.uci)
    if board.turn != case.side or not free:
        return ""
    return f"it is no stalemate: {case.us} may still play {write_move(board, free[0])}"


MOTIF = Motif(
    name=NAME,
    rank=300,
    also=("stalemate",),
    definition="The side that is behind gives its last movable piece away, and is stalemated.",
    find=find,
    why_not=why_not,
    proving="draw",
    examples=(
        Example(
            fen="r5k1/5ppp/8/8/8/6q1/8/4R2K w - - 0 1",
            moves="Re8+ Rxe8",
            why="the king has no square, and the rook must be taken",
        ),
        Example(
            fen="r5k1/5ppp/8/8/8/6q1/P7/4R2K w - - 0 1",
            moves="Re8+ Rxe8",
            shows=False,
            why="the pawn on a2 still moves",
        ),
    ),
)
