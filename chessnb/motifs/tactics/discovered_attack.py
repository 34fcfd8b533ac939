"""Discovered attack: a piece leaves the line of another, which then attacks something.

What counts
    The piece that moves stood before a line piece of ours.  Once it is gone,
    that piece attacks a target: one that is more valuable, undefended, or lost
    to an exchange.  The move keeps the enemy busy elsewhere, so that the piece
    behind takes its target in one line at least, and in most lines one of the
    two pieces takes something next.

What does not
    An opened line that the enemy has time to leave.  A capture that is all
    that is won.  A king as the target: that is a discovered check.

What shows it
    The piece behind and its target, and the squares that the other left and went to.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.discovered_lines import discovered, discovery_tag, opens_nothing
from chessnb.motifs.evidence import Tag
from chessnb.motifs.line_steps import steps
from chessnb.motifs.motif import Example, Motif

NAME = "discovered attack"


def find(case: Case) -> Iterator[Tag]:
    """Find a discovered attack on something other than the king."""
    for piece, target in discovered(case):
        if case.after.piece_type_at(target) != chess.KING:
            sound = _pays(case, piece, target)
            yield discovery_tag(NAME, case, piece, target, verb="attacks", sound=sound)


def _pays(case: Case, piece: chess.Square, target: chess.Square) -> bool:
    """Tell whether the piece behind takes its target, and it or the one that moved takes next."""
    if case.proof is None or case.in_hand:
        return False

    def takes_next(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line):
            if step.side == case.side:
                return step.mover in (piece, case.move.to_square) and step.taken is not None
        return False

    def falls(line: tuple[chess.Move, ...]) -> bool:
        return any(
            step.mover == piece and step.taken == target for step in steps(case.after, line[:2])
        )

    return any(falls(line) for line in case.lines) and case.mostly(takes_next)


MOTIF = Motif(
    name=NAME,
    rank=50,
    telling=6,
    definition=(
        "A piece moves off the line of another of ours behind it, and that one now attacks a "
        "target; the move itself keeps the enemy busy elsewhere."
    ),
    find=find,
    why_not=opens_nothing,
    examples=(
        Example(
            fen="3q2k1/5ppp/8/8/8/3B4/5PPP/3R2K1 w - - 0 1",
            moves="Bxh7+ Kxh7 Rxd8",
            why="the check leaves no time to save the queen",
        ),
        Example(
            fen="6k1/q4pp1/7p/8/3N4/4B2P/5PP1/6K1 w - - 0 1",
            moves="Nf5 Qb8",
            shows=False,
            why="the queen has time to step aside",
        ),
    ),
)
