"""Making refutations: for each of the attacker's moves a reply, as the core finds it."""

from __future__ import annotations

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.sides import Side, read_side
from chessnb.mistakes import checked
from chessnb.proof import Mate, Refutation, Tries, check_refutation
from chessnb.search import core
from chessnb.search.budget import SLICE

MOST_REPLIES = 400
"""A refutation with more replies than so many is not made."""

FOR_EACH = 200_000
"""Positions for finding one reply."""


@checked
def refute_mate(position: Position, *, within: int, side: Side | None = None) -> Refutation | None:
    """Show that a side does not mate within so many moves, by a tree that was replayed.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    within : int
        The moves of the side that does not mate.
    side : {"White", "Black"} or chess.Color, optional
        The side that does not mate; the side to move if it is left out.

    Returns
    -------
    Refutation or None
        None if there is a mate, if the tree would hold more than 400 replies,
        or if a reply takes too long to find.

    Notes
    -----
    Costs up to a second; for a mate in one or two a few hundredths.

    Examples
    --------
    >>> rook = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"
    >>> refute_mate(rook, within=1).size, refute_mate(rook, within=2)
    (0, None)
    """
    board = read_position(position).copy(stack=False)
    attacker = read_side(side, default=board.turn)
    goal = Mate(within=within)
    fen, left, first = board.fen(), within, ""
    if board.turn != attacker:
        if not (first := _reply(board, attacker, left) or ""):
            return None
        board.push_uci(first)
    if board.legal_moves.count() ** (left - 1) > 4 * MOST_REPLIES:
        return None  # it would be too large: this is known before it is made
    tries = _Growing(attacker).tries(board, left)
    if tries is None:
        return None
    found = Refutation(fen=fen, attacker=attacker, goal=goal, first=first, tries=tries)
    check_refutation(found)
    return found


class _Growing:
    """A tree that grows until it is whole or too large."""

    def __init__(self, attacker: chess.Color) -> None:
        self.attacker = attacker
        self.room = MOST_REPLIES

    def tries(self, board: chess.Board, left: int) -> Tries | None:
        """Answer every move of the attacker's; None if one has no answer or room is short."""
        moves = sorted(board.legal_moves, key=chess.Move.uci)
        if left > 1:
            self.room -= len(moves)
        if self.room < 0:
            return None
        answers = []
        for move in moves:
            board.push(move)
            answer = self.answer(board, left - 1)
            board.pop()
            if answer is None:
                return None
            if left > 1:
                answers.append((move.uci(), *answer))
        return Tries(answers=tuple(answers))

    def answer(self, board: chess.Board, left: int) -> tuple[str, Tries] | None:
        """Answer the move just made: a reply, and what answers the moves that are left."""
        if not any(board.legal_moves):
            return None if board.is_check() else ("", Tries())
        if left == 0:
            return "", Tries()
        if (reply := _reply(board, self.attacker, left)) is None:
            return None
        board.push_uci(reply)
        further = self.tries(board, left)
        board.pop()
        return None if further is None else (reply, further)


def _reply(board: chess.Board, attacker: chess.Color, left: int) -> str | None:
    """Return a reply after which there is no mate within the moves that are left."""
    question = core.Question(board.fen(), attacker=attacker, mate=left)
    while question.run(SLICE) == core.OPEN and question.positions < FOR_EACH:
        pass
    return question.escape()
