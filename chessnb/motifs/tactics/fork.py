"""Fork: one piece attacks two or more at once.

What counts
    The piece or pawn that has just moved attacks at least two targets: a king,
    an undefended piece, a more valuable one, one that an exchange on its
    square would win, or a square where it would mate.  Where there is only one
    such target, undefended pawns count as well if the move wins something.  In
    most lines it then takes one of its targets, or mates, whatever is saved.

What does not
    Two attacks of which one reply answers both, such as a check by one of the
    attacked pieces.  A fork after which the forking piece is taken for good.
    A capture that is all that is won; a mate that is forced elsewhere.

What shows it
    The forking piece and its targets.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.naming import listed
from chessnb.board.squares import name
from chessnb.board.turns import as_if_to_move, moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, The, force, ring, the, ticks
from chessnb.motifs.line_steps import steps
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.targets import attacked_by, is_undefended, targets_of

NAME = "fork"


def find(case: Case) -> Iterator[Tag]:
    """Find a fork by the piece that moves."""
    board, forker = case.after, case.move.to_square
    pieces = targets_of(board, forker, case.side)
    small = case.proof is not None and not case.gives_discovered_check
    pawns = _pawns(board, forker, case.side) if small else []
    mates = _mating_squares(board, forker, case.side) if pieces or pawns else []
    pieces = pieces if len(pieces) + len(mates) > 1 else [*pieces, *pawns]
    squares = sorted({*pieces, *mates})
    if len(squares) < 2:
        return
    yield case.tag(
        NAME,
        sound=_pays(case, set(pieces), set(mates)),
        actor=forker,
        targets=squares,
        sentence=_sentence(board, forker, pieces, mates),
        marks=(
            ring(forker),
            *(force(forker, square) for square in squares),
            *(ticks(square) for square in squares),
        ),
    )


def _sentence(
    board: chess.Board, forker: chess.Square, pieces: list[chess.Square], mates: list[chess.Square]
) -> str:
    words = f"{The(board, forker)} {'forks' if len(pieces) > 1 else 'attacks'} "
    words += listed(the(board, square) for square in sorted(pieces))
    if mates:
        words += f" and threatens mate on {listed(map(name, sorted(mates)), joint='or')}"
    return words


def _pays(case: Case, pieces: set[chess.Square], mates: set[chess.Square]) -> bool:
    """Tell whether the forking piece takes one of its targets, or mates, whatever is saved."""
    king = case.after.king(not case.side)
    if case.proof is None or case.in_hand or (case.mates and not mates):
        return False
    if _taken_for_good(case):
        return False
    others = pieces - {king}

    def taken(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line):
            if step.side == case.side:
                pays = step.taken in others or step.move.to_square in mates
                return step.mover == case.move.to_square and pays
        return False

    return case.mostly(taken)


def _taken_for_good(case: Case) -> bool:
    """Tell whether the forking piece is taken in the line that is shown, and not avenged there."""
    first = case.replies[0]
    forker = case.move.to_square
    return first.move.to_square == forker and (
        first.answer is None or first.answer.to_square != forker
    )


def _pawns(board: chess.Board, forker: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the undefended enemy pawns that are attacked: small targets, but won all the same."""
    return [
        square
        for square in attacked_by(board, forker, not side)
        if board.piece_type_at(square) == chess.PAWN and is_undefended(board, square)
    ]


def _mating_squares(
    board: chess.Board, forker: chess.Square, side: chess.Color
) -> list[chess.Square]:
    """Return the squares where the forking piece would mate if its side could move again."""
    if board.is_check():
        return []
    ours = as_if_to_move(board, side)
    if not ours.is_valid():
        return []
    return [
        move.to_square
        for move in ours.legal_moves
        if move.from_square == forker and moved(ours, [move]).is_checkmate()
    ]


def why_not(case: Case) -> str:
    """Say that the piece attacks one target only, or none."""
    forker = case.move.to_square
    targets = targets_of(case.after, forker, case.side)
    targets += _mating_squares(case.after, forker, case.side)
    if len(targets) > 1:
        return ""
    if targets:
        return f"{the(case.after, forker)} attacks one target only, {the(case.after, targets[0])}"
    return f"{the(case.after, forker)} attacks nothing that is undefended or worth more than itself"


MOTIF = Motif(
    name=NAME,
    rank=30,
    also=("double attack",),
    telling=6,
    definition=(
        "One piece that has just moved attacks two or more targets at once, each a king, an "
        "undefended piece, a more valuable one or a mating square; no single reply saves them all."
    ),
    find=find,
    why_not=why_not,
    examples=(
        Example(
            fen="r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1",
            moves="Nc7+ Kd8 Nxa8",
            why="king and rook are attacked at once",
        ),
        Example(
            fen="2r1r1k1/5pp1/7p/8/2N5/7P/5PP1/6K1 w - - 0 1",
            moves="Nd6 Rc1+",
            shows=False,
            why="one rook goes with check, then there is time for the other",
        ),
    ),
)
