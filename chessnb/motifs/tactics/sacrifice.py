"""Sacrifice: material is offered, and more comes back.

What counts
    After the move a piece of ours can be taken at a net loss to us: the one
    that moved, or another that the move leaves or uncovers.  What the move
    takes itself is counted against it.  Mate, or more material, follows by
    force against every way of taking and of declining.

What does not
    A piece that hung before as it hangs now: it is told at the first move that
    leaves it, and not at each quiet move after that.  A pawn that is left.  A piece that is lost
    wherever it goes.  What the king leaves on a walk.  A trade.  A promoted pawn that
    is taken: it is no offer.  An offer for which nothing is proved to come
    back.

What shows it
    What is offered, and each piece that may take it.
"""

from __future__ import annotations

from collections.abc import Iterator

from chessnb.board.naming import counted
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring
from chessnb.motifs.motif import Example, Motif
from chessnb.verdicts.offer import offer_of

NAME = "sacrifice"


def find(case: Case) -> Iterator[Tag]:
    """Find a move that gives up material which may be taken, and wins all the same."""
    if case.proof is None or case.move.promotion or _is_king_walk(case):
        return
    offer = offer_of(case.before, case.move)
    if offer.points <= 0:
        return
    target, points = offer.square, counted(offer.points, "point")
    takers = [move for move in case.after.legal_moves if move.to_square == target]
    yield case.tag(
        NAME,
        sound=True,
        actor=case.move.to_square,
        targets=(target,),
        squares=tuple(move.from_square for move in takers),
        sentence=f"{The(case.after, target)} can be taken: {case.us} offers {points}",
        marks=(ring(target), *(force(move.from_square, target) for move in takers)),
    )


def _is_king_walk(case: Case) -> bool:
    """Tell whether the king goes a step: what it has to leave it does not offer."""
    king = case.before.king(case.side)
    return case.move.from_square == king and not case.before.is_castling(case.move)


MOTIF = Motif(
    name=NAME,
    rank=250,
    definition=(
        "The move gives up material that may be taken, and mate or more material comes back "
        "whether it is taken or not."
    ),
    find=find,
    examples=(
        Example(
            fen="r6k/6pp/7N/8/2Q5/8/6PP/6K1 w - - 0 1",
            moves="Qg8+ Rxg8 Nf7#",
            why="the queen is given for mate",
        ),
        Example(
            fen="5r1k/6pp/8/6N1/2Q5/8/6PP/6K1 w - - 0 1",
            moves="Qg8+ Kxg8",
            shows=False,
            why="the knight does not defend g8: the king takes the queen",
        ),
    ),
)
