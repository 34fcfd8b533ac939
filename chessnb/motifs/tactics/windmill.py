"""Windmill: check and discovered check by turns, and each turn takes something.

What counts
    A piece goes to and fro with check, at least three times in all, and twice
    it uncovers the check of a piece behind it; something is taken on the way.
    The check by which the piece behind came there may begin it.  Where nothing
    is proved to be won so soon, it counts as it was played.

What does not
    One discovered check.  Checks by two pieces that take nothing: that may be
    a perpetual check.

What shows it
    Both pieces, and what is taken.
"""

from __future__ import annotations

from collections.abc import Iterator

from chessnb.board.naming import listed
from chessnb.motifs.case import Case
from chessnb.motifs.checks_in_turn import checks_in_turn
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "windmill"


def find(case: Case) -> Iterator[Tag]:
    """Find checks and discovered checks by two pieces in turn that take on the way."""
    king = case.after.king(not case.side)
    turns = checks_in_turn(case)
    if king is None or turns is None:
        return
    yield case.tag(
        NAME,
        sound=True,
        as_played=True,
        plies=turns.plies,
        actor=case.move.to_square,
        targets=(turns.behind,) if turns.behind != case.move.to_square else (turns.mover,),
        squares=(case.move.from_square,),
        sentence=(
            f"{The(case.after, turns.behind)} and {the(case.after, turns.mover)} check in "
            f"turn and take {listed(turns.taken)} on the way"
        ),
        marks=(
            ring(turns.behind),
            ring(turns.mover),
            force(turns.behind, king),
            ticks(king),
        ),
    )


MOTIF = Motif(
    name=NAME,
    rank=270,
    definition=(
        "Check and discovered check by two pieces in turn, again and again, with something taken "
        "on the way."
    ),
    find=find,
    proving="line",
    examples=(
        Example(
            fen="r6k/pb3pRp/5B2/8/8/8/5PPP/6K1 w - - 0 1",
            moves="Rxf7+ Kg8 Rg7+ Kh8 Rxb7+ Kg8",
            why="the rook takes a pawn and a bishop, and the king goes to and fro",
        ),
        Example(
            fen="b6k/6Rp/5B2/8/8/8/5PPP/6K1 w - - 0 1",
            moves="Ra7+ Kg8 Rxa8+",
            shows=False,
            why="one discovered check, and the rook does not come back",
        ),
    ),
)
