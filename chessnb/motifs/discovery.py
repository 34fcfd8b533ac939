"""Discovered attack, discovered check, double check: a man moves out of another's line."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import is_slider, moves_along
from chessnb.diagrams import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.fork import targets_of
from chessnb.motifs.tracking import steps


def opened(case: Case) -> Iterator[tuple[chess.Square, chess.Square]]:
    """Yield our pieces whose line the move has opened, and the enemy man that it now hits."""
    left = case.move.from_square
    for piece in chess.SquareSet(case.after.occupied_co[case.side]):
        if piece == case.move.to_square or not is_slider(case.after, piece):
            continue
        for target in case.after.attacks(piece):
            if case.after.color_at(target) == (not case.side) and (
                left in chess.SquareSet.between(piece, target)
                and moves_along(case.after, piece, target)
            ):
                yield piece, target


def discovered(case: Case) -> Iterator[tuple[chess.Square, chess.Square]]:
    """Yield the opened lines that hit something worth hitting."""
    for piece, target in opened(case):
        if target in targets_of(case.after, piece, case.side):
            yield piece, target


def attack(case: Case) -> Iterator[Tag]:
    """Find a discovered attack on something other than the king."""
    for piece, target in discovered(case):
        if case.after.piece_type_at(target) == chess.KING:
            continue
        yield case.tag(
            "discovered attack",
            sound=_sound(case, piece, target),
            actor=piece,
            targets=(target,),
            squares=(case.move.from_square, case.move.to_square),
            sentence=(
                f"{The(case.before, case.move.from_square)} goes to "
                f"{chess.square_name(case.move.to_square)} and opens the line on which "
                f"{the(case.after, piece)} attacks {the(case.after, target)}"
            ),
            marks=_marks(case, piece, target),
        )


def check(case: Case) -> Iterator[Tag]:
    """Find a discovered check by one piece alone."""
    if len(case.after.checkers()) != 1:
        return
    for piece, target in opened(case):
        if case.after.piece_type_at(target) != chess.KING:
            continue
        yield case.tag(
            "discovered check",
            sound=case.proof is not None,
            actor=piece,
            targets=(target,),
            squares=(case.move.from_square, case.move.to_square),
            sentence=(
                f"{The(case.before, case.move.from_square)} goes to "
                f"{chess.square_name(case.move.to_square)} and opens the line on which "
                f"{the(case.after, piece)} checks {the(case.after, target)}"
            ),
            marks=_marks(case, piece, target),
        )


def double(case: Case) -> Iterator[Tag]:
    """Find a double check."""
    checkers = list(case.after.checkers())
    king = case.after.king(not case.side)
    if len(checkers) < 2 or king is None:
        return
    mover = case.move.to_square
    first = mover if mover in checkers else checkers[0]
    other = next(square for square in checkers if square != first)
    yield case.tag(
        "double check",
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


def _marks(case: Case, piece: chess.Square, target: chess.Square) -> tuple[Mark, ...]:
    return ring(piece), force(piece, target), ticks(target), ring(case.move.to_square)


def _sound(case: Case, piece: chess.Square, target: chess.Square) -> bool:
    """Tell whether the piece behind takes its target, and it or the man that moved takes next."""
    if case.proof is None or case.in_hand:
        return False

    def pays(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line):
            if step.side == case.side:
                return step.mover in (piece, case.move.to_square) and step.taken is not None
        return False

    def falls(line: tuple[chess.Move, ...]) -> bool:
        return any(
            step.mover == piece and step.taken == target for step in steps(case.after, line[:2])
        )

    return any(falls(line) for line in case.lines) and case.mostly(pays)


ATTACK = Motif(
    name="discovered attack",
    definition=(
        "A man moves off the line of a piece of ours behind it, and that piece now attacks a "
        "target; the move itself keeps the enemy busy elsewhere."
    ),
    find=attack,
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
CHECK = Motif(
    name="discovered check",
    definition="A man moves off the line of a piece of ours behind it, and that piece gives check.",
    find=check,
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
DOUBLE = Motif(
    name="double check",
    definition="A move gives check with two pieces at once: only the king can answer.",
    find=double,
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
