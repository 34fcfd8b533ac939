"""What a gain is measured from, as part of its certificate.

A gain of 3 points means nothing without the balance that it is added to.  A
*measure* names the position in which that balance was taken, by which rule,
and how the position of the proof comes about from there; so whoever reads a
proof can work the balance out again, and nobody has to believe a number.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, get_args

import chess

from chessnb.proof.balances import WILD, TooWild, baseline, held, looks_back, settled
from chessnb.proof.counting import balance

Rule = Literal["gain", "loss", "hold", "threat", "still", "number"]
"""How a balance is taken in the measured position, in points of the attacker.

gain
    The attacker is to move: its :func:`~chessnb.proof.balances.baseline`.
loss
    The defender is to move: what it holds (:func:`~chessnb.proof.balances.held`).
hold
    The same, but never less than the balance on the board.
threat
    The defender is to move and passes: the attacker's baseline then.
still
    The defender is to move, and no history is known: its settled balance.
number
    No rule: the balance that whoever asks has named.
"""

RULES: tuple[Rule, ...] = get_args(Rule)

PASS = "0000"
"""A pass among the moves of a measure (UCI's null move)."""


@dataclass(frozen=True, kw_only=True)
class Measure:
    """The balance that a gain is measured from, and where it comes from.

    Attributes
    ----------
    rule : Rule
        How it is taken.
    fen : str
        A position from which the measured one is reached; empty for a number.
    moves : tuple of str
        UCI of the moves from there to the measured position: as much history
        as the rule looks at.
    since : tuple of str
        UCI of the moves from the measured position to that of the proof.
    named : int
        The balance itself, for a number.

    Examples
    --------
    A rook stands undefended, but it is not taken yet; taking it gains 5.

    >>> Measure.gain(chess.Board("4k3/8/8/3r4/8/8/3Q4/4K3 w - - 0 1")).value
    4
    >>> Measure.number(4).value
    4
    """

    rule: Rule
    fen: str = ""
    moves: tuple[str, ...] = ()
    since: tuple[str, ...] = ()
    named: int = 0

    @classmethod
    def gain(cls, board: chess.Board, *, since: tuple[chess.Move, ...] = ()) -> Measure:
        """Measure a gain of the side to move.

        Raises
        ------
        TooWild
            If a capture can follow upon another for so long that nobody can count.
        """
        return cls._of("gain", board, since)

    @classmethod
    def loss(cls, board: chess.Board, *, since: tuple[chess.Move, ...] = ()) -> Measure:
        """Measure a loss of the side to move: the other side's gain; raises as :meth:`gain`."""
        return cls._of("loss", board, since)

    @classmethod
    def hold(cls, board: chess.Board, *, since: tuple[chess.Move, ...] = ()) -> Measure:
        """Measure a loss from what stands on the board, where that is more than can be held.

        After a check that forks king and rook no reply keeps the rook: each
        of them loses it, although none is worse than the others.
        """
        return cls._of("hold", board, since)

    @classmethod
    def threat(cls, board: chess.Board, *, since: tuple[chess.Move, ...] = ()) -> Measure:
        """Measure what the other side would gain if the side to move passed."""
        return cls._of("threat", board, since)

    @classmethod
    def still(cls, board: chess.Board) -> Measure:
        """Measure a gain of the side that is not to move, where its last move is not known."""
        return cls._of("still", board, ())

    @classmethod
    def number(cls, named: int) -> Measure:
        """Measure from a balance that is named, in the attacker's points."""
        return cls(rule="number", named=named)

    @classmethod
    def _of(cls, rule: Rule, board: chess.Board, since: tuple[chess.Move, ...]) -> Measure:
        start = board.copy()
        plies = looks_back(board) if rule in ("gain", "loss", "hold") else 0
        moves = [start.pop() for _ in range(plies)][::-1]
        found = cls(
            rule=rule,
            fen=start.fen(),
            moves=tuple(move.uci() for move in moves),
            since=tuple(move.uci() for move in since),
        )
        _ = found.value  # a position too wild to count is told here
        return found

    def after(self, *moves: chess.Move) -> Measure:
        """Return the same measure for a position further on."""
        return Measure(
            rule=self.rule,
            fen=self.fen,
            moves=self.moves,
            since=(*self.since, *(move.uci() for move in moves)),
            named=self.named,
        )

    @property
    def value(self) -> int:
        """The balance, in the attacker's points minus the defender's.

        Raises
        ------
        TooWild
            If nobody can count it; found out once, like the balance.
        """
        if self.rule == "number":
            return self.named
        known = _value(self.rule, self.fen, self.moves)
        if known is None:
            raise TooWild(f"{WILD} [{self.measured.fen()}]")
        return known

    @property
    def measured(self) -> chess.Board:
        """The position in which it is taken, with the history that is known."""
        return _played(chess.Board(self.fen), self.moves)

    @property
    def reached(self) -> chess.Board:
        """The position of the proof that it is for."""
        return _played(self.measured, self.since)

    @property
    def attacker(self) -> chess.Color:
        """The side whose gain is measured."""
        turn = self.measured.turn
        return turn if self.rule == "gain" else not turn


@lru_cache(maxsize=4096)
def _value(rule: Rule, fen: str, moves: tuple[str, ...]) -> int | None:
    """Return the balance in a measured position; None if nobody can count it."""
    board = _played(chess.Board(fen), moves)
    if rule == "hold":  # what can be held takes long to work out where there is check
        lost = _value("loss", fen, moves)
        return None if lost is None else min(lost, -balance(board, board.turn))
    try:
        return _taken(rule, board)
    except TooWild:
        return None


def _taken(rule: Rule, board: chess.Board) -> int:
    match rule:
        case "gain":
            return baseline(board)
        case "loss":
            return -held(board)
        case "threat":
            board.push(chess.Move.null())
            board.clear_stack()
            return baseline(board)
    return -settled(board)


def _played(board: chess.Board, moves: tuple[str, ...]) -> chess.Board:
    """Play moves that the rules allow, and passes out of check.

    Raises
    ------
    ValueError
        If one of them is not.
    """
    for text in moves:
        if text == PASS and board.is_check():
            raise ValueError("nobody may pass in check")
        board.push(board.parse_uci(text))
    return board
