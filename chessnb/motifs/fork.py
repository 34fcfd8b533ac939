"""Fork: one man attacks two or more at once."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.geometry import attacked_by, is_target, name
from chessnb.motifs.pin import case_tag
from chessnb.motifs.tracking import steps
from chessnb.notation.words import listed


def find(case: Case) -> Iterator[Tag]:
    """Find a fork by the man that moves."""
    board, forker = case.after, case.move.to_square
    targets = sorted(
        square
        for square in attacked_by(board, forker, not case.side)
        if is_target(board, forker, square)
    )
    if len(targets) < 2:
        return
    names = listed(the(board, square) for square in targets)
    sentence = f"{The(board, forker)} forks {names}"
    tag = Tag(
        motif="fork",
        fen=board.fen(),
        side=case.side,
        actor=name(forker),
        targets=tuple(name(square) for square in targets),
        sentence=sentence,
        marks=(
            ring(forker),
            *(force(forker, square) for square in targets),
            *(ticks(square) for square in targets),
        ),
    )
    yield case_tag(case, tag, used=_used(case, forker, set(targets)))


def _used(case: Case, forker: chess.Square, targets: set[chess.Square]) -> bool:
    """Tell whether the forking man takes one of its targets when the defence saves the other.

    It is what wins if it happens in the longest resistance, or in half of all lines.
    """
    if case.proof is None:
        return False
    king = case.after.king(not case.side)
    if case.after.is_checkmate() or targets == {king}:
        return False
    happens = [_takes_a_target(case, line, forker, targets) for line in case.lines]
    return bool(happens) and (happens[0] or sum(happens) * 2 >= len(happens))


def _takes_a_target(
    case: Case, line: tuple[chess.Move, ...], forker: chess.Square, targets: set[chess.Square]
) -> bool:
    for step in steps(case.after, line):
        if step.side == case.side:
            return step.mover == forker and step.taken in targets
    return False


MOTIF = Motif(
    name="fork",
    definition=(
        "One man that has just moved attacks two or more enemy men, each a king, an unguarded "
        "piece, or a piece worth more than itself; no single reply saves them all."
    ),
    find=find,
    examples=(
        Example(
            fen="r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1",
            moves="Nc7+ Kd8 Nxa8",
            why="king and rook are attacked at once",
        ),
        Example(
            fen="r3k3/3b4/8/1N6/8/8/8/4K3 w - - 0 1",
            moves="Nc7+ Kd8 Nxa8",
            why="the bishop does not guard the rook",
        ),
        Example(
            fen="2r1k3/3b4/8/3N4/8/8/4P3/4K3 w - - 0 1",
            moves="Nf6+ Ke7 Nxd7 Kxd7",
            shows=False,
            why="king and bishop are attacked, but the king guards the bishop",
        ),
    ),
)
