"""Checks in turn: a line piece and the piece before it that check by turns, as in a windmill."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import the

Played = tuple[chess.Board, chess.Move]
"""A position, not to be changed, and the move made there."""


@dataclass(frozen=True, kw_only=True)
class Turns:
    """Checks by two pieces in turn, of which a case's move is one.

    Attributes
    ----------
    behind : chess.Square
        The line piece, which stays where it is, after the move.
    mover : chess.Square
        The piece that goes to and fro, after the move.
    taken : tuple of str
        What they take on the way, in words.
    plies : int
        How many moves, from the case's move on, show it to the end, with the next
        one of the side that checks.
    """

    behind: chess.Square
    mover: chess.Square
    taken: tuple[str, ...]
    plies: int


LEAST_TURNS = 3
"""So often at least goes the piece with check: out, back, and out again."""


def checks_in_turn(case: Case) -> Turns | None:
    """Find the windmill of which a move is a part, with the moves before and after it.

    The piece goes to and fro with check three times, twice of them it uncovers
    the check of the piece behind, and something is taken on the way.  The
    check by which the piece behind came there may begin it.
    """
    run, now = _run(case)
    for board, move in run:
        for behind in _uncovered(board, move):
            found = _turns(run, run.index((board, move)), behind)
            if now in found and (turns := _told(case, run, found, now, behind)) is not None:
                return turns
    return None


def _run(case: Case) -> tuple[list[Played], int]:
    """Return our checks on end around the move, and the place of the move among them."""
    if not case.gives_check:
        return [], 0
    earlier = list(_earlier(case))[::-1]
    return [*earlier, (case.before, case.move), *_later(case)], len(earlier)


def _earlier(case: Case) -> Iterator[Played]:
    board = case.before.copy()
    while len(board.move_stack) > 1:
        board.pop()
        move = board.pop()
        if not board.gives_check(move):
            return
        yield board.copy(stack=False), move


def _later(case: Case) -> Iterator[Played]:
    board = case.after.copy(stack=False)
    line = case.line or case.shown[1:]
    for reply, move in zip(line[::2], line[1::2], strict=False):
        board.push(reply)
        if not board.gives_check(move):
            return
        yield board.copy(stack=False), move
        board.push(move)


def _uncovered(board: chess.Board, move: chess.Move) -> chess.SquareSet:
    """Return the line pieces whose check a move uncovers."""
    after = board.copy(stack=False)
    after.push(move)
    return after.checkers() - chess.SquareSet([move.to_square])


def _turns(run: list[Played], place: int, behind: chess.Square) -> range:
    """Return the places in a run at which the same piece goes as at one of them.

    With them the move before that brings the piece behind to its square.
    """
    start = end = place
    while start > 0 and run[start - 1][1].to_square == run[start][1].from_square:
        start -= 1
    while end + 1 < len(run) and run[end + 1][1].from_square == run[end][1].to_square:
        end += 1
    uncovering = sum(behind in _uncovered(*run[one]) for one in range(start, end + 1))
    if end - start + 1 < LEAST_TURNS or uncovering < 2:
        return range(0)
    if start > 0 and run[start - 1][1].to_square == behind:
        start -= 1
    return range(start, end + 1)


def _told(
    case: Case, run: list[Played], places: range, now: int, behind: chess.Square
) -> Turns | None:
    taken = tuple(
        the(board, move.to_square)
        for board, move in (run[one] for one in places)
        if board.piece_at(move.to_square) is not None
    )
    if not taken:
        return None
    mover = case.move.to_square
    if mover == behind:
        mover = run[now + 1][1].from_square
    return Turns(behind=behind, mover=mover, taken=taken, plies=2 * (places[-1] - now) + 3)
