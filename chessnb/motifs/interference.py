"""Interference: our man steps onto the line between an enemy line piece and what it guards."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import is_slider
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Example, Motif, Tag, The, dashes, ring, the, ticks


def find(case: Case) -> Iterator[Tag]:
    """Find a move that cuts a guard, so that what it guarded falls."""
    if case.in_hand:
        return
    for reply in case.critical:
        answer = reply.answer
        if answer is None or case.wins_at_once(answer):
            continue
        guard = _cut(case, reply, answer)
        if guard is not None:
            yield _tag(case, guard, answer.to_square)
            return


def _cut(case: Case, reply: Reply, answer: chess.Move) -> chess.Square | None:
    """Return the line piece whose guard of our next goal the move has cut."""
    goal, block = answer.to_square, case.move.to_square
    then = moved(reply.board, [answer])
    if not (reply.board.is_capture(answer) or answer.promotion or then.is_checkmate()):
        return None
    for guard in case.before.attackers(not case.side, goal):
        if not is_slider(case.before, guard) or guard == reply.move.from_square:
            continue
        if block not in chess.SquareSet.between(guard, goal):
            continue
        if guard not in then.attackers(not case.side, goal):
            return guard
    return None


def _tag(case: Case, guard: chess.Square, goal: chess.Square) -> Tag:
    block = case.move.to_square
    return case.tag(
        "interference",
        sound=True,
        actor=block,
        targets=(guard, goal),
        squares=(block,),
        sentence=(
            f"{The(case.after, block)} cuts the line on which {the(case.after, guard)} guards "
            f"{the(case.after, goal) if case.after.piece_at(goal) else name(goal)}"
        ),
        marks=(ring(block), dashes(guard, goal), ticks(goal)),
    )


MOTIF = Motif(
    name="interference",
    definition=(
        "Our man lands on the line between an enemy line piece and what it guards: the guard is "
        "cut, and what it guarded falls."
    ),
    find=find,
    examples=(
        Example(
            fen="8/1P3k2/8/8/3P4/3N4/7b/4K3 w - - 0 1",
            moves="Ne5+ Ke6 b8=Q",
            why="the knight cuts the bishop off from b8",
        ),
        Example(
            fen="8/1P3k2/8/8/8/3N4/7b/4K3 w - - 0 1",
            moves="Ne5+ Bxe5",
            shows=False,
            why="nothing guards the knight: the bishop takes it and still guards b8",
        ),
    ),
)
