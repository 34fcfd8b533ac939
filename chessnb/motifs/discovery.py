"""Discovered attack, discovered check, double check: a man moves out of another's line."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.geometry import is_slider, is_target, moves_along, name
from chessnb.motifs.pin import case_tag
from chessnb.motifs.tracking import steps

Opened = tuple[chess.Square, chess.Square]
"""The piece behind, and what its opened line hits."""


def opened(case: Case) -> Iterator[Opened]:
    """Yield the lines of our pieces that the move has opened onto an enemy man."""
    left = case.move.from_square
    for piece in chess.SquareSet(case.after.occupied_co[case.side]):
        if piece == case.move.to_square or not is_slider(case.after, piece):
            continue
        for target in case.after.attacks(piece):
            if case.after.color_at(target) != (not case.side):
                continue
            if not moves_along(case.after, piece, target):
                continue
            if left in chess.SquareSet.between(piece, target):
                yield piece, target


def attack(case: Case) -> Iterator[Tag]:
    """Find a discovered attack on something other than the king."""
    for piece, target in opened(case):
        kind = case.after.piece_type_at(target)
        if kind == chess.KING or not is_target(case.after, piece, target):
            continue
        sentence = (
            f"{The(case.before, case.move.from_square)} moves away, and {the(case.after, piece)} "
            f"attacks {the(case.after, target)}"
        )
        tag = _tag("discovered attack", case, piece, (target,), sentence)
        yield case_tag(case, tag, used=_takes(case, piece, target))


def check(case: Case) -> Iterator[Tag]:
    """Find a discovered check by one piece alone."""
    if len(case.after.checkers()) != 1:
        return
    for piece, target in opened(case):
        if case.after.piece_type_at(target) != chess.KING:
            continue
        sentence = (
            f"{The(case.before, case.move.from_square)} moves away, and {the(case.after, piece)} "
            f"checks {the(case.after, target)}"
        )
        yield case_tag(
            case,
            _tag("discovered check", case, piece, (target,), sentence),
            used=case.proof is not None,
        )


def double(case: Case) -> Iterator[Tag]:
    """Find a double check."""
    checkers = list(case.after.checkers())
    king = case.after.king(not case.side)
    if len(checkers) < 2 or king is None:
        return
    other = next(square for square in checkers if square != case.move.to_square)
    sentence = (
        f"{The(case.after, case.move.to_square)} and {the(case.after, other)} both check "
        f"{the(case.after, king)}: only the king can move"
    )
    tag = _tag("double check", case, other, (king,), sentence)
    yield case_tag(case, tag, used=case.proof is not None)


def _tag(
    motif: str,
    case: Case,
    piece: chess.Square,
    targets: tuple[chess.Square, ...],
    sentence: str,
) -> Tag:
    mover = case.move.to_square
    strokes = [force(piece, target) for target in targets]
    if motif == "double check":
        strokes += [force(mover, target) for target in targets]
    return Tag(
        motif=motif,
        fen=case.after.fen(),
        side=case.side,
        actor=name(piece),
        targets=tuple(name(target) for target in targets),
        squares=(name(case.move.from_square), name(mover)),
        sentence=sentence,
        marks=(ring(piece), *strokes, *(ticks(target) for target in targets)),
    )


def _takes(case: Case, piece: chess.Square, target: chess.Square) -> bool:
    """Tell whether the piece behind takes what its line was opened onto."""
    if case.proof is None:
        return False
    happens = [
        any(step.mover == piece and step.taken == target for step in steps(case.after, line))
        for line in case.lines
    ]
    return bool(happens) and (happens[0] or sum(happens) * 3 >= len(happens))


ATTACK = Motif(
    name="discovered attack",
    definition=(
        "A man moves off the line of a piece of ours behind it, and that piece now attacks a "
        "target; the move itself keeps the enemy busy elsewhere."
    ),
    find=attack,
    examples=(
        Example(
            fen="3qk3/8/8/8/3B4/8/8/3RK3 w - - 0 1",
            moves="Bf6",
            shows=False,
            why="the queen takes the bishop that attacks it too",
        ),
        Example(
            fen="3q3k/6p1/8/3B4/8/8/8/3R2K1 w - - 0 1",
            moves="Bg8 Qxd1+",
            shows=False,
            why="the queen takes the rook with check",
        ),
        Example(
            fen="3q2k1/5ppp/8/8/3B4/8/8/3R2K1 w - - 0 1",
            moves="Bxg7 Qxd1#",
            shows=False,
            why="Black simply takes the rook, with mate",
        ),
        Example(
            fen="q5k1/5p1p/8/3B4/8/8/8/R5K1 w - - 0 1".replace("q5k1", "6k1")
            .replace("R5K1", "3R2K1")
            .replace("8/8/8/3R2K1", "8/3q4/8/3R2K1")
            .replace("3B4/8/3q4", "8/8/3q4"),
            moves="Rxd3",
            shows=False,
            why="a plain capture discovers nothing",
        ),
    ),
)
CHECK = Motif(
    name="discovered check",
    definition="A man moves off the line of a piece of ours behind it, and that piece gives check.",
    find=check,
    examples=(
        Example(
            fen="4k3/8/8/q7/4N3/8/8/4RK2 w - - 0 1",
            moves="Nc3+ Kd7",
            shows=False,
            why="check, but nothing is won by it",
        ),
    ),
)
DOUBLE = Motif(
    name="double check",
    definition="A move gives check with two pieces at once: only the king can answer.",
    find=double,
    examples=(),
)
