"""Sacrifice: material is offered, and more comes back.

What counts
    After the move a piece of ours can be taken at a net loss to us: the one
    that moved, or another that the move leaves or uncovers.  What the move
    takes itself is counted against it.  Mate, or more material, follows by
    force against every way of taking and of declining.

What does not
    A piece that hung before as it hangs now.  A trade.  A promoted pawn that
    is taken: it is no offer.  An offer for which nothing is proved to come
    back.

What shows it
    What is offered, and each piece that may take it.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import counted
from chessnb.board.turns import as_if_to_move
from chessnb.motifs.case import Case, points_of
from chessnb.motifs.evidence import Tag, The, force, ring
from chessnb.motifs.motif import Example, Motif

NAME = "sacrifice"


def find(case: Case) -> Iterator[Tag]:
    """Find a move that gives up material which may be taken, and wins all the same."""
    if case.proof is None or case.move.promotion:
        return
    offered, target = _offer(case)
    if offered <= 0:
        return
    points = counted(offered, "point")
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


def _offer(case: Case) -> tuple[int, chess.Square]:
    """Return how many points the move offers, less what it takes, and on which square.

    The piece that moved, or another that it has left: one that hung before is no offer.
    """
    hung = as_if_to_move(case.before, not case.side)
    offers = []
    for square in chess.SquareSet(case.after.occupied_co[case.side]):
        offered = gain_on(case.after, square)
        if offered and square != case.move.to_square and hung.is_valid():
            offered -= gain_on(hung, square)
        offers.append((offered, square == case.move.to_square, square))
    offered, _, square = max(offers, key=lambda one: one[:2])
    return offered - points_of(case.captured), square


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
