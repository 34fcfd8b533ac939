"""Decoy: an enemy man is lured onto a square where the next move hits it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Example, Motif, Tag, The, dots, force, ring, the
from chessnb.motifs.fork import targets_of
from chessnb.motifs.pin import absolute_pins, lined_up
from chessnb.motifs.skewer import skewers
from chessnb.motifs.tracking import steps
from chessnb.notation import write_move


@dataclass(frozen=True, kw_only=True)
class Hit:
    """What the follow-up does to the man that was lured.

    Attributes
    ----------
    words : str
        What happens, with the man that was lured as its subject.
    others : tuple of chess.Square
        What else is hit.
    final : bool
        Whether nothing more need be taken: it is mate.
    """

    words: str
    others: tuple[chess.Square, ...] = ()
    final: bool = False


def find(case: Case) -> Iterator[Tag]:
    """Find an offer whose taker is hit on the square where it took."""
    if case.in_hand:
        return
    for reply in case.critical:
        if reply.move.to_square != case.move.to_square or reply.answer is None:
            continue
        hit = hit_by(case, reply)
        if hit is not None and not case.wins_at_once(reply.answer) and _pays(reply, hit):
            yield _tag(case, reply, hit)


def hit_by(case: Case, reply: Reply) -> Hit | None:
    """Return what our next move does to the man on the square that it was lured to."""
    assert reply.answer is not None
    square, hitter = reply.move.to_square, reply.answer.to_square
    then = moved(reply.board, [reply.answer])
    lured = the(then, square)
    if hitter == square:
        return None
    king = then.king(not case.side)
    if then.is_checkmate():
        return _mated(case, then, square, king)
    targets = targets_of(then, hitter, case.side)
    if square in targets and len(targets) > 1:
        others = tuple(one for one in targets if one != square)
        return Hit(words=f"{the(then, hitter)} forks it and {the(then, others[0])}", others=others)
    if square == king and _is_hunted(reply):
        return Hit(words="it is driven into mate", final=True)
    if square == king and len(then.checkers()) > 1:
        return Hit(words=f"{lured} stands in a double check", others=(square,))
    for pin in (*absolute_pins(then, case.side), *lined_up(then, case.side)):
        if pin.pinner == hitter and square == pin.pinned:
            return Hit(words=f"{the(then, hitter)} pins it to {the(then, pin.rear)}")
    for attacker, front, rear in skewers(then, case.side):
        if attacker == hitter and square in (front, rear):
            other = rear if square == front else front
            words = f"{the(then, hitter)} skewers it with {the(then, other)}"
            return Hit(words=words, others=(other,))
    return None


def _is_hunted(reply: Reply) -> bool:
    """Tell whether check follows check until it is mate."""
    board = reply.board.copy(stack=False)
    for ply, move in enumerate(reply.line):
        if ply % 2 == 0 and not board.gives_check(move):
            return False
        board.push(move)
    return board.is_checkmate()


def _mated(
    case: Case, then: chess.Board, square: chess.Square, king: chess.Square | None
) -> Hit | None:
    if square == king:
        return Hit(words="it is mated there", final=True)
    if king is not None and chess.square_distance(square, king) == 1:
        if case.before.color_at(square) is None or case.before.color_at(square) == case.side:
            return Hit(
                words=f"it takes {name(square)} from its own king, which is mated", final=True
            )
        return Hit(words="it blocks its own king, which is mated", final=True)
    return None


def _pays(reply: Reply, hit: Hit) -> bool:
    """Tell whether one of the men that are hit is then taken by the man that hits, or it mates."""
    if hit.final:
        return True
    assert reply.answer is not None
    victims = {reply.move.to_square, *hit.others}
    for step in steps(reply.board, reply.line[:5]):
        if step.ply and step.mover == reply.answer.from_square:
            after = moved(step.board, [step.move])
            if step.taken in victims or after.is_checkmate():
                return True
    return False


def _tag(case: Case, reply: Reply, hit: Hit) -> Tag:
    square, start = reply.move.to_square, reply.move.from_square
    assert reply.answer is not None
    then = write_move(reply.board, reply.answer)
    return case.tag(
        "decoy",
        sound=True,
        actor=case.move.to_square,
        targets=(square, *hit.others),
        squares=(square, reply.answer.to_square),
        sentence=(
            f"{The(case.after, case.move.to_square)} lures {the(case.after, start)} to "
            f"{name(square)}: after {then} {hit.words}"
        ),
        marks=(
            dots(square),
            ring(reply.answer.to_square),
            force(reply.answer.to_square, square),
        ),
        board=moved(reply.board, [reply.answer]),
    )


MOTIF = Motif(
    name="decoy",
    definition=(
        "A forcing move, usually an offer, brings an enemy man onto a square where the next move "
        "forks, pins, skewers or mates it, or where it is in its own king's way."
    ),
    find=find,
    examples=(
        Example(
            fen="7k/4q1pp/8/4N3/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Rd8+ Qxd8 Nf7+ Kg8 Nxd8",
            why="on d8 the queen can be forked",
        ),
        Example(
            fen="4k3/7p/7q/4N3/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Rd8+ Ke7 Rd7+",
            shows=False,
            why="the king does not take",
        ),
    ),
)
