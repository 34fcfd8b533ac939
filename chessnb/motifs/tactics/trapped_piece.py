"""Trapped piece: it is attacked, and no move saves it.

What counts
    An enemy piece, no pawn, can be taken at a profit where it stands and on
    every square that it can go to, and was not lost already before our move.
    No other reply saves it: in most lines it falls within two of our moves.

What does not
    A piece that is pinned to its king: that is a pin.  A check: what falls
    after it falls for want of time.  A piece with one safe square, or one that
    sells itself for enough.

What shows it
    The piece, what attacks it, and the squares that are covered.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.turns import as_if_to_move, moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, dots, force, ring, the, ticks
from chessnb.motifs.line_steps import steps
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.targets import worth

NAME = "trapped piece"


def find(case: Case) -> Iterator[Tag]:
    """Find a move after which an enemy piece is lost wherever it goes."""
    if case.proof is None or case.in_hand or case.gives_check:
        return
    for square in chess.SquareSet(case.after.occupied_co[not case.side]):
        if case.after.piece_type_at(square) in (chess.PAWN, chess.KING):
            continue
        pinned = case.after.is_pinned(not case.side, square)
        if pinned or not case.after.attackers(case.side, square):
            continue
        caught = _is_caught(case.after, square) and not _was_caught(case, square)
        if caught and _always_falls(case, square):
            yield _tag(case, square)


def _is_caught(board: chess.Board, square: chess.Square) -> bool:
    """Tell whether a piece is lost where it stands, and on every square that it can go to."""
    ours = as_if_to_move(board, not board.turn)
    if not ours.is_valid() or not gain_on(ours, square):
        return False
    return all(
        gain_on(moved(board, [move]), move.to_square) > worth(board, move.to_square)
        for move in board.legal_moves
        if move.from_square == square
    )


def _was_caught(case: Case, square: chess.Square) -> bool:
    theirs = as_if_to_move(case.before, not case.side)
    return (
        theirs.is_valid()
        and case.before.color_at(square) is not None
        and _is_caught(theirs, square)
    )


def _always_falls(case: Case, square: chess.Square) -> bool:
    def falls(line: tuple[chess.Move, ...]) -> bool:
        return any(
            step.taken == square and step.side == case.side for step in steps(case.after, line[:4])
        )

    return case.mostly(falls)


def _tag(case: Case, square: chess.Square) -> Tag:
    attackers = sorted(
        case.after.attackers(case.side, square), key=lambda one: one != case.move.to_square
    )
    exits = [move.to_square for move in case.after.legal_moves if move.from_square == square]
    return case.tag(
        NAME,
        sound=True,
        actor=attackers[0],
        targets=(square,),
        squares=exits,
        sentence=(
            f"{The(case.after, attackers[0])} attacks {the(case.after, square)}, which has "
            f"{'no safe square' if exits else 'no move'}"
        ),
        marks=(
            ring(attackers[0]),
            force(attackers[0], square),
            ticks(square),
            *(dots(one) for one in exits),
        ),
    )


MOTIF = Motif(
    name=NAME,
    rank=240,
    also=("trapped",),
    definition="An attacked piece has no move, and there is no other reply, that saves it.",
    find=find,
    examples=(
        Example(
            fen="6k1/5ppp/8/8/8/1P6/b1K2PPP/8 w - - 0 1",
            moves="Kb2 Bxb3 Kxb3",
            why="the bishop has no safe square",
        ),
        Example(
            fen="6k1/5ppp/8/8/8/8/b1K2PPP/8 w - - 0 1",
            moves="Kb2 Bd5",
            shows=False,
            why="the long diagonal is open to it",
        ),
    ),
)
