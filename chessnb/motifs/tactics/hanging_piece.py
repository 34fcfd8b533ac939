"""Hanging piece: it can be taken, and the exchange on its square wins material.

What counts
    A piece, no pawn, stands where taking it wins at once: nothing defends it,
    or it is worth more than what takes it, or it is attacked more often than
    it is defended.  Taking it is, but for a pawn or so, all that is won.

What does not
    A piece whose defender takes back at no loss.  A capture that mates, or
    that wins more by what follows: then something else is the tactic.

What shows it
    The piece, what takes it, and what defends it in vain.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import listed
from chessnb.board.turns import as_if_to_move
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, static_tag, the, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.targets import defenders, worth

NAME = "hanging piece"


def find(case: Case) -> Iterator[Tag]:
    """Find a capture that wins a piece on its square, and nothing else."""
    if case.captured is None or case.captured.piece_type == chess.PAWN or not case.in_hand:
        return
    if case.mates:
        return  # what it takes is not what counts
    square, start = case.move.to_square, case.move.from_square
    yield case.tag(
        NAME,
        sound=True,
        actor=square,
        targets=(square,),
        squares=tuple(case.before.attackers(not case.side, square)),
        sentence=f"{The(case.before, start)} takes {_words(case.before, square, start)}",
        marks=(ring(start), force(start, square), ticks(square)),
        board=case.before,
    )


def static(board: chess.Board) -> Iterator[Tag]:
    """Find the pieces of a position that an exchange on their square would win."""
    for side in chess.COLORS:
        ours = as_if_to_move(board, side)
        if not ours.is_valid():
            continue
        for square in chess.SquareSet(board.occupied_co[not side]):
            if board.piece_type_at(square) in (chess.PAWN, chess.KING):
                continue
            attackers = list(board.attackers(side, square))
            if not attackers or not gain_on(ours, square):
                continue
            yield static_tag(
                NAME,
                board,
                side=side,
                actor=square,
                targets=(square,),
                squares=attackers,
                sentence=f"{listed(the(board, one) for one in attackers).capitalize()} "
                f"{'attacks' if len(attackers) == 1 else 'attack'} "
                f"{_words(board, square, min(attackers, key=lambda one: worth(board, one)))}",
                marks=(*(force(one, square) for one in attackers), ticks(square)),
            )


def _words(board: chess.Board, square: chess.Square, taker: chess.Square) -> str:
    """Name a piece with its defenders, and say why they do not help."""
    owner = bool(board.color_at(square))
    keepers = defenders(board, square, owner)
    if not keepers:
        return f"{the(board, square)}, which nothing defends"
    names = listed(the(board, one) for one in keepers)
    verb = "defends" if len(keepers) == 1 else "defend"
    if worth(board, taker) < worth(board, square):
        return f"{the(board, square)}, which is worth more, although {names} {verb} it"
    return f"{the(board, square)}, which only {names} {verb}"


MOTIF = Motif(
    name=NAME,
    rank=180,
    also=("hanging",),
    telling=2,
    definition="A piece can be taken, and the exchange on its square wins material.",
    find=find,
    static=static,
    examples=(
        Example(
            fen="6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Rxd5",
            why="nothing defends the knight",
        ),
        Example(
            fen="6k1/5ppp/4p3/3n4/8/8/5PPP/3R2K1 w - - 0 1",
            moves="Rxd5 exd5",
            shows=False,
            why="the pawn defends the knight",
        ),
    ),
)
