"""Skewer: the valuable piece in front must go, and the one behind it falls.

What counts
    A line piece attacks a king, or a piece worth at least as much as the one
    behind it on the same line.  The front one must go: it is worth more than
    the attacker, or undefended.  The rear one (no pawn) then falls: nothing
    but the king in front defends it, or it is worth more than the attacker.
    In the line the attacker takes the rear one, or the front one where that
    stays.

What does not
    A front piece that goes with a threat that comes first, or steps aside and
    still defends the other.  A more valuable piece behind: that is a pin.

What shows it
    The attacker, the front and the rear piece, and the line.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.lines import behind, is_slider, moves_along
from chessnb.diagrams import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, static_tag, the, ticks
from chessnb.motifs.line_steps import steps
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.targets import attacked_by, is_undefended, worth

NAME = "skewer"

SkewerLine = tuple[chess.Square, chess.Square, chess.Square]
"""The attacker, the piece in front, the piece behind it."""


def skewers(board: chess.Board, side: chess.Color) -> Iterator[SkewerLine]:
    """Yield where a side's line piece attacks a piece with one worth no more behind it."""
    for attacker in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, attacker):
            continue
        for front in attacked_by(board, attacker, not side):
            if moves_along(board, attacker, front):
                yield from _through(board, attacker, front)


def _through(
    board: chess.Board, attacker: chess.Square, front: chess.Square
) -> Iterator[SkewerLine]:
    rear = behind(board, attacker, front)
    if rear is None or board.color_at(rear) != board.color_at(front):
        return
    if board.piece_type_at(rear) in (chess.PAWN, chess.KING):
        return
    dear = worth(board, front) >= worth(board, rear)
    must_go = worth(board, front) > worth(board, attacker) or is_undefended(board, front)
    king_alone = not any(
        board.piece_type_at(one) != chess.KING or one != front
        for one in board.attackers(not bool(board.color_at(attacker)), rear)
    )
    falls = king_alone or is_undefended(board, rear) or worth(board, rear) > worth(board, attacker)
    if dear and must_go and falls:
        yield attacker, front, rear


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the skewers of a position, of both sides."""
    for side in chess.COLORS:
        for skewer in skewers(board, side):
            attacker, front, rear = skewer
            yield static_tag(
                NAME,
                board,
                side=side,
                actor=attacker,
                targets=(front, rear),
                squares=tuple(chess.SquareSet.between(attacker, rear)),
                sentence=_sentence(board, skewer),
                marks=_marks(skewer),
            )


def find(case: Case) -> Iterator[Tag]:
    """Find skewers that a move makes."""
    before = set(skewers(case.before, case.side))
    for skewer in skewers(case.after, case.side):
        attacker, front, rear = skewer
        opens = case.move.from_square in chess.SquareSet.between(attacker, rear)
        if skewer in before or not (opens or attacker == case.move.to_square):
            continue
        yield case.tag(
            NAME,
            sound=_pays(case, skewer),
            actor=attacker,
            targets=(front, rear),
            squares=tuple(chess.SquareSet.between(attacker, rear)),
            sentence=_sentence(case.after, skewer),
            marks=_marks(skewer),
        )


def _sentence(board: chess.Board, skewer: SkewerLine) -> str:
    attacker, front, rear = skewer
    return (
        f"{The(board, attacker)} skewers {the(board, front)}: "
        f"when it moves, {the(board, rear)} behind it falls"
    )


def _marks(skewer: SkewerLine) -> tuple[Mark, ...]:
    attacker, front, rear = skewer
    return ring(attacker), force(attacker, front), ticks(front), ticks(rear)


def _pays(case: Case, skewer: SkewerLine) -> bool:
    """Tell whether the attacker takes the piece behind, or the one in front where that stays."""
    attacker, front, rear = skewer
    if case.proof is None or case.in_hand:
        return False

    def takes(line: tuple[chess.Move, ...], what: set[chess.Square]) -> bool:
        ours = [step for step in steps(case.after, line) if step.side == case.side]
        return bool(ours) and ours[0].mover == attacker and ours[0].taken in what

    behind_falls = any(takes(line, {rear}) for line in case.lines)
    return behind_falls and case.mostly(lambda line: takes(line, {front, rear}))


def why_not(case: Case) -> str:
    """Say that no piece is attacked with a lesser one behind it, if none is."""
    if any(True for _ in skewers(case.after, case.side)):
        return ""
    return "no line piece attacks a piece that has another, worth no more, behind it"


MOTIF = Motif(
    name=NAME,
    rank=40,
    telling=6,
    definition=(
        "A line piece attacks a king or a piece worth at least as much as the one behind it on the "
        "same line; when the first moves, the second falls."
    ),
    find=find,
    static=static,
    why_not=why_not,
    examples=(
        Example(
            fen="4q3/8/8/4k3/8/8/6PP/R5K1 w - - 0 1",
            moves="Re1+ Kd5 Rxe8",
            why="the king must leave the file, and the queen behind it falls",
        ),
        Example(
            fen="4r3/4k3/8/8/8/8/6PP/R5K1 w - - 0 1",
            moves="Re1+ Kd8",
            shows=False,
            why="the king steps aside and still defends the rook",
        ),
    ),
)
