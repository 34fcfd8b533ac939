"""Removing the defender: what defends a target is taken or driven off, and the target falls.

What counts
    We take an enemy piece that defends a target, or attack it so that it goes
    where it defends the target no longer.  Our next move then takes the
    target, or mates on the square that was defended; at once it would not have
    won.

What does not
    A piece that takes back and defends the target again; another defender that
    makes the taking of the target a mere trade.  A target that fell
    as well without the move.  Pawns taken on the way to a mate.  A piece that
    is driven off while we attack the target ourselves, or see it through the
    piece: that is a fork or a skewer.

What shows it
    The piece that moves, the defender, and the target.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import line_through
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dashes, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.near_miss import follow_up
from chessnb.motifs.targets import defended_squares, worth

NAME = "removing the defender"


def find(case: Case) -> Iterator[Tag]:
    """Find a move that takes, or drives off, the defender of what we then take."""
    if case.captured is not None and not case.before.is_en_passant(case.move):
        yield from _taken(case)
    elif not case.gives_check:
        yield from _driven_off(case)


def _taken(case: Case) -> Iterator[Tag]:
    defender = case.move.to_square
    duties = defended_squares(case.before, defender)
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
        target = _falls(case, reply, defended_squares(case.after, defender))
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
    if takes and not case.mates and not reply.wins_a_piece:
        return None  # another piece still defends it, and it is only traded
    if not (takes or after.is_checkmate()) or case.wins_at_once(answer):
        return None
    return target


def _tag(case: Case, defender: chess.Square, target: chess.Square, how: str, reply: Reply) -> Tag:
    mover, falls = case.move.to_square, case.before.piece_at(target) is not None
    what = f"{the(case.before, target)} falls" if falls else f"{name(target)} is open to mate"
    return case.tag(
        NAME,
        sound=True,
        reply=reply,
        actor=mover,
        targets=(defender, target),
        squares=(defender, target),
        sentence=(
            f"{The(case.before, case.move.from_square)} {how}, "
            f"which defends {the(case.before, target)}: then {what}"
        ),
        marks=(
            ring(mover),
            dashes(defender, target),
            ticks(target),
            *((force(reply.answer.from_square, target),) if reply.answer else ()),
        ),
    )


def why_not(case: Case) -> str:
    """Say that the target is defended again, or was not defended by what was taken."""
    if case.captured is None:
        return ""
    if (target := _defended_again(case)) is not None:
        taker = the(case.after, case.line[0].from_square)
        return f"{taker} takes back and defends {the(case.before, target)} again"
    if (followed := follow_up(case)) is None:
        return ""
    taken, target = case.move.to_square, followed[1].to_square
    if target == taken or target in case.before.attacks(taken):
        return ""
    return f"{the(case.before, taken)} did not defend {name(target)}"


def _defended_again(case: Case) -> chess.Square | None:
    """Return what the piece that was taken defended, and the one that took back defends now."""
    if not case.line:
        return None
    square = case.move.to_square
    board = moved(case.after, [case.line[0]])
    both = case.before.attacks(square) & board.attacks(square)
    attacked = [
        one for one in both & board.occupied_co[not case.side] if board.attackers(case.side, one)
    ]
    return attacked[0] if attacked else None


MOTIF = Motif(
    name=NAME,
    rank=80,
    also=("defender removed", "removal of the defender"),
    telling=7,
    counted=False,
    definition=(
        "We take, or drive off, the piece that defends a target; the target then falls, as it did "
        "not before."
    ),
    find=find,
    why_not=why_not,
    examples=(
        Example(
            fen="6k1/1p3ppp/2n5/1B2b3/8/8/5PPP/4R1K1 w - - 0 1",
            moves="Bxc6 bxc6 Rxe5",
            why="the knight defended the bishop",
        ),
        Example(
            fen="6k1/pp3ppp/2b5/3n4/B7/8/5PPP/3R2K1 w - - 0 1",
            moves="Bxc6 bxc6",
            shows=False,
            why="the pawn that takes back defends the knight",
        ),
    ),
)
