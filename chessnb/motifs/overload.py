"""Overloaded piece: the only guard of two things cannot keep both."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Example, Motif, Tag, The, dashes, force, ring, the, ticks
from chessnb.motifs.targets import guards


def find(case: Case) -> Iterator[Tag]:
    """Find a move against one of two things that one man alone guards."""
    if case.in_hand:
        return
    for reply in case.critical:
        first = case.move.to_square
        if reply.move.to_square != first or reply.answer is None:
            continue
        second = _second_duty(case, reply)
        if second is not None and _is_first_duty(case, reply.move.from_square):
            yield _tag(case, reply, second)


def _is_first_duty(case: Case, guard: chess.Square) -> bool:
    """Tell whether our man went onto something that the guard alone kept: a man, or from mate."""
    target = case.move.to_square
    takers = {move.from_square for move in case.after.legal_moves if move.to_square == target}
    if takers != {guard}:
        return False
    if case.captured is not None:
        return True
    without = case.after.copy(stack=False)
    without.remove_piece_at(guard)
    return without.is_checkmate()


def _second_duty(case: Case, reply: Reply) -> chess.Square | None:
    """Return what else the guard alone kept, and our answer takes or mates on."""
    answer, guard = reply.answer, reply.move.from_square
    assert answer is not None
    target = answer.to_square
    if target == case.move.to_square or guard not in guards(case.before, target, not case.side):
        return None
    then = moved(reply.board, [answer])
    if not (reply.board.is_capture(answer) or _mates(then)):
        return None
    if any(move.to_square == target for move in then.legal_moves):
        return None
    return target


def _mates(board: chess.Board) -> bool:
    """Tell whether a check mates, at once or when the men put between are taken."""
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
    guard, first = reply.move.from_square, case.move.to_square
    assert reply.answer is not None
    return case.tag(
        "overloaded piece",
        sound=True,
        actor=guard,
        targets=(first, second),
        squares=(first, second),
        sentence=(
            f"{The(case.before, guard)} alone guards {_thing(case, first)} and "
            f"{_thing(case, second)}: it cannot keep both"
        ),
        marks=(
            ring(first),
            dashes(guard, first),
            dashes(guard, second),
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


MOTIF = Motif(
    name="overloaded piece",
    definition=(
        "One man is the only guard of two things, men or mating squares; we go for one, and when "
        "it takes, the other falls."
    ),
    find=find,
    examples=(
        Example(
            fen="3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1",
            moves="Re8+ Rxe8 Qxd4",
            why="the rook must guard the queen and the back rank",
        ),
        Example(
            fen="3r3k/pp1b2pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1",
            moves="Re8+ Bxe8 Qxd4",
            shows=False,
            why="the bishop guards e8 as well",
        ),
    ),
)
