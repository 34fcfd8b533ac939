"""Battery: two line pieces on one line, of which the rear one backs the front one.

What counts
    Two line pieces of one side stand on one line that both move along, nothing
    between them, and an enemy piece is the next thing ahead.  The tactic is
    the move that forms the battery; it wins by it if the front piece then
    takes a defended piece.

What does not
    Two pieces on a line of which one cannot move along it.  A capture that
    would have won without the piece behind, or never comes.

What shows it
    Both pieces, the line, and what it leads to.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import beyond, is_slider, moves_along
from chessnb.diagrams import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, static_tag, the, ticks
from chessnb.motifs.motif import Example, Motif

NAME = "battery"

Battery = tuple[chess.Square, chess.Square, chess.Square]
"""The piece behind, the piece in front, the enemy piece that it attacks."""


def _batteries(board: chess.Board, side: chess.Color) -> Iterator[Battery]:
    """Yield two line pieces of a side, one behind the other, with an enemy piece ahead."""
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
    old = set(_batteries(case.before, case.side))
    for battery in _batteries(case.after, case.side):
        if battery in old or case.move.to_square not in battery[:2]:
            continue
        rear, front, target = battery
        yield case.tag(
            NAME,
            sound=_breaks_through(case, front),
            actor=front,
            targets=(target,),
            squares=(rear,),
            sentence=_sentence(case.after, battery),
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
        for battery in _batteries(board, side):
            rear, front, target = battery
            yield static_tag(
                NAME,
                board,
                side=side,
                actor=front,
                targets=(target,),
                squares=(rear,),
                sentence=_sentence(board, battery),
                marks=_marks(battery),
            )


def _sentence(board: chess.Board, battery: Battery) -> str:
    rear, front, target = battery
    return (
        f"{The(board, rear)} backs {the(board, front)} on one line, which leads to "
        f"{the(board, target)}"
    )


def _marks(battery: Battery) -> tuple[Mark, ...]:
    rear, front, target = battery
    return ring(rear), ring(front), force(front, target), ticks(target)


MOTIF = Motif(
    name=NAME,
    rank=190,
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
            why="two rooks against one defender",
        ),
        Example(
            fen="3r2k1/p2b1ppp/2n5/8/8/8/3R1PPP/R5K1 w - - 0 1",
            moves="Rad1 Kf8",
            shows=False,
            why="the bishop may leave: the knight defends the rook",
        ),
    ),
)
