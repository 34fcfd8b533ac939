"""What a tag tells of a gain: all that is proved and kept, and a line in which it falls.

A proof answers the question that was asked of it, and may show more.  What is
told is raised to that, as far as it is not won back; and the line shown is one
in which just so much is won, up to where nothing hangs any more.
"""

from __future__ import annotations

from collections.abc import Sequence

import chess

from chessnb.board.exchange import hanging
from chessnb.board.points import balance
from chessnb.proof import Gain, Proof
from chessnb.proof.certificate import MATED
from chessnb.search.budget import finish
from chessnb.search.most_won import keeping_most

Line = tuple[chess.Move, ...]


def kept_gain(proof: Proof, budget: int) -> tuple[Proof, Line]:
    """Return a proof with all the points that it shows and that are kept, and its best line.

    Where part is won back, the line goes on until it is.

    Parameters
    ----------
    proof : Proof
        A proof of material; of anything else, it comes back as it is.
    budget : int
        Positions for the line in which something is won back.
    """
    if not isinstance(proof.goal, Gain) or proof.outcome == MATED:
        return proof, proof.main_line
    return finish(keeping_most(proof, proof.goal.baseline, budget))


def told_line(proof: Proof, lines: Sequence[Line], least: int, *, otherwise: bool = False) -> Line:
    """Return the first line, as far as need be, in which just what is proved is won.

    Parameters
    ----------
    proof : Proof
        A proof of material.
    lines : sequence of lines
        The lines to choose from, each from the proof's position on.
    least : int
        So many moves must be shown at least, if a line goes on so far.

    Returns
    -------
    tuple of chess.Move
        It ends where nothing of the attacker's hangs.  Empty if there is no such
        line; `otherwise` the last one.
    """
    for line in lines:
        if (until := _quiet_end(proof, line, least)) is not None:
            return line[:until]
    return with_a_queen(proof.board, lines[-1], proof.attacker) if otherwise else ()


def _quiet_end(proof: Proof, line: Line, least: int) -> int | None:
    """Return after how many moves of a line just so much is won, and all is quiet."""
    assert isinstance(proof.goal, Gain)
    board, target = proof.board, proof.goal.target
    for number, move in enumerate(line, start=1):
        underpromotes = move.promotion not in (None, chess.QUEEN) and number == len(line)
        board.push(move)
        if number < least or board.turn == proof.attacker or underpromotes:
            continue
        won = balance(board, proof.attacker)
        if won == target and not board.is_checkmate() and not hanging(board, proof.attacker):
            return number
    if not line or board.is_checkmate() or balance(board, proof.attacker) != target:
        return None
    return len(line)


def with_a_queen(board: chess.Board, line: Line, side: chess.Color) -> Line:
    """Return a line whose last move makes a queen, where another piece was not needed.

    Examples
    --------
    >>> line = (chess.Move.from_uci("h2h1b"),)
    >>> pawn = chess.Board("4k3/8/8/8/8/8/K6p/8 b - - 0 1")
    >>> with_a_queen(pawn, line, chess.BLACK)[0].uci()
    'h2h1q'
    """
    if not line or not line[-1].promotion:
        return line
    at = board.copy(stack=False)
    for move in line[:-1]:
        at.push(move)
    queen = chess.Move(line[-1].from_square, line[-1].to_square, promotion=chess.QUEEN)
    if at.turn != side:
        return line
    mates = at.copy(stack=False)
    mates.push(line[-1])
    at.push(queen)
    if at.is_stalemate() or (mates.is_checkmate() and not at.is_checkmate()):
        return line
    return (*line[:-1], queen)
