"""In-between move and desperado: what is taken before the expected move is made."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.squares import name
from chessnb.board.turns import as_if_to_move
from chessnb.motifs.case import Case, points_of
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.targets import worth
from chessnb.notation import write_move


def between(case: Case) -> Iterator[Tag]:
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
    if case.before.is_check() or points_of(case.captured) >= worth(case.before, start):
        return
    passed = as_if_to_move(case.before, not case.side)
    if not gain_on(passed, start) or not gain_on(case.after, target):
        return
    other = _another(case)
    if other is None and _has_refuge(case):
        return
    words = "is lost anyway" if other is None else f"hangs, as {the(case.before, other)} does,"
    yield case.tag(
        "desperado",
        sound=case.proof is not None,
        actor=target,
        targets=(target,),
        squares=(start,),
        sentence=(
            f"{The(case.before, start)} {words} and takes {the(case.before, target)} before it goes"
        ),
        marks=(ring(start), force(start, target), ticks(target)),
        board=case.before,
    )


def _another(case: Case) -> chess.Square | None:
    """Return the enemy man that hangs as well, if we win more by taking it second."""
    for reply in case.critical:
        answer = reply.answer
        if answer is None or reply.move.to_square != case.move.to_square:
            continue
        if gain_on(case.before, answer.to_square) and not case.wins_at_once(answer):
            return answer.to_square
    return None


def _has_refuge(case: Case) -> bool:
    """Tell whether the man could have gone where nothing takes it."""
    for move in case.before.legal_moves:
        if move.from_square == case.move.from_square and not case.before.is_capture(move):
            after = case.before.copy(stack=False)
            after.push(move)
            if not gain_on(after, move.to_square):
                return True
    return False


BETWEEN = Motif(
    name="in-between move",
    definition=(
        "Instead of the expected recapture a forcing move comes first; the recapture still "
        "follows, and the result is better than without."
    ),
    find=between,
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
DESPERADO = Motif(
    name="desperado",
    definition=(
        "A man that is lost anyway, or that hangs while an enemy man hangs too, takes the most "
        "that it can before it goes."
    ),
    find=desperado,
    examples=(
        Example(
            fen="r3k2r/pppb1ppp/8/4p1q1/3Q3P/8/PPP2PPP/R3K2R w KQkq - 0 1",
            moves="Qxd7+ Kxd7 hxg5",
            why="both queens hang: White's takes a bishop before it goes",
        ),
        Example(
            fen="6k1/pp4pp/2pp4/4N3/8/8/PP3P1P/6K1 w - - 0 1",
            moves="Nxc6 bxc6",
            shows=False,
            why="the knight could simply go",
        ),
    ),
)
