"""Relative pin: a piece that may leave a line, but had better not.

What counts
    An enemy piece stands between a line piece of ours and a more valuable
    piece, one that nothing defends, or a square where our line piece would
    mate.  Every legal move of it off the line loses material by exchanges, or
    allows mate at once.  The tactic is the move that makes such a pin or
    attacks the pinned piece once more; it wins by the pin if one of the two
    pieces is what falls next.

What does not
    A piece with one safe move off the line, such as a check, a capture that
    pays, or a threat that comes first.  A piece that has no move off the line
    at all.  A king behind it: then the pin is absolute.  A pawn in front.

What shows it
    The pinning piece, the pinned one, what would be lost behind it, and the line.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import nets
from chessnb.board.lines import line_through
from chessnb.board.turns import as_if_to_move, moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, the
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.pin_lines import (
    PinLine,
    falls,
    is_made,
    is_pressed,
    lined_up,
    pin_of_move,
    standing_pin,
)
from chessnb.motifs.targets import is_undefended
from chessnb.proof import TooWild, settled

NAME = "relative pin"


def find(case: Case) -> Iterator[Tag]:
    """Find relative pins that a move makes, or presses on."""
    before = {pin.pair for pin in lined_up(case.before, case.side)}
    for pin in lined_up(case.after, case.side):
        if not is_made(case, pin, before) and not is_pressed(case, pin):
            continue
        if leaving_loses(case.after, case.side, pin):
            sound = not case.in_hand and falls(case, set(pin.pair))
            yield pin_of_move(NAME, case, pin, _sentence(case.after, pin), sound=sound)


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the relative pins of a position, of both sides."""
    for side in chess.COLORS:
        for pin in lined_up(board, side):
            if leaving_loses(board, side, pin):
                yield standing_pin(NAME, board, side, pin, _sentence(board, pin))


def leaving_loses(board: chess.Board, side: chess.Color, pin: PinLine) -> bool:
    """Tell whether every legal move of the pinned piece off the line loses material, or is mated.

    It is asked as if the piece's side were to move; a piece that cannot leave
    is not pinned in this sense, nor one that can take what pins it without loss.
    """
    enemy = as_if_to_move(board, not side)
    if not enemy.is_valid():
        return False
    take = chess.Move(pin.pinned, pin.pinner)
    if enemy.is_legal(take) and nets(enemy, take) >= 0:
        return False  # it need not leave the line
    line = line_through(pin.pinner, pin.rear)
    leaving = [
        move
        for move in enemy.legal_moves
        if move.from_square == pin.pinned and move.to_square not in line
    ]
    if not leaving:
        return False
    try:
        stands = settled(enemy)
        return all(_costs(enemy, move, stands) for move in leaving)
    except TooWild:
        return False


def _costs(board: chess.Board, move: chess.Move, stands: int) -> bool:
    after = moved(board, [move])
    if any(moved(after, [answer]).is_checkmate() for answer in after.legal_moves):
        return True
    return -settled(after) < stands


def _sentence(board: chess.Board, pin: PinLine) -> str:
    start = f"{The(board, pin.pinner)} pins {the(board, pin.pinned)} to {the(board, pin.rear)}"
    if board.piece_at(pin.rear) is None:
        return f"{start}: if it left the line, {the(board, pin.pinner)} would mate there"
    alone = ", which nothing defends," if is_undefended(board, pin.rear) else ""
    return f"{start}: if it left the line, {the(board, pin.rear)}{alone} would be lost"


def why_not(case: Case) -> str:
    """Say that nothing is lined up, or which piece may leave its line."""
    for pin in lined_up(case.after, case.side):
        if not leaving_loses(case.after, case.side, pin):
            return f"{the(case.after, pin.pinned)} may leave the line without loss"
        return ""
    return f"no piece of {case.them}'s stands on a line before a more valuable or undefended one"


MOTIF = Motif(
    name=NAME,
    rank=20,
    also=("pin",),
    telling=5,
    definition=(
        "An enemy piece stands between a line piece of ours and a more valuable piece, an "
        "undefended one or a mating square: it may leave the line, but every such move loses "
        "material or allows mate."
    ),
    find=find,
    static=static,
    why_not=why_not,
    examples=(
        Example(
            fen="3q2k1/5ppp/8/3n4/8/8/2P2PPP/3R2K1 w - - 0 1",
            moves="c4 Qb6 cxd5",
            why="if the knight moves, the queen is lost; so the pawn takes it",
        ),
        Example(
            fen="q5k1/5p1p/2r3p1/8/8/8/4BPPP/6K1 w - - 0 1",
            moves="Bf3 Rc1+",
            shows=False,
            why="the pinned rook leaves with check",
        ),
    ),
)
