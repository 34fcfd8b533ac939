"""Battery and x-ray: two line pieces of one side on one line, or a line seen through a man."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import beyond, is_slider, moves_along
from chessnb.board.squares import name
from chessnb.diagrams import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import (
    Example,
    Motif,
    Tag,
    The,
    dashes,
    force,
    ring,
    static_tag,
    the,
    ticks,
)

Battery = tuple[chess.Square, chess.Square, chess.Square]
"""The piece behind, the piece in front, the enemy man that it hits."""


def batteries(board: chess.Board, side: chess.Color) -> Iterator[Battery]:
    """Yield two line pieces of a side, one behind the other, with an enemy man ahead."""
    for rear in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, rear):
            continue
        for front in board.attacks(rear) & board.occupied_co[side]:
            both = is_slider(board, front) and moves_along(board, front, rear)
            if both and moves_along(board, rear, front):
                target = _ahead(board, rear, front)
                if target is not None and board.color_at(target) != side:
                    yield rear, front, target


def _ahead(board: chess.Board, rear: chess.Square, front: chess.Square) -> chess.Square | None:
    return next((one for one in beyond(rear, front) if board.piece_at(one) is not None), None)


def find(case: Case) -> Iterator[Tag]:
    """Find a battery that the move forms, and that then breaks through."""
    old = set(batteries(case.before, case.side))
    for battery in batteries(case.after, case.side):
        if battery in old or case.move.to_square not in battery[:2]:
            continue
        rear, front, target = battery
        yield case.tag(
            "battery",
            sound=_breaks_through(case, front),
            actor=front,
            targets=(target,),
            squares=(rear,),
            sentence=_words(case.after, battery),
            marks=_marks(battery),
        )


def _breaks_through(case: Case, front: chess.Square) -> bool:
    if case.proof is None or case.in_hand or not case.replies:
        return False
    answer = case.replies[0].answer
    if answer is None or answer.from_square != front:
        return False
    board = case.replies[0].board
    return board.is_capture(answer) and bool(board.attackers(not case.side, answer.to_square))


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the batteries of a position, of both sides."""
    for side in chess.COLORS:
        for battery in batteries(board, side):
            rear, front, target = battery
            yield static_tag(
                "battery",
                board,
                side=side,
                actor=front,
                targets=(target,),
                squares=(rear,),
                sentence=_words(board, battery),
                marks=_marks(battery),
            )


def _words(board: chess.Board, battery: Battery) -> str:
    rear, front, target = battery
    return (
        f"{The(board, rear)} backs {the(board, front)} on one line, which leads to "
        f"{the(board, target)}"
    )


def _marks(battery: Battery) -> tuple[Mark, ...]:
    rear, front, target = battery
    return ring(rear), ring(front), force(front, target), ticks(target)


def xray(case: Case) -> Iterator[Tag]:
    """Find a move to a square that a line piece of ours guards through an enemy man."""
    square = case.move.to_square
    for reply in case.critical:
        through = reply.move.from_square
        if reply.move.to_square != square or reply.answer is None:
            continue
        helper = reply.answer.from_square
        if reply.answer.to_square != square or helper == square:
            continue
        if not is_slider(case.after, helper) or not moves_along(case.after, helper, square):
            continue
        between = chess.SquareSet.between(helper, square) & case.after.occupied
        if between != chess.SquareSet([through]):
            continue
        yield case.tag(
            "x-ray",
            sound=True,
            actor=helper,
            targets=(square,),
            squares=(through,),
            sentence=(
                f"{The(case.after, helper)} guards {name(square)} through "
                f"{the(case.after, through)}: when that takes, it takes back"
            ),
            marks=(ring(helper), dashes(helper, square), ticks(through)),
        )


MOTIF = Motif(
    name="battery",
    definition=(
        "Two line pieces of one side stand on one line with nothing between them, and the front "
        "one strikes because the other backs it."
    ),
    find=find,
    static=static,
    examples=(
        Example(
            fen="3r2k1/3b1ppp/8/8/8/8/3R1PPP/R5K1 w - - 0 1",
            moves="Rad1 Kf8 Rxd7",
            why="two rooks against one guard",
        ),
        Example(
            fen="3r2k1/p2b1ppp/2n5/8/8/8/3R1PPP/R5K1 w - - 0 1",
            moves="Rad1 Kf8",
            shows=False,
            why="the bishop may leave: the knight guards the rook",
        ),
    ),
)
XRAY = Motif(
    name="x-ray",
    definition="A line piece guards a square through an enemy man that stands between.",
    find=xray,
    examples=(
        Example(
            fen="6k1/5ppp/8/Q2q4/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Qd8+ Qxd8 Rxd8#",
            why="the rook guards d8 through the queen",
        ),
        Example(
            fen="6k1/5pp1/7p/Q2q4/8/8/5PPP/5RK1 w - - 0 1",
            moves="Qd8+ Qxd8",
            shows=False,
            why="nothing stands behind the queen on the file",
        ),
    ),
)
