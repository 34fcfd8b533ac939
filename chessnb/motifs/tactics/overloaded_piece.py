"""Overloaded piece: the only defender of two things cannot keep both.

What counts
    One enemy piece alone defends two things: pieces, or squares where we would
    mate.  We go for one, it takes there, and our next move takes the other or
    mates on it, without being taken itself.

What does not
    A second defender of either thing.  A square where we take nothing, and
    would not mate even if the defender were gone.

What shows it
    The defender and both its duties.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.naming import listed
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dashes, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.near_miss import follow_up
from chessnb.motifs.targets import defenders

NAME = "overloaded piece"


def find(case: Case) -> Iterator[Tag]:
    """Find a move against one of two things that one piece alone defends."""
    if case.in_hand:
        return
    for reply in case.critical:
        first = case.move.to_square
        if reply.move.to_square != first or reply.answer is None:
            continue
        second = _second_duty(case, reply)
        if second is not None and _is_first_duty(case, reply.move.from_square):
            yield _tag(case, reply, second)


def _is_first_duty(case: Case, defender: chess.Square) -> bool:
    """Tell whether we went onto what the piece alone kept: another piece, or from mate."""
    target = case.move.to_square
    takers = {move.from_square for move in case.after.legal_moves if move.to_square == target}
    if takers != {defender}:
        return False
    if case.captured is not None:
        return True
    without = case.after.copy(stack=False)
    without.remove_piece_at(defender)
    return without.is_checkmate()


def _second_duty(case: Case, reply: Reply) -> chess.Square | None:
    """Return what else the piece alone kept, and our answer takes or mates on."""
    answer, defender = reply.answer, reply.move.from_square
    assert answer is not None
    target = answer.to_square
    if target == case.move.to_square or defender not in defenders(
        case.before, target, not case.side
    ):
        return None
    then = moved(reply.board, [answer])
    if not (reply.board.is_capture(answer) or _mates(then)):
        return None
    if any(move.to_square == target for move in then.legal_moves):
        return None
    return target


def _mates(board: chess.Board) -> bool:
    """Tell whether a check mates, at once or when the pieces put between are taken."""
    checkers = board.checkers()
    if len(checkers) != 1:
        return board.is_checkmate()
    checker = checkers.pop()
    king = board.king(board.turn)
    assert king is not None
    between = chess.SquareSet.between(checker, king)
    for reply in board.legal_moves:
        if reply.to_square not in between:
            return False
        blocked = moved(board, [reply])
        take = chess.Move(checker, reply.to_square)
        if not blocked.is_legal(take) or not moved(blocked, [take]).is_checkmate():
            return False
    return True


def _tag(case: Case, reply: Reply, second: chess.Square) -> Tag:
    defender, first = reply.move.from_square, case.move.to_square
    assert reply.answer is not None
    return case.tag(
        NAME,
        sound=True,
        reply=reply,
        actor=defender,
        targets=(first, second),
        squares=(first, second),
        sentence=(
            f"{The(case.before, defender)} alone defends {_thing(case, first)} and "
            f"{_thing(case, second)}: it cannot keep both"
        ),
        marks=(
            ring(first),
            dashes(defender, first),
            dashes(defender, second),
            ticks(first),
            ticks(second),
            *(
                (force(reply.answer.from_square, second),)
                if reply.answer.from_square != first
                else ()
            ),
        ),
    )


def _thing(case: Case, square: chess.Square) -> str:
    if case.before.color_at(square) == (not case.side):
        return the(case.before, square)
    return f"the square {name(square)}"


def why_not(case: Case) -> str:
    """Say which of the two things the piece does not defend, or not alone."""
    if (followed := follow_up(case)) is None:
        return ""
    reply, answer = followed
    for square in (case.move.to_square, answer.to_square):
        keepers = defenders(case.before, square, not case.side)
        if reply.move.from_square not in keepers:
            return f"{the(case.before, reply.move.from_square)} does not defend {name(square)}"
        if len(keepers) > 1:
            pieces = listed(the(case.before, one) for one in keepers)
            return f"{name(square)} has more than one defender: {pieces}"
    return ""


MOTIF = Motif(
    name=NAME,
    rank=110,
    also=("overload", "overloading"),
    telling=8,
    definition=(
        "One piece is the only defender of two things, pieces or mating squares; we go for one, "
        "and when it takes, the other falls."
    ),
    find=find,
    why_not=why_not,
    examples=(
        Example(
            fen="3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1",
            moves="Re8+ Rxe8 Qxd4",
            why="the rook must defend the queen and the back rank",
        ),
        Example(
            fen="3r3k/pp1b2pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1",
            moves="Re8+ Bxe8 Qxd4",
            shows=False,
            why="the bishop defends e8 as well",
        ),
    ),
)
