"""Zugzwang: the side to move would keep everything if it could pass, and may not.

What counts
    After a quiet move, no capture and no check, every reply loses; the same
    loss is searched for and not found where the other side could pass.

What does not
    A threat that would be carried out after a pass as well.  A check or a
    capture, which gives the other side something else to answer.

What shows it
    The pieces that may move, each to its side's harm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import chess

from chessnb.board.turns import after_pass
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, dots, ring
from chessnb.motifs.motif import Example, Motif
from chessnb.proof import Gain, Mate
from chessnb.proof.goals import after

NAME = "zugzwang"


def find(case: Case) -> Iterator[Tag]:
    """Find a quiet move after which every reply loses, and a pass would not."""
    if case.proof is None or case.in_hand or case.after.is_check() or case.captured is not None:
        return
    passed = after_pass(case.after)
    if passed is None or not passed.is_valid():
        return
    goal = case.proof.goal
    assert isinstance(goal, Mate | Gain)
    left = goal.within - 1
    if left < 1:
        return
    shorter = after(replace(goal, within=left), case.move, chess.Move.null())
    if case.ask(passed, shorter).status != "false":
        return
    movers = sorted({move.from_square for move in case.after.legal_moves})
    yield case.tag(
        NAME,
        sound=True,
        actor=case.move.to_square,
        targets=tuple(movers),
        sentence=f"{case.them} has to move, and every move loses what a pass would keep",
        marks=(ring(case.move.to_square), *(dots(square) for square in movers)),
    )


MOTIF = Motif(
    name=NAME,
    rank=310,
    definition=(
        "Every legal move makes things worse than passing would: nothing is proved if the side "
        "could pass, and the loss is proved after each of its moves."
    ),
    find=find,
    examples=(
        Example(
            fen="kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1",
            moves="Ra6 bxa6 b7#",
            why="every move of Black's opens a way to mate",
        ),
        Example(
            fen="k1K5/pp6/1P6/8/8/8/6b1/R7 w - - 0 1",
            moves="Ra6 Bh3+",
            shows=False,
            why="the bishop has moves to spare",
        ),
    ),
)
