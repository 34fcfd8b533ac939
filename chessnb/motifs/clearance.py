"""Clearance: our own man leaves a square or a line that another of ours then uses."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.discovery import discovered
from chessnb.motifs.evidence import Example, Motif, Tag, The, dots, force, ring, the
from chessnb.notation import write_move


def find(case: Case) -> Iterator[Tag]:
    """Find a move whose follow-up by another man needs the square or line that it left."""
    if case.in_hand:
        return
    for first in case.critical:
        for reply, made in _turns(first):
            answer = reply.answer
            if answer is None or not _is_ready(case, reply, answer):
                continue
            if not uses(case, reply) and _backs(case, reply, answer) is None:
                continue
            if _is_sharp(reply, answer) and _needed(case, reply, answer, made):
                yield _tag(case, reply, answer)
                return


def _turns(reply: Reply) -> Iterator[tuple[Reply, tuple[chess.Move, ...]]]:
    """Yield each of our turns in the line after a reply, as one, and the moves up to it.

    After the first, only as long as each of our moves gave check: else something
    else than the clearance may be what made the follow-up possible.
    """
    made: tuple[chess.Move, ...] = (reply.move,)
    while reply.answer is not None:
        yield reply, made
        if len(reply.line) < 3 or not reply.board.gives_check(reply.answer):
            return
        ours, theirs = reply.line[:2]
        made = (*made, ours, theirs)
        board = moved(reply.board, [ours, theirs])
        reply = Reply(move=theirs, board=board, line=reply.line[2:])


def _is_ready(case: Case, reply: Reply, answer: chess.Move) -> bool:
    """Tell whether the man that answers stood there before the move: it waited for the line."""
    start = answer.from_square
    return case.before.piece_at(start) == reply.board.piece_at(start)


def uses(case: Case, reply: Reply) -> bool:
    """Tell whether our answer goes onto, or across, the square that the move left.

    To take by a discovered attack what is there to be taken is no clearance.
    """
    assert reply.answer is not None
    target = reply.answer.to_square
    hits = (reply.answer.from_square, target) in set(discovered(case))
    loose = target == case.after.king(not case.side) or gain_on(reply.board, target)
    return _crosses(case, reply.answer) and not (hits and loose)


def _crosses(case: Case, answer: chess.Move) -> bool:
    left = case.move.from_square
    if case.move.to_square in (answer.from_square, answer.to_square):
        return False
    return answer.to_square == left or left in chess.SquareSet.between(
        answer.from_square, answer.to_square
    )


def _backs(case: Case, reply: Reply, answer: chess.Move) -> chess.Square | None:
    """Return the man that guards a mate across the square that the move left, if there is one."""
    mated = moved(reply.board, [answer])
    same = case.move.to_square in (answer.from_square, answer.to_square)
    if same or not mated.is_checkmate():
        return None
    for back in mated.attackers(case.side, answer.to_square):
        if case.move.from_square in chess.SquareSet.between(back, answer.to_square):
            return back
    return None


def _is_sharp(reply: Reply, answer: chess.Move) -> bool:
    """Tell whether the follow-up is a blow: a check, a capture or a promotion, not by the king."""
    if reply.board.piece_type_at(answer.from_square) == chess.KING:
        return False
    board = reply.board
    return board.gives_check(answer) or board.is_capture(answer) or answer.promotion is not None


def _needed(case: Case, reply: Reply, answer: chess.Move, made: tuple[chess.Move, ...]) -> bool:
    """Tell whether no move that does without the cleared square wins as well."""
    others = [
        move
        for move in reply.board.legal_moves
        if move != answer
        and not _crosses(case, move)
        and (
            reply.board.gives_check(move)
            or reply.board.is_capture(move)
            or move.from_square == answer.from_square
        )
    ]
    return not any(case.wins(made, move) for move in others)


def _tag(case: Case, reply: Reply, answer: chess.Move) -> Tag:
    left = case.move.from_square
    back = None if uses(case, reply) else _backs(case, reply, answer)
    then = write_move(reply.board, answer)
    place = "square" if answer.to_square == left else "line through"
    return case.tag(
        "clearance",
        sound=True,
        actor=left,
        targets=(answer.to_square,),
        squares=(left,),
        sentence=(
            f"{The(case.before, left)} clears the line through {name(left)} for "
            f"{the(case.before, back)}, which guards {name(answer.to_square)} ({then})"
            if back is not None
            else f"{The(case.before, left)} clears the {place} {name(left)} for "
            f"{the(case.before, answer.from_square)}, which goes to {name(answer.to_square)} "
            f"({then})"
        ),
        marks=(
            dots(left),
            ring(answer.to_square),
            force(answer.from_square, answer.to_square),
        ),
        board=moved(reply.board, [answer]),
    )


MOTIF = Motif(
    name="clearance",
    definition=(
        "Our own man leaves a square or a line, with tempo or as a sacrifice, and another of our "
        "men uses that square or line; without it the follow-up is impossible, and no other wins."
    ),
    find=find,
    examples=(
        Example(
            fen="5bk1/6p1/6P1/8/8/8/5PK1/R2B4 w - - 0 1",
            moves="Bb3+ Kh8 Rh1#",
            why="the bishop leaves the first rank with check",
        ),
        Example(
            fen="5rk1/5pp1/6P1/8/8/8/1K3PP1/3Q3R w - - 0 1",
            moves="Rh8+ Kxh8 Qh5+ Kg8 Qh7#",
            shows=False,
            why="the queen could go to h5 at once",
        ),
    ),
)
