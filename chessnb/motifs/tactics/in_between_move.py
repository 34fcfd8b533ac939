"""In-between move: the expected recapture can wait, for something stronger comes first.

What counts
    The other side has just taken something, and we could take back.  Instead
    comes a move elsewhere, and only at the next turn the recapture on that
    square; this wins, and no recapture at once would have won as much.

What does not
    A check that comes first and changes nothing.  A move after which the
    recapture never comes.  A position whose last move is not known.

What shows it
    The move that comes first, the square of the recapture, and what takes back.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.squares import name
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, force, ring, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.notation import write_move

NAME = "in-between move"


def find(case: Case) -> Iterator[Tag]:
    """Find a forcing move before an expected recapture that still follows."""
    square = _expected(case)
    if square is None or square == case.move.to_square or case.proof is None:
        return
    back = [move for move in case.before.legal_moves if move.to_square == square]
    if not back or any(case.wins_at_once(move) for move in back):
        return
    for reply in case.replies[:1]:
        answer = reply.answer
        if answer is None or answer.to_square != square or not reply.board.is_capture(answer):
            continue
        yield case.tag(
            NAME,
            sound=True,
            actor=case.move.to_square,
            targets=(square,),
            squares=(case.move.to_square,),
            sentence=(
                f"Before {case.us} takes back on {name(square)}, {case.san} comes first: "
                f"then {write_move(reply.board, answer)} wins more"
            ),
            marks=(ring(case.move.to_square), force(answer.from_square, square), ticks(square)),
        )


def _expected(case: Case) -> chess.Square | None:
    """Return where the other side has just taken, if that is known."""
    if not case.before.move_stack:
        return None
    board = case.before.copy(stack=1)
    last = board.pop()
    return last.to_square if last and board.is_capture(last) else None


MOTIF = Motif(
    name=NAME,
    rank=220,
    also=("intermediate move", "intermezzo", "zwischenzug"),
    definition=(
        "Instead of the expected recapture a forcing move comes first; the recapture still "
        "follows, and the result is better than without."
    ),
    find=find,
    examples=(
        Example(
            fen="4r1k1/5pp1/7p/7b/8/5N2/5PPP/4R1K1 b - - 0 1",
            led="Bxf3",
            moves="Rxe8+ Kh7 gxf3",
            why="to take the bishop at once would lose the rook on e1",
        ),
        Example(
            fen="4r1k1/5ppp/5n2/8/7B/7P/5PP1/6K1 w - - 0 1",
            led="Bxf6",
            moves="Re1+ Kh2 gxf6",
            shows=False,
            why="the check comes first, and changes nothing",
        ),
    ),
)
