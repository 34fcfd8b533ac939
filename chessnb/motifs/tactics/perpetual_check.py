"""Perpetual check: the side that is behind checks for ever, and saves the game.

What counts
    The side that moves is at least two points behind and gives a check that
    wins nothing; against every reply the checks go on without end.  This is
    proved as a map of positions that no reply leaves.

What does not
    Checks that the king walks out of.  A windmill, which takes on the way.  A
    side that has no need of a draw.

What shows it
    The checking piece and the king.
"""

from __future__ import annotations

from collections.abc import Iterator

from chessnb.motifs.case import Case
from chessnb.motifs.checks_in_turn import checks_in_turn
from chessnb.motifs.evidence import Tag, The, force, ring, the
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.saved_draws import backed, is_behind, needs_no_draw
from chessnb.notation import write_move
from chessnb.proof import Perpetual

NAME = "perpetual check"


def find(case: Case) -> Iterator[Tag]:
    """Find a check of the side that is behind after which the checks never end."""
    king = case.after.king(not case.side)
    if king is None or not is_behind(case) or not case.gives_check or case.proof is not None:
        return
    if checks_in_turn(case) is not None:
        return  # a windmill: material is won on the way, and who checks may stop
    mover = case.move.to_square
    found = case.tag(
        NAME,
        sound=False,
        actor=mover,
        targets=(king,),
        sentence=f"{The(case.after, mover)} checks {the(case.after, king)} for ever",
        marks=(ring(mover), force(mover, king)),
    )
    yield from backed(case, found, Perpetual())


def why_not(case: Case) -> str:
    """Say that there is no check, no need of a draw, or an end of the checks."""
    if not case.gives_check:
        return f"{case.san} gives no check"
    if not is_behind(case):
        return needs_no_draw(case)
    if case.line:
        return f"after {write_move(case.after, case.line[0])} the checks are not proved to go on"
    return ""


MOTIF = Motif(
    name=NAME,
    rank=290,
    also=("perpetual",),
    definition="The side that is behind checks without end: no reply escapes the checks.",
    find=find,
    why_not=why_not,
    proving="draw",
    examples=(
        Example(
            fen="6k1/6p1/8/7Q/8/8/qr4PP/7K w - - 0 1",
            moves="Qe8+ Kh7 Qh5+",
            why="White is far behind, and checks for ever",
        ),
        Example(
            fen="6k1/8/8/7Q/8/8/qr4PP/7K w - - 0 1",
            moves="Qe8+ Kg7",
            shows=False,
            why="the king walks out of the checks",
        ),
    ),
)
