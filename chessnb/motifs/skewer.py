"""Skewer: the dear man in front must go, and the one behind falls."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.geometry import (
    attacked_by,
    behind,
    is_loose,
    is_slider,
    moves_along,
    name,
    worth,
)
from chessnb.motifs.pin import case_tag
from chessnb.motifs.tracking import steps

Skewer = tuple[chess.Square, chess.Square, chess.Square]
"""The attacker, the man in front, the man behind it."""


def skewers(board: chess.Board, side: chess.Color) -> Iterator[Skewer]:
    """Yield where a side's line piece attacks a man with one worth no more behind it."""
    for attacker in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, attacker):
            continue
        for front in attacked_by(board, attacker, not side):
            if moves_along(board, attacker, front):
                yield from _through(board, attacker, front)


def _through(board: chess.Board, attacker: chess.Square, front: chess.Square) -> Iterator[Skewer]:
    rear = behind(board, attacker, front)
    if rear is None or board.color_at(rear) != board.color_at(front):
        return
    if board.piece_type_at(rear) in (chess.PAWN, chess.KING):
        return
    dear = worth(board, front) >= worth(board, rear) and worth(board, front) > worth(
        board, attacker
    )
    falls = is_loose(board, rear) or worth(board, rear) > worth(board, attacker)
    same = worth(board, front) == worth(board, rear) and is_loose(board, front) and falls
    if (dear and falls) or same:
        yield attacker, front, rear


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the skewers of a position, of both sides."""
    for side in chess.COLORS:
        for skewer in skewers(board, side):
            yield _tag(board, side, skewer)


def find(case: Case) -> Iterator[Tag]:
    """Find skewers that a move makes."""
    before = set(skewers(case.before, case.side))
    for skewer in skewers(case.after, case.side):
        if skewer not in before:
            yield case_tag(case, _tag(case.after, case.side, skewer), used=_used(case, skewer))


def _tag(board: chess.Board, side: chess.Color, skewer: Skewer) -> Tag:
    attacker, front, rear = skewer
    sentence = (
        f"{The(board, attacker)} skewers {the(board, front)} and {the(board, rear)}: "
        "when the first moves, the second falls"
    )
    return Tag(
        motif="skewer",
        fen=board.fen(),
        side=side,
        ply=0,
        actor=name(attacker),
        targets=(name(front), name(rear)),
        squares=tuple(name(square) for square in chess.SquareSet.between(attacker, rear)),
        sentence=sentence,
        marks=(ring(attacker), force(attacker, front), ticks(front), ticks(rear)),
    )


def _used(case: Case, skewer: Skewer) -> bool:
    """Tell whether the attacker takes the man behind, or the one in front, where it is won."""
    attacker, front, rear = skewer
    if case.proof is None:
        return False
    happens = []
    for line in case.lines:
        ours = [step for step in steps(case.after, line) if step.side == case.side]
        first = ours[0] if ours else None
        happens.append(
            first is not None and first.mover == attacker and first.taken in (front, rear)
        )
    behind_falls = any(
        step.mover == attacker and step.taken == rear
        for line in case.lines
        for step in steps(case.after, line)
    )
    return behind_falls and (happens[0] or sum(happens) * 2 >= len(happens))


MOTIF = Motif(
    name="skewer",
    definition=(
        "A line piece attacks a king or a man worth at least as much as the one behind it on the "
        "same line; when the first moves, the second falls."
    ),
    find=find,
    static=static,
    examples=(
        Example(
            fen="8/8/4k3/8/8/4q3/8/R5K1 b - - 0 1",
            moves="Kd6",
            shows=False,
            why="Black checks: nothing of Black's is skewered",
        ),
        Example(
            fen="4q3/8/8/4k3/8/8/8/R5K1 w - - 0 1",
            moves="Re1+ Kd5 Rxe8",
            why="the king must leave the file, and the queen behind it falls",
        ),
        Example(
            fen="4r3/3k4/8/8/4k3/8/8/R5K1 w - - 0 1".replace("3k4", "8"),
            moves="Re1+ Kd5 Rxe8",
            why="the rook behind the king is not guarded",
        ),
        Example(
            fen="4r1k1/8/8/8/8/4b3/8/R6K w - - 0 1",
            moves="Re1",
            shows=False,
            why="the bishop in front is worth less than the rook behind: a pin, no skewer",
        ),
    ),
)
