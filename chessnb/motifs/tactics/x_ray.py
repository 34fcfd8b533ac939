"""X-ray: a line piece defends a square through an enemy piece that stands between.

What counts
    We move to a square that a line piece of ours sees only through one enemy
    piece.  That piece takes there, and so opens the line: our line piece takes
    back, and the move wins.

What does not
    A line with more than one piece between.  A square that we defend anyway.

What shows it
    The line piece, the square, and the enemy piece between.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import is_slider, moves_along
from chessnb.board.squares import name
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dashes, ring, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "x-ray"


def find(case: Case) -> Iterator[Tag]:
    """Find a move to a square that a line piece of ours defends through an enemy piece."""
    square = case.move.to_square
    for reply in case.critical:
        helper = _helper(case, reply)
        if helper is None:
            continue
        through = reply.move.from_square
        yield case.tag(
            NAME,
            sound=True,
            actor=helper,
            targets=(square,),
            squares=(through,),
            sentence=(
                f"{The(case.after, helper)} defends {name(square)} through "
                f"{the(case.after, through)}: when that takes, it takes back"
            ),
            marks=(ring(helper), dashes(helper, square), ticks(through)),
        )


def _helper(case: Case, reply: Reply) -> chess.Square | None:
    """Return our line piece that takes back through the piece that took, if one does."""
    square = case.move.to_square
    if reply.move.to_square != square or reply.answer is None:
        return None
    helper = reply.answer.from_square
    if reply.answer.to_square != square or helper == square:
        return None
    if not is_slider(case.after, helper) or not moves_along(case.after, helper, square):
        return None
    between = chess.SquareSet.between(helper, square) & case.after.occupied
    return helper if between == chess.SquareSet([reply.move.from_square]) else None


MOTIF = Motif(
    name=NAME,
    rank=200,
    definition="A line piece defends a square through an enemy piece that stands between.",
    find=find,
    examples=(
        Example(
            fen="6k1/5ppp/8/Q2q4/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Qd8+ Qxd8 Rxd8#",
            why="the rook defends d8 through the queen",
        ),
        Example(
            fen="6k1/5pp1/7p/Q2q4/8/8/5PPP/5RK1 w - - 0 1",
            moves="Qd8+ Qxd8",
            shows=False,
            why="nothing stands behind the queen on the file",
        ),
    ),
)
