"""Removing the defender: what guards a target is taken or driven off, and the target falls."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import line_through
from chessnb.board.squares import name
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Example, Motif, Tag, The, dashes, force, ring, the, ticks
from chessnb.motifs.targets import guarded_squares, worth


def find(case: Case) -> Iterator[Tag]:
    """Find a move that takes, or drives off, the guard of what we then take."""
    if case.captured is not None and not case.before.is_en_passant(case.move):
        yield from _taken(case)
    elif not case.gives_check:
        yield from _driven_off(case)


def _taken(case: Case) -> Iterator[Tag]:
    defender = case.move.to_square
    duties = guarded_squares(case.before, defender)
    seen = set()
    for reply in case.critical:
        target = _falls(case, reply, duties)
        if target is not None and target not in seen:
            seen.add(target)
            yield _tag(case, defender, target, f"takes {the(case.before, defender)}", reply)


def _driven_off(case: Case) -> Iterator[Tag]:
    attacked = case.after.attacks(case.move.to_square)
    for reply in case.critical[:1]:
        defender = reply.move.from_square
        if defender not in attacked or case.after.piece_type_at(defender) == chess.KING:
            continue
        if reply.move.to_square == case.move.to_square:
            continue
        target = _falls(case, reply, guarded_squares(case.after, defender))
        behind = line_through(case.move.to_square, defender)
        if target is None or target in attacked or target in behind:
            continue
        still = reply.board.attackers(not case.side, target)
        if reply.move.to_square not in still:
            yield _tag(case, defender, target, f"drives off {the(case.after, defender)}", reply)


def _falls(case: Case, reply: Reply, duties: chess.SquareSet) -> chess.Square | None:
    """Return the square of a duty where our answer takes or mates, and could not before."""
    answer = reply.answer
    if answer is None or answer.to_square not in duties or case.in_hand:
        return None
    target = answer.to_square
    if target in (case.move.to_square, reply.move.to_square):
        return None
    takes = worth(reply.board, target) > 0
    if not takes and case.before.piece_type_at(case.move.to_square) == chess.PAWN:
        return None  # a pawn taken on the way to mate is a way in
    after = reply.board.copy(stack=False)
    after.push(answer)
    if not (takes or after.is_checkmate()) or case.wins_at_once(answer):
        return None
    return target


def _tag(case: Case, defender: chess.Square, target: chess.Square, how: str, reply: Reply) -> Tag:
    mover, falls = case.move.to_square, case.before.piece_at(target) is not None
    what = f"{the(case.before, target)} falls" if falls else f"{name(target)} is open to mate"
    return case.tag(
        "removing the defender",
        sound=True,
        actor=mover,
        targets=(defender, target),
        squares=(defender, target),
        sentence=(
            f"{The(case.before, case.move.from_square)} {how}, "
            f"which guards {the(case.before, target)}: then {what}"
        ),
        marks=(
            ring(mover),
            dashes(defender, target),
            ticks(target),
            *((force(reply.answer.from_square, target),) if reply.answer else ()),
        ),
    )


MOTIF = Motif(
    name="removing the defender",
    definition=(
        "We take, or drive off, the man that guards a target; the target then falls, as it did "
        "not before."
    ),
    find=find,
    examples=(
        Example(
            fen="6k1/1p3ppp/2n5/1B2b3/8/8/5PPP/4R1K1 w - - 0 1",
            moves="Bxc6 bxc6 Rxe5",
            why="the knight guarded the bishop",
        ),
        Example(
            fen="6k1/pp3ppp/2b5/3n4/B7/8/5PPP/3R2K1 w - - 0 1",
            moves="Bxc6 bxc6",
            shows=False,
            why="the pawn that takes back guards the knight",
        ),
    ),
)
