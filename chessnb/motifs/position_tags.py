"""The tags of a position: patterns that stand on the board, whoever is to move."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.squares import Square, read_squares
from chessnb.board.turns import as_if_to_move
from chessnb.findings import gathered
from chessnb.findings.record_fields import place_of
from chessnb.mistakes import checked
from chessnb.motifs.case import BUDGET
from chessnb.motifs.collection import MOTIFS
from chessnb.motifs.evidence import Tag, Tags
from chessnb.motifs.frame import Frame
from chessnb.motifs.position_facts import bearing, position_facts
from chessnb.motifs.targets import worth
from chessnb.motifs.told_gain import kept_gain, told_line
from chessnb.proof import Gain, Measure, Proof, TooWild
from chessnb.search.budget import finish
from chessnb.search.prover import proving


@gathered
@checked
def tags(
    position: Position,
    *,
    geometric: bool = False,
    facts: bool = False,
    squares: Square | Iterable[Square] = (),
    budget: int = BUDGET,
) -> Tags:
    """Name the patterns of a position, whoever is to move.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    geometric : bool
        Also return patterns that win nothing that is proved.
    facts : bool
        Also return its pawn and square facts, which are no tactics; see
        :mod:`chessnb.motifs.position_facts`.
    squares : sequence of str or chess.Square
        Also tell what attacks and what defends these squares.
    budget : int
        Positions for each question.

    Returns
    -------
    Tags
        A tuple of tags: the tactics, White's first, then the facts.  A
        pattern is sound if its side is to move and wins something by taking
        one of its targets.

    Examples
    --------
    >>> print(tags("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1")[0].sentence)
    The bishop on b5 pins the knight on c6 to the king on e8: it may not move
    >>> print(tags("4k3/8/8/8/8/8/P7/4K3 w - - 0 1", facts=True)[1].sentence)
    The pawn on a2 is passed: no enemy pawn can stop it on its way
    """
    board = read_position(position)
    found = []
    for motif in MOTIFS:
        if motif.static is not None:
            found += [_backed(board, one, budget) for one in motif.static(board)]
    found.sort(key=lambda one: not one.side)
    told = [one for one in found if geometric or one.sound]
    if facts:
        told += position_facts(board)
    asked = (bearing(board, square) for square in read_squares(squares))
    return Tags((*told, *asked), place=place_of(board))


def _backed(board: chess.Board, found: Tag, budget: int) -> Tag:
    """Add to a pattern the proof of what its side wins by taking a target, if it does."""
    ours = as_if_to_move(board, found.side)
    if not ours.is_valid() or board.turn != found.side:
        return found
    best: Proof | None = None
    shown: tuple[chess.Move, ...] = ()
    for target in map(chess.parse_square, found.targets):
        for move in sorted(ours.legal_moves, key=chess.Move.uci):
            if move.to_square != target or not ours.is_capture(move):
                continue
            won = _most(ours, move, worth(ours, target), budget)
            if won is not None and (best is None or _points(won[0]) > _points(best)):
                best, shown = won
    return found if best is None else replace(found, proof=best, shown=shown)


def _most(
    board: chess.Board, move: chess.Move, most: int, budget: int
) -> tuple[Proof, tuple[chess.Move, ...]] | None:
    """Return what a capture is proved to win, up to `most` points, and the line that shows it."""
    try:
        frame, base, won = Frame.of(board), Measure.gain(board), None
    except TooWild:
        return None
    points = 1
    while points <= most:
        goal = Gain(points=points, within=2, measure=base)
        asked = proving(
            frame.board(board), frame.goal(goal), key=frame.move(move), budget=budget, explain=False
        )
        if (turned := finish(asked).proof) is None:
            break
        kept, line = kept_gain(turned, budget)
        proof = frame.back(kept, board)
        won = proof, told_line(proof, (frame.moves(line),), 1, otherwise=True)
        points = _points(proof) + 1
    return won


def _points(proof: Proof) -> int:
    assert isinstance(proof.goal, Gain)
    return proof.goal.points
