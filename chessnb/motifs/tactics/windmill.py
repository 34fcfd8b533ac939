"""Windmill: check and discovered check by turns, and each turn takes something.

What counts
    The move opens the line of a piece behind it with check.  In the line that
    follows the same piece goes on to move with check, to and fro, at least
    three times in all; something is taken on the way, and the move wins.

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
from chessnb.motifs.discovered_lines import opened
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "windmill"


def find(case: Case) -> Iterator[Tag]:
    """Find checks and discovered checks by two pieces in turn that take on the way."""
    king = case.after.king(not case.side)
    behind = [piece for piece, target in opened(case) if target == king]
    if king is None or not behind or case.proof is None:
        return
    turns, taken = _turns(case)
    if turns < 3 or not taken:
        return
    mover = case.move.to_square
    yield case.tag(
        NAME,
        sound=True,
        actor=mover,
        targets=(behind[0],),
        squares=(case.move.from_square,),
        sentence=(
            f"{The(case.after, behind[0])} and {the(case.after, mover)} check in "
            f"turn and take {listed(taken)} on the way"
        ),
        marks=(ring(behind[0]), ring(mover), force(behind[0], king), ticks(king)),
    )


def _turns(case: Case) -> tuple[int, list[str]]:
    """Return how often the piece moves with check, one move after the other, and what it takes."""
    mover, turns = case.move.to_square, 1
    taken = [the(case.before, mover)] if case.captured is not None else []
    board = case.after.copy(stack=False)
    for move in case.line or case.shown[1:]:
        if board.turn == case.side:
            if move.from_square != mover or not board.gives_check(move):
                break
            if board.is_capture(move):
                taken.append(the(board, move.to_square))
            mover, turns = move.to_square, turns + 1
        board.push(move)
    return turns, taken


MOTIF = Motif(
    name=NAME,
    rank=270,
    definition=(
        "Check and discovered check by two pieces in turn, again and again, with something taken "
        "on the way."
    ),
    find=find,
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
