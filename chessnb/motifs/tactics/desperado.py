"""Desperado: a piece that is lost anyway takes what it can before it goes.

What counts
    A piece hangs, and would be lost on its square; it takes something worth
    less than itself where it can be taken in turn.  Either nothing could have
    saved it, or an enemy piece hangs too, which we take second.

What does not
    A piece that could go to safety.  A capture in answer to a check.  A
    capture of as much as the piece is worth: that is a trade.

What shows it
    The piece, what it takes, and the enemy piece that hangs as well.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.turns import as_if_to_move
from chessnb.motifs.case import Case, points_of
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.targets import worth

NAME = "desperado"


def find(case: Case) -> Iterator[Tag]:
    """Find a piece that is lost anyway, and takes what it can before it goes."""
    start, target = case.move.from_square, case.move.to_square
    if case.captured is None or worth(case.before, start) < 3 or not case.gives_up:
        return
    if case.before.is_check() or points_of(case.captured) >= worth(case.before, start):
        return
    passed = as_if_to_move(case.before, not case.side)
    if not gain_on(passed, start) or not gain_on(case.after, target):
        return
    other = _another(case)
    if other is None and _has_refuge(case):
        return
    words = "is lost anyway" if other is None else f"hangs, as {the(case.before, other)} does,"
    yield case.tag(
        NAME,
        sound=case.proof is not None,
        actor=target,
        targets=(target,),
        squares=(start,),
        sentence=(
            f"{The(case.before, start)} {words} and takes {the(case.before, target)} before it goes"
        ),
        marks=(ring(start), force(start, target), ticks(target)),
        board=case.before,
    )


def _another(case: Case) -> chess.Square | None:
    """Return the enemy piece that hangs as well, if we win more by taking it second."""
    for reply in case.critical:
        answer = reply.answer
        if answer is None or reply.move.to_square != case.move.to_square:
            continue
        if gain_on(case.before, answer.to_square) and not case.wins_at_once(answer):
            return answer.to_square
    return None


def _has_refuge(case: Case) -> bool:
    """Tell whether the piece could have gone where nothing takes it."""
    for move in case.before.legal_moves:
        if move.from_square == case.move.from_square and not case.before.is_capture(move):
            after = case.before.copy(stack=False)
            after.push(move)
            if not gain_on(after, move.to_square):
                return True
    return False


MOTIF = Motif(
    name=NAME,
    rank=230,
    definition=(
        "A piece that is lost anyway, or that hangs while an enemy piece hangs too, takes the most "
        "that it can before it goes."
    ),
    find=find,
    examples=(
        Example(
            fen="r3k2r/pppb1ppp/8/4p1q1/3Q3P/8/PPP2PPP/R3K2R w KQkq - 0 1",
            moves="Qxd7+ Kxd7 hxg5",
            why="both queens hang: White's takes a bishop before it goes",
        ),
        Example(
            fen="6k1/pp4pp/2pp4/4N3/8/8/PP3P1P/6K1 w - - 0 1",
            moves="Nxc6 bxc6",
            shows=False,
            why="the knight could simply go",
        ),
    ),
)
