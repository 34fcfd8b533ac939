"""In-between move and desperado: what is taken before the expected move is made."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case, points_of
from chessnb.motifs.evidence import Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.geometry import exchange, name, worth
from chessnb.notation import write_move


def between(case: Case) -> Iterator[Tag]:
    """Find a forcing move before an expected recapture that still follows."""
    square = _expected(case)
    if square is None or square == case.move.to_square or case.in_hand:
        return
    back = [move for move in case.before.legal_moves if move.to_square == square]
    if not back or any(case.wins_at_once(move) for move in back):
        return
    for reply in case.replies[:1]:
        answer = reply.answer
        if answer is None or answer.to_square != square or not reply.board.is_capture(answer):
            continue
        yield case.tag(
            "in-between move",
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


def desperado(case: Case) -> Iterator[Tag]:
    """Find a man that is lost anyway, and takes what it can before it goes."""
    start, target = case.move.from_square, case.move.to_square
    if case.captured is None or worth(case.before, start) < 3 or not case.gives_up:
        return
    if case.before.is_check():
        return
    passed = case.before.copy(stack=False)
    passed.push(chess.Move.null())
    lost = exchange(passed, start)
    if lost <= 0 or points_of(case.captured) >= worth(case.before, start):
        return
    if not exchange(case.after, target) or _has_refuge(case):
        return
    yield case.tag(
        "desperado",
        sound=case.proof is not None,
        actor=target,
        targets=(target,),
        squares=(start,),
        sentence=(
            f"{The(case.before, start)} is lost anyway, and takes "
            f"{the(case.before, target)} before it goes"
        ),
        marks=(ring(start), force(start, target), ticks(target)),
        board=case.before,
    )


def _has_refuge(case: Case) -> bool:
    """Tell whether the man could have gone where nothing takes it."""
    for move in case.before.legal_moves:
        if move.from_square == case.move.from_square and not case.before.is_capture(move):
            after = case.before.copy(stack=False)
            after.push(move)
            if not exchange(after, move.to_square):
                return True
    return False


BETWEEN = Motif(
    name="in-between move",
    definition=(
        "Instead of the expected recapture a forcing move comes first; the recapture still "
        "follows, and the result is better than without."
    ),
    find=between,
)
DESPERADO = Motif(
    name="desperado",
    definition="A man that is lost anyway takes the most that it can before it goes.",
    find=desperado,
)
