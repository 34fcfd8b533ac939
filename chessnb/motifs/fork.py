"""Fork: one man attacks two or more at once."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import listed
from chessnb.board.squares import name
from chessnb.board.turns import as_if_to_move, moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, force, ring, the, ticks
from chessnb.motifs.targets import attacked_by, is_loose, is_target
from chessnb.motifs.tracking import steps


def targets_of(board: chess.Board, forker: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the enemy men that a man attacks and that are worth attacking.

    A king, an unguarded piece, a dearer piece, or one that an exchange on its
    square would win.
    """
    ours = as_if_to_move(board, side)
    settles = ours.is_valid()
    return [
        square
        for square in attacked_by(board, forker, not side)
        if is_target(board, forker, square)
        or (settles and board.piece_type_at(square) != chess.PAWN and gain_on(ours, square))
    ]


def loose_pawns(board: chess.Board, man: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the unguarded enemy pawns that a man attacks: small targets, but won all the same."""
    return [
        square
        for square in attacked_by(board, man, not side)
        if board.piece_type_at(square) == chess.PAWN and is_loose(board, square)
    ]


def mating_squares(board: chess.Board, man: chess.Square, side: chess.Color) -> list[chess.Square]:
    """Return the squares where a man would mate if its side could move again."""
    if board.is_check():
        return []
    ours = as_if_to_move(board, side)
    if not ours.is_valid():
        return []
    return [
        move.to_square
        for move in ours.legal_moves
        if move.from_square == man and moved(ours, [move]).is_checkmate()
    ]


def find(case: Case) -> Iterator[Tag]:
    """Find a fork by the man that moves."""
    board, forker = case.after, case.move.to_square
    men = targets_of(board, forker, case.side)
    small = case.proof is not None and not case.gives_discovered_check
    pawns = loose_pawns(board, forker, case.side) if small else []
    mates = mating_squares(board, forker, case.side) if men or pawns else []
    men = men if len(men) + len(mates) > 1 else [*men, *pawns]
    squares = sorted({*men, *mates})
    if len(squares) < 2:
        return
    yield case.tag(
        "fork",
        sound=_sound(case, set(men), set(mates)),
        actor=forker,
        targets=squares,
        sentence=_sentence(board, forker, men, mates),
        marks=(
            ring(forker),
            *(force(forker, square) for square in squares),
            *(ticks(square) for square in squares),
        ),
    )


def _sentence(
    board: chess.Board, forker: chess.Square, men: list[chess.Square], mates: list[chess.Square]
) -> str:
    words = f"{The(board, forker)} {'forks' if len(men) > 1 else 'attacks'} "
    words += listed(the(board, square) for square in sorted(men))
    if mates:
        words += f" and threatens mate on {listed(map(name, sorted(mates)), joint='or')}"
    return words


def _sound(case: Case, men: set[chess.Square], mates: set[chess.Square]) -> bool:
    """Tell whether the forking man takes one of its targets, or mates, whatever is saved."""
    king = case.after.king(not case.side)
    if case.proof is None or case.in_hand or (case.mates and not mates):
        return False
    if _taken_for_good(case):
        return False
    others = men - {king}

    def taken(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line):
            if step.side == case.side:
                hit = step.taken in others or step.move.to_square in mates
                return step.mover == case.move.to_square and hit
        return False

    return case.mostly(taken)


def _taken_for_good(case: Case) -> bool:
    """Tell whether the forking man is taken in the line that is shown, and not avenged there."""
    first = case.replies[0]
    forker = case.move.to_square
    return first.move.to_square == forker and (
        first.answer is None or first.answer.to_square != forker
    )


MOTIF = Motif(
    name="fork",
    definition=(
        "One man that has just moved attacks two or more targets at once, each a king, an "
        "unguarded piece, a dearer piece or a mating square; no single reply saves them all."
    ),
    find=find,
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
