"""Clearance: one of our own pieces makes way for another.

What counts
    A piece of ours leaves a square or a line, with tempo or as a sacrifice.
    Then another piece, which stood ready, goes onto that square or across it
    with a blow: a check, a capture or a promotion.  Or a piece defends, across
    the square that was left, the one that mates.  The blow may come some moves
    later if each of our moves until then gives check.

What does not
    A square that was free already, or a way that was open.  A follow-up by the
    piece that moved, or by the king.  A capture by discovered attack of what
    was there to be taken.  A position where another blow wins as well.

What shows it
    The piece that leaves, the square, and the piece that uses it.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.discovered_lines import discovered
from chessnb.motifs.evidence import Tag, The, dots, force, ring, the
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.near_miss import follow_up
from chessnb.notation import write_move

NAME = "clearance"


def find(case: Case) -> Iterator[Tag]:
    """Find a move whose follow-up by another piece needs the square or line that it left."""
    if case.in_hand:
        return
    for first in case.critical:
        for reply, made in _turns(first):
            answer = reply.answer
            if answer is None or not _is_ready(case, reply, answer):
                continue
            if not _uses(case, reply) and _backs(case, reply, answer) is None:
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
    """Tell whether the piece that answers stood there before the move: it waited for the line."""
    start = answer.from_square
    return case.before.piece_at(start) == reply.board.piece_at(start)


def _uses(case: Case, reply: Reply) -> bool:
    """Tell whether our answer goes onto, or across, the square that the move left.

    To take by a discovered attack what is there to be taken is no clearance.
    """
    assert reply.answer is not None
    target = reply.answer.to_square
    seen = (reply.answer.from_square, target) in set(discovered(case))
    there = target == case.after.king(not case.side) or gain_on(reply.board, target)
    return _crosses(case, reply.answer) and not (seen and there)


def _crosses(case: Case, answer: chess.Move) -> bool:
    left = case.move.from_square
    if case.move.to_square in (answer.from_square, answer.to_square):
        return False
    return answer.to_square == left or left in chess.SquareSet.between(
        answer.from_square, answer.to_square
    )


def _backs(case: Case, reply: Reply, answer: chess.Move) -> chess.Square | None:
    """Return the piece that defends a mate across the square that the move left, if one does."""
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
    back = None if _uses(case, reply) else _backs(case, reply, answer)
    then = write_move(reply.board, answer)
    place = "square" if answer.to_square == left else "line through"
    return case.tag(
        NAME,
        sound=True,
        actor=left,
        targets=(answer.to_square,),
        squares=(left,),
        sentence=(
            f"{The(case.before, left)} clears the line through {name(left)} for "
            f"{the(case.before, back)}, which defends {name(answer.to_square)} ({then})"
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


def why_not(case: Case) -> str:
    """Say that the way was free already, or that the follow-up does not use it."""
    if (followed := follow_up(case)) is None:
        return ""
    reply, answer = followed
    left, target = name(case.move.from_square), name(answer.to_square)
    san = write_move(reply.board, answer)
    if case.before.is_legal(answer):
        if case.before.piece_at(answer.to_square) is None:
            return f"the square {target} was free already: {san} could be played at once"
        return f"the way to {target} was open already: {san} could be played at once"
    if answer.from_square == case.move.to_square:
        return f"{san} is played by the piece that left {left}, not by another"
    if not _uses(case, reply):
        return f"{san} uses neither the square {left} nor a line through it"
    return ""


MOTIF = Motif(
    name=NAME,
    rank=120,
    telling=9,
    counted=False,
    definition=(
        "A piece of ours leaves a square or a line, with tempo or as a sacrifice, and another uses "
        "that square or line; without it the follow-up is impossible, and no other wins."
    ),
    find=find,
    why_not=why_not,
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
