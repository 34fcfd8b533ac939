"""Absolute pin: a piece that the rules forbid to leave a line, because its king stands behind.

What counts
    An enemy piece stands between a line piece of ours and its king, with
    nothing else between.  The tactic is the move that makes such a pin (by
    going there, or by opening the line), that attacks the pinned piece once
    more, or that goes where only the pinned piece could take.  It wins by the
    pin if the pinned piece is what falls next, or if our next move goes where
    only it could have taken.

What does not
    A pin that was there before and has no part in the move.  A piece that
    falls because a check had to be answered: then the check won it.  A capture
    that is all that is won.

What shows it
    The pinning piece, the pinned one, the king, and the line between them.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import line_through
from chessnb.board.squares import name
from chessnb.board.turns import as_if_to_move, moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, the
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.pin_lines import (
    PinLine,
    absolute_pins,
    falls,
    is_made,
    is_pressed,
    pin_of_move,
    standing_pin,
)

NAME = "absolute pin"


def find(case: Case) -> Iterator[Tag]:
    """Find pins to the king that a move makes, presses on, or relies on."""
    before = {pin.pair for pin in absolute_pins(case.before, case.side)}
    for pin in absolute_pins(case.after, case.side):
        words = _sentence(case.after, pin)
        if is_made(case, pin, before) or is_pressed(case, pin):
            sound = not case.in_hand and (_falls_pinned(case, pin) or _is_missed(case, pin))
            yield pin_of_move(NAME, case, pin, words, sound=sound)
        elif _relies(case, pin):
            words = f"{words}, so it does not defend {name(case.move.to_square)}"
            yield pin_of_move(NAME, case, pin, words, sound=case.proof is not None)


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the pins to a king in a position, of both sides."""
    for side in chess.COLORS:
        for pin in absolute_pins(board, side):
            yield standing_pin(NAME, board, side, pin, _sentence(board, pin))


def _sentence(board: chess.Board, pin: PinLine) -> str:
    enemy = as_if_to_move(board, bool(board.color_at(pin.pinned)))
    along = any(move.from_square == pin.pinned for move in enemy.legal_moves)
    may = "it may move only along the line" if along else "it may not move"
    return (
        f"{The(board, pin.pinner)} pins {the(board, pin.pinned)} to {the(board, pin.rear)}: {may}"
    )


def _falls_pinned(case: Case, pin: PinLine) -> bool:
    """Tell whether a piece that is pinned to its king falls, and by the pin.

    A check has to be answered: what the king then leaves behind was not lost to a pin.
    """
    if case.gives_check:
        lasting = (reply.board.is_pinned(not case.side, pin.pinned) for reply in case.replies[:1])
        if not all(lasting):
            return False
    return falls(case, {pin.pinned})


def _is_missed(case: Case, pin: PinLine) -> bool:
    """Tell whether our next move goes where only the pinned piece could take, if it were free."""
    for reply in case.replies[:1]:
        answer = reply.answer
        if answer is None or pin.pinned not in case.after.attackers(
            not case.side, answer.to_square
        ):
            return False
        then = moved(reply.board, [answer])
        still = then.is_pinned(not case.side, pin.pinned)
        taken = any(move.to_square == answer.to_square for move in then.legal_moves)
        return still and not taken and answer.to_square not in (pin.pinner, pin.pinned)
    return False


def _relies(case: Case, pin: PinLine) -> bool:
    """Tell whether a move goes where a pinned piece could take back if it were not pinned."""
    target = case.move.to_square
    if target in line_through(pin.pinner, pin.rear) or pin.pinner == case.move.from_square:
        return False
    if pin.pinned not in case.after.attackers(not case.side, target):
        return False
    others = [
        move
        for move in case.after.legal_moves
        if move.to_square == target and move.from_square != pin.pinned
    ]
    return not others and not case.gives_discovered_check


def why_not(case: Case) -> str:
    """Say that nothing is pinned to the king, if nothing is."""
    if any(True for _ in absolute_pins(case.after, case.side)):
        return ""
    return f"no piece of {case.them}'s stands alone between a line piece and its king"


MOTIF = Motif(
    name=NAME,
    rank=10,
    also=("pin",),
    telling=5,
    definition=(
        "An enemy piece stands between a line piece of ours and its king, alone on that line: the "
        "rules forbid it to leave the line."
    ),
    find=find,
    static=static,
    why_not=why_not,
    examples=(
        Example(
            fen="4k3/8/2n5/1B6/3P4/8/8/4K3 w - - 0 1",
            moves="d5 Kd7 dxc6+",
            why="the pinned knight cannot run from the pawn",
        ),
        Example(
            fen="3k4/8/2n5/8/8/8/8/3BK3 w - - 0 1",
            moves="Ba4",
            shows=False,
            why="the king is not on the line behind the knight",
        ),
    ),
)
