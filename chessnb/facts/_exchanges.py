"""Exchange: what taking on one square brings when both sides may stop at any time."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.exchange import Known, best_take
from chessnb.board.naming import counted
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, read_square
from chessnb.board.turns import seen_by
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of, side_word
from chessnb.mistakes import checked


@dataclass(frozen=True, kw_only=True)
class Exchange(Finding):
    """What a side gains by beginning to take on a square.

    Attributes
    ----------
    fen : str
        The position, with the side to move that it came with.
    square : str
        The square.
    side : chess.Color
        The side that begins.
    started : int or None
        Points that it is ahead in the end if it takes first, negative if it
        loses; ``None`` if it cannot take there.
    sequence : tuple of str
        The takes in SAN, as both sides do best, until going on would lose;
        the first is played even where it loses.
    """

    fen: str
    square: str
    side: chess.Color
    started: int | None
    sequence: tuple[str, ...]

    @property
    def gain(self) -> int:
        """Points that the side gains: 0 if it had better not begin, or cannot."""
        return max(0, self.started or 0)

    @property
    def record(self) -> Record:
        """The points; how they are won is left out, since several orders may come to the same."""
        points = "none" if self.started is None else f"{self.started} points"
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="exchange",
            fields=(self.square, side_word(self.side), points),
            status="rules",
        )

    @property
    def words(self) -> str:
        """The points and the takes."""
        return f"{self.square}: {self._words()}"

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The line, and what the count leaves out."""
        caution = f"Only takes on {self.square} are looked at, and either side may stop."
        return (f"On {self.words}.", caution)

    @property
    def picture(self) -> Diagram:
        """The board, with a stroke from each piece that attacks the square."""
        board = read_position(self.fen)
        square = read_square(self.square)
        strokes = [
            Mark(role="force", square=chess.square_name(attacker), to=self.square)
            for attacker in board.attackers(self.side, square)
        ]
        return diagram(board, marks=(*strokes, Mark(role="target", square=self.square)))

    def _words(self) -> str:
        side, takes = SIDES[self.side], " ".join(self.sequence)
        if self.started is None:
            return f"{side} cannot take there"
        points = counted(abs(self.started), "point")
        if self.started > 0:
            return f"{side} gains {points} by taking there ({takes})"
        if self.started < 0:
            return f"{side} loses {points} by taking there ({takes})"
        return f"{side} gains nothing by taking there, an even trade ({takes})"


@gathered
@checked
def exchange(position: Position, square: Square, *, side: Side | None = None) -> Exchange:
    """Work out what a side gains by beginning to take on a square.

    Every legal capture that lands on the square is tried, and either side may
    stop instead of taking.  Promotions count; an en passant capture counts on
    the square where the pawn lands.  Points are the trade's 1-3-3-5-9 (common
    practice, no source).  Takes elsewhere, checks and mates are not looked
    at, so the result is a fact about this square alone.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    square : chess.Square or str
        The square, such as ``"d5"``.
    side : {"White", "Black"} or chess.Color, optional
        The side that begins; by default the side to move.  For the other
        side, the side to move passes.

    Returns
    -------
    Exchange
        The points and the takes, from the point of view of the side that
        begins.

    Raises
    ------
    InputError
        If there is no such square.
    PositionError
        If the side to move is in check and would have to pass.

    Notes
    -----
    The cost grows with the orders in which the pieces can take, each position
    being worked out once; a handful of attackers takes milliseconds.

    Examples
    --------
    >>> found = exchange("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5")
    >>> print(found)
    1. | exchange | d5 | white | 1 points | rules
    >>> print(found.words)
    d5: White gains 1 point by taking there (cxd5 exd5 Nxd5)
    """
    given = read_position(position)
    target = read_square(square)
    beginner = read_side(side, default=given.turn)
    board = seen_by(given, beginner)
    known: Known = {}
    first, started = best_take(board, target, known)
    return Exchange(
        fen=given.fen(),
        square=chess.square_name(target),
        side=beginner,
        started=started,
        sequence=() if first is None else _in_san(board, first, target, known),
    )


def _in_san(
    board: chess.Board, first: chess.Move, target: chess.Square, known: Known
) -> tuple[str, ...]:
    """Write the takes: the first in any case, then each that does not lose.

    Where taking back and stopping come to the same, people take back.
    """
    scratch = board.copy(stack=False)
    words = [scratch.san_and_push(first)]
    while True:
        move, points = best_take(scratch, target, known)
        if move is None or points is None or points < 0:
            return tuple(words)
        words.append(scratch.san_and_push(move))
