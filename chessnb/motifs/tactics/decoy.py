"""Decoy: an enemy piece is lured onto a square where the next move strikes it.

What counts
    The enemy takes on the square to which we moved, and our next move forks,
    pins or skewers the taker there, drives it into a double check or a net of
    checks that ends in mate, or mates because it stands there.  At once the
    move would not have won.  One of the pieces that are struck is then taken
    by the piece that strikes, or it is mate.

What does not
    An offer that is not taken.  A taker that simply goes back.  A follow-up
    that takes the piece on that square: that is an exchange.

What shows it
    The piece that lures, the square, the piece that is lured, and the follow-up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dots, force, ring, the
from chessnb.motifs.line_steps import steps
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.near_miss import follow_up
from chessnb.motifs.pin_lines import absolute_pins, lined_up
from chessnb.motifs.tactics.skewer import skewers
from chessnb.motifs.targets import targets_of
from chessnb.notation import write_move

NAME = "decoy"


@dataclass(frozen=True, kw_only=True)
class Blow:
    """What the follow-up does to the piece that was lured.

    Attributes
    ----------
    words : str
        What happens, with the piece that was lured as its subject.
    others : tuple of chess.Square
        What else is struck.
    final : bool
        Whether nothing more need be taken: it is mate.
    """

    words: str
    others: tuple[chess.Square, ...] = ()
    final: bool = False


def find(case: Case) -> Iterator[Tag]:
    """Find an offer whose taker is struck on the square where it took."""
    if case.in_hand:
        return
    for reply in case.critical:
        if reply.move.to_square != case.move.to_square or reply.answer is None:
            continue
        blow = _blow(case, reply)
        if blow is not None and not case.wins_at_once(reply.answer) and _pays(reply, blow):
            yield _tag(case, reply, blow)


def _blow(case: Case, reply: Reply) -> Blow | None:
    """Return what our next move does to the piece on the square that it was lured to."""
    assert reply.answer is not None
    square, striker = reply.move.to_square, reply.answer.to_square
    then = moved(reply.board, [reply.answer])
    lured = the(then, square)
    if striker == square:
        return None
    king = then.king(not case.side)
    if then.is_checkmate():
        return _mated(case, then, square, king)
    targets = targets_of(then, striker, case.side)
    if square in targets and len(targets) > 1:
        others = tuple(one for one in targets if one != square)
        return Blow(
            words=f"{the(then, striker)} forks it and {the(then, others[0])}", others=others
        )
    if square == king and _is_hunted(reply):
        return Blow(words="it is driven into mate", final=True)
    if square == king and len(then.checkers()) > 1:
        return Blow(words=f"{lured} stands in a double check", others=(square,))
    for pin in (*absolute_pins(then, case.side), *lined_up(then, case.side)):
        if pin.pinner == striker and square == pin.pinned:
            return Blow(words=f"{the(then, striker)} pins it to {the(then, pin.rear)}")
    for attacker, front, rear in skewers(then, case.side):
        if attacker == striker and square in (front, rear):
            other = rear if square == front else front
            words = f"{the(then, striker)} skewers it with {the(then, other)}"
            return Blow(words=words, others=(other,))
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
) -> Blow | None:
    if square == king:
        return Blow(words="it is mated there", final=True)
    if king is not None and chess.square_distance(square, king) == 1:
        if case.before.color_at(square) is None or case.before.color_at(square) == case.side:
            return Blow(
                words=f"it takes {name(square)} from its own king, which is mated", final=True
            )
        return Blow(words="it blocks its own king, which is mated", final=True)
    return None


def _pays(reply: Reply, blow: Blow) -> bool:
    """Tell whether the piece that strikes then takes one of those that are struck, or mates."""
    if blow.final:
        return True
    assert reply.answer is not None
    victims = {reply.move.to_square, *blow.others}
    for step in steps(reply.board, reply.line[:5]):
        if step.ply and step.mover == reply.answer.from_square:
            after = moved(step.board, [step.move])
            if step.taken in victims or after.is_checkmate():
                return True
    return False


def _tag(case: Case, reply: Reply, blow: Blow) -> Tag:
    square, start = reply.move.to_square, reply.move.from_square
    assert reply.answer is not None
    then = write_move(reply.board, reply.answer)
    return case.tag(
        NAME,
        sound=True,
        reply=reply,
        actor=case.move.to_square,
        targets=(square, *blow.others),
        squares=(square, reply.answer.to_square),
        sentence=(
            f"{The(case.after, case.move.to_square)} lures {the(case.after, start)} to "
            f"{name(square)}: after {then} {blow.words}"
        ),
        marks=(
            dots(square),
            ring(reply.answer.to_square),
            force(reply.answer.to_square, square),
        ),
        board=moved(reply.board, [reply.answer]),
    )


def why_not(case: Case) -> str:
    """Say that nothing is lured there, or is not struck there, or need not be lured."""
    if (followed := follow_up(case)) is None:
        return ""
    reply, answer = followed
    square = case.move.to_square
    if reply.move.to_square != square:
        return (
            f"no piece is lured to {name(square)}: {case.them} goes to {name(reply.move.to_square)}"
        )
    san = write_move(reply.board, answer)
    if _blow(case, reply) is None:
        return f"after {san} {the(reply.board, square)} is not forked, pinned, skewered or mated"
    if case.wins_at_once(answer):
        return f"{san} wins at once as well: nothing need be lured to {name(square)}"
    return ""


MOTIF = Motif(
    name=NAME,
    rank=100,
    also=("attraction",),
    telling=10,
    definition=(
        "A forcing move, usually an offer, brings an enemy piece onto a square where the next move "
        "forks, pins, skewers or mates it, or where it is in its own king's way."
    ),
    find=find,
    why_not=why_not,
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
