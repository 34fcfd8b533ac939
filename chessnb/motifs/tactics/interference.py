"""Interference: a piece of ours steps between an enemy line piece and what it defends.

What counts
    Our move lands on the line between an enemy line piece and a square, so
    that it defends that square no longer.  Our next move takes there, promotes
    there or mates there; at once it would not have won.

What does not
    A blocking piece that can simply be taken by the line piece, which then
    defends as before.  A line piece that moved of its own accord.

What shows it
    The piece that blocks, the line that is cut, and what falls.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import is_slider
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dashes, ring, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "interference"


def find(case: Case) -> Iterator[Tag]:
    """Find a move that cuts a defender off, so that what it defended falls."""
    if case.in_hand:
        return
    for reply in case.critical:
        answer = reply.answer
        if answer is None or case.wins_at_once(answer):
            continue
        defender = _cut(case, reply, answer)
        if defender is not None:
            yield _tag(case, reply, defender, answer.to_square)
            return


def _cut(case: Case, reply: Reply, answer: chess.Move) -> chess.Square | None:
    """Return the line piece that the move has cut off from our next goal."""
    goal, block = answer.to_square, case.move.to_square
    then = moved(reply.board, [answer])
    takes = reply.board.is_capture(answer) and (case.mates or reply.wins_a_piece)
    if not (takes or answer.promotion or then.is_checkmate()):
        return None
    for defender in case.before.attackers(not case.side, goal):
        if not is_slider(case.before, defender) or defender == reply.move.from_square:
            continue
        if block not in chess.SquareSet.between(defender, goal):
            continue
        if defender not in then.attackers(not case.side, goal):
            return defender
    return None


def _tag(case: Case, reply: Reply, defender: chess.Square, goal: chess.Square) -> Tag:
    block = case.move.to_square
    return case.tag(
        NAME,
        sound=True,
        reply=reply,
        actor=block,
        targets=(defender, goal),
        squares=(block,),
        sentence=(
            f"{The(case.after, block)} cuts the line on which {the(case.after, defender)} defends "
            f"{the(case.after, goal) if case.after.piece_at(goal) else name(goal)}"
        ),
        marks=(ring(block), dashes(defender, goal), ticks(goal)),
    )


MOTIF = Motif(
    name=NAME,
    rank=210,
    telling=9,
    counted=False,
    definition=(
        "Our piece lands on the line between an enemy line piece and what it defends: the defence "
        "is cut, and what it kept falls."
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
            why="nothing defends the knight: the bishop takes it and still defends b8",
        ),
    ),
)
