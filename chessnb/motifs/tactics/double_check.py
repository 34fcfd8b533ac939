"""Double check: two pieces give check at once, so that only the king can answer.

What counts
    After the move two pieces check the king, and the move wins something.
    Mostly the piece that moved checks, and so does the one whose line it
    opened.

What does not
    One check, however strong.  A double check that wins nothing.

What shows it
    Both checking pieces, the king, and the square that was left.
"""

from __future__ import annotations

from collections.abc import Iterator

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "double check"


def find(case: Case) -> Iterator[Tag]:
    """Find a double check."""
    checkers = list(case.after.checkers())
    king = case.after.king(not case.side)
    if len(checkers) < 2 or king is None:
        return
    mover = case.move.to_square
    first = mover if mover in checkers else checkers[0]
    other = next(square for square in checkers if square != first)
    yield case.tag(
        NAME,
        sound=case.proof is not None,
        actor=first,
        targets=(king,),
        squares=(other, case.move.from_square),
        sentence=(
            f"{The(case.after, first)} and {the(case.after, other)} both check "
            f"{the(case.after, king)}: only the king can move"
        ),
        marks=(ring(first), ring(other), force(first, king), force(other, king), ticks(king)),
    )


def why_not(case: Case) -> str:
    """Say that no piece gives check, or only one."""
    checkers = list(case.after.checkers())
    if len(checkers) > 1:
        return ""
    if not checkers:
        return f"{case.san} gives no check"
    return f"only {the(case.after, checkers[0])} gives check"


MOTIF = Motif(
    name=NAME,
    rank=70,
    telling=7,
    definition="A move gives check with two pieces at once: only the king can answer.",
    find=find,
    why_not=why_not,
    examples=(
        Example(
            fen="3qkb2/3p1p2/8/8/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nf6#",
            why="both checks cannot be met, and the king has no square",
        ),
        Example(
            fen="3qk3/pp1p1ppp/8/8/4B3/8/5PPP/4R1K1 w - - 0 1",
            moves="Bc6+ Kf8",
            shows=False,
            why="the pawn on d7 stands before the bishop: only the rook checks",
        ),
    ),
)
