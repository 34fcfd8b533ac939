"""Perpetual check, stalemate trick and windmill: checks that repeat, and a draw that saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from chessnb.board.naming import listed
from chessnb.board.points import balance
from chessnb.board.squares import name
from chessnb.motifs.case import Case
from chessnb.motifs.discovery import opened
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.proof import Perpetual, Stalemate

BEHIND = -2
"""A draw saves a side that is at least so many points behind."""


def perpetual(case: Case) -> Iterator[Tag]:
    """Find a check of the side that is behind after which the checks never end."""
    behind = balance(case.before, case.side) <= BEHIND
    if not behind or not case.gives_check or case.proof is not None:
        return
    outcome = case.ask(case.before, Perpetual(), key=case.move)
    if outcome.proof is None or (king := case.after.king(not case.side)) is None:
        return
    mover = case.move.to_square
    found = case.tag(
        "perpetual check",
        sound=False,
        actor=mover,
        targets=(king,),
        sentence=f"{The(case.after, mover)} checks {the(case.after, king)} for ever",
        marks=(ring(mover), force(mover, king)),
    )
    yield replace(found, proof=outcome.proof, shown=outcome.proof.main_line)


def stalemate(case: Case) -> Iterator[Tag]:
    """Find a move of the side that is behind that forces a stalemate."""
    behind = balance(case.before, case.side) <= BEHIND
    if not behind or case.proof is not None or not _is_shut_in(case):
        return
    if case.after.is_stalemate() or not (case.gives_check or case.gives_up):
        return
    outcome = case.ask(case.before, Stalemate(within=3), key=case.move)
    if outcome.proof is None:
        return
    mover = case.move.to_square
    found = case.tag(
        "stalemate trick",
        sound=False,
        actor=mover,
        squares=(mover,),
        sentence=(
            f"{The(case.after, mover)} offers itself on {name(mover)}: "
            f"{case.us} would have no move left"
        ),
        marks=(ring(mover),),
    )
    yield replace(found, proof=outcome.proof, shown=outcome.proof.main_line)


def _is_shut_in(case: Case) -> bool:
    """Tell whether our men other than the one that moved can hardly move."""
    others = [move for move in case.before.legal_moves if move.from_square != case.move.from_square]
    return len(others) <= 3


def windmill(case: Case) -> Iterator[Tag]:
    """Find checks and discovered checks by two pieces in turn that take on the way."""
    king = case.after.king(not case.side)
    behind = [piece for piece, target in opened(case) if target == king]
    if king is None or not behind or case.proof is None:
        return
    mover, turns, taken = case.move.to_square, 1, []
    board = case.after.copy(stack=False)
    line = case.line or case.shown[1:]
    if case.captured is not None:
        taken.append(the(case.before, mover))
    for move in line:
        if board.turn == case.side:
            victim = the(board, move.to_square) if board.is_capture(move) else ""
            if move.from_square != mover or not board.gives_check(move):
                break
            mover, turns = move.to_square, turns + 1
            taken += [victim] if victim else []
        board.push(move)
    if turns < 3 or not taken:
        return
    yield case.tag(
        "windmill",
        sound=True,
        actor=case.move.to_square,
        targets=(behind[0],),
        squares=(case.move.from_square,),
        sentence=(
            f"{The(case.after, behind[0])} and {the(case.after, case.move.to_square)} check in "
            f"turn and take {listed(taken)} on the way"
        ),
        marks=(ring(behind[0]), ring(case.move.to_square), force(behind[0], king), ticks(king)),
    )


PERPETUAL = Motif(
    name="perpetual check",
    definition="The side that is behind checks without end: no reply escapes the checks.",
    find=perpetual,
    own_proof=True,
    examples=(
        Example(
            fen="6k1/6p1/8/7Q/8/8/qr4PP/7K w - - 0 1",
            moves="Qe8+ Kh7 Qh5+",
            why="White is far behind, and checks for ever",
        ),
        Example(
            fen="6k1/8/8/7Q/8/8/qr4PP/7K w - - 0 1",
            moves="Qe8+ Kg7",
            shows=False,
            why="the king walks out of the checks",
        ),
    ),
)
STALEMATE = Motif(
    name="stalemate trick",
    definition="The side that is behind gives its last movable man away, and is stalemated.",
    find=stalemate,
    own_proof=True,
    examples=(
        Example(
            fen="r5k1/5ppp/8/8/8/6q1/8/4R2K w - - 0 1",
            moves="Re8+ Rxe8",
            why="the king has no square, and the rook must be taken",
        ),
        Example(
            fen="r5k1/5ppp/8/8/8/6q1/P7/4R2K w - - 0 1",
            moves="Re8+ Rxe8",
            shows=False,
            why="the pawn on a2 still moves",
        ),
    ),
)
WINDMILL = Motif(
    name="windmill",
    definition=(
        "Check and discovered check by two pieces in turn, again and again, with men taken on the "
        "way."
    ),
    find=windmill,
    examples=(
        Example(
            fen="r6k/pb3pRp/5B2/8/8/8/5PPP/6K1 w - - 0 1",
            moves="Rxf7+ Kg8 Rg7+ Kh8 Rxb7+ Kg8",
            why="the rook takes a pawn and a bishop, and the king goes to and fro",
        ),
        Example(
            fen="b6k/6Rp/5B2/8/8/8/5PPP/6K1 w - - 0 1",
            moves="Ra7+ Kg8 Rxa8+",
            shows=False,
            why="one discovered check, and the rook does not come back",
        ),
    ),
)
