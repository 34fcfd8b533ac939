"""Discovered check: a piece leaves the line of another, which then gives check.

What counts
    The piece that moves stood between a line piece of ours and the enemy king;
    the piece behind now gives check, alone, and the move wins something.

What does not
    A check by the piece that moved as well: that is a double check.  A
    discovered check that wins nothing.

What shows it
    The piece that checks and the king, and the squares that the other left and went to.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.discovered_lines import discovery_tag, opened, opens_nothing
from chessnb.motifs.evidence import Tag
from chessnb.motifs.motif import Example, Motif

NAME = "discovered check"


def find(case: Case) -> Iterator[Tag]:
    """Find a discovered check by one piece alone."""
    if len(case.after.checkers()) != 1:
        return
    for piece, target in opened(case):
        if case.after.piece_type_at(target) == chess.KING:
            sound = case.proof is not None
            yield discovery_tag(NAME, case, piece, target, verb="checks", sound=sound)


MOTIF = Motif(
    name=NAME,
    rank=60,
    telling=5,
    definition="A piece moves off the line of another of ours behind it, and that one gives check.",
    find=find,
    why_not=opens_nothing,
    examples=(
        Example(
            fen="4k3/pp3ppp/8/8/q3N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nc5+ Kd8 Nxa4",
            why="while the rook checks, the knight takes the queen",
        ),
        Example(
            fen="4k3/8/8/q7/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nc5+ Kd8",
            shows=False,
            why="the check wins nothing",
        ),
    ),
)
