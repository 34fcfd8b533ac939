"""Refutations: a mate that there is not, shown by one reply to each of the attacker's moves.

A search that finds no mate is believed; a refutation is replayed, with
python-chess alone, as a proof is.  It grows with every move of the attacker
(about thirty replies for a mate in two, a thousand for one in three), so only
small ones are made.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.proof.checker import BrokenProof
from chessnb.proof.goals import Mate


@dataclass(frozen=True, kw_only=True)
class Tries:
    """What answers each of the attacker's moves in one position.

    Attributes
    ----------
    answers : tuple of (str, str, Tries)
        For every legal move of the attacker's, UCI: the reply to it, empty
        where it stalemates, and what answers its next moves.  Empty where its
        last move is next: then the rules say whether one of its moves mates.
    """

    answers: tuple[tuple[str, str, Tries], ...] = ()

    @property
    def size(self) -> int:
        """How many replies it holds."""
        return sum(1 + further.size for _, _, further in self.answers)


@dataclass(frozen=True, kw_only=True)
class Refutation:
    """A mate that cannot be forced, and the replies that prevent it.

    Attributes
    ----------
    fen : str
        The position.
    attacker : chess.Color
        The side that does not mate; either side may be to move.
    goal : Mate
        Within how many moves it does not.
    first : str
        UCI of the defender's first move, if the defender is to move.
    tries : Tries
        What answers the attacker's moves.
    """

    fen: str
    attacker: chess.Color
    goal: Mate
    first: str = ""
    tries: Tries = Tries()

    @property
    def size(self) -> int:
        """How many replies it holds."""
        return bool(self.first) + self.tries.size


def check_refutation(refutation: Refutation) -> None:
    """Replay a refutation.

    Raises
    ------
    BrokenProof
        If a move of the attacker's has no reply, a reply is not legal, or a
        line ends in mate after all.

    Notes
    -----
    Costs about a millisecond for each reply that it holds.
    """
    try:
        board = chess.Board(refutation.fen)
    except ValueError as error:
        raise BrokenProof(f"its position is no position: {error}") from None
    if not board.is_valid():
        raise BrokenProof("its position cannot be played")
    if bool(refutation.first) != (board.turn != refutation.attacker):
        raise BrokenProof("it begins with the wrong side")
    if refutation.first:
        _push(board, refutation.first)
    _replay(board, refutation.tries, refutation.goal.within)


def _replay(board: chess.Board, tries: Tries, left: int) -> None:
    """Check what answers the attacker's moves, so many of which are left."""
    given = {move: (reply, further) for move, reply, further in tries.answers}
    legal = [move.uci() for move in board.legal_moves]
    if left > 1 and (sorted(given) != sorted(legal) or len(tries.answers) != len(given)):
        raise BrokenProof(f"moves are missing or do not belong: {sorted(set(given) ^ set(legal))}")
    if left == 1 and given:
        raise BrokenProof("replies where none is left to give")
    for move in legal:
        board.push_uci(move)
        if board.is_checkmate():
            raise BrokenProof(f"{move} mates")
        if left > 1:
            _replay_reply(board, *given[move], left=left - 1)
        board.pop()


def _replay_reply(board: chess.Board, reply: str, further: Tries, *, left: int) -> None:
    if not reply:
        if any(board.legal_moves) or further.answers:
            raise BrokenProof("a reply is missing")
        return
    _push(board, reply)
    _replay(board, further, left)
    board.pop()


def _push(board: chess.Board, reply: str) -> None:
    try:
        move = board.parse_uci(reply)
    except ValueError:
        raise BrokenProof(f"{reply} is not legal") from None
    if not move:
        raise BrokenProof("nobody may pass")
    board.push(move)
