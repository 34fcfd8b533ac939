"""Exchange: what taking on one square brings when both sides may stop at any time."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.diagram import Diagram, Mark, diagram
from chessnb.facts.men import POINTS, seen_by, square_of
from chessnb.finding import Finding
from chessnb.notation.words import SIDES, counted
from chessnb.position import Position, board_of

Known = dict[str, int]
"""What the side to move gains in positions met before, by their EPD."""


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
    def line(self) -> str:
        """The points and the takes."""
        return f"{self.square}: {self._words()}"

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """The line, and what the count leaves out."""
        caution = f"Only takes on {self.square} are looked at, and either side may stop."
        return (f"On {self.line}.", caution)

    @property
    def picture(self) -> Diagram:
        """The board, with a stroke from each man that attacks the square."""
        board = board_of(self.fen)
        square = square_of(self.square)
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


def exchange(
    position: Position, square: chess.Square | str, *, by: chess.Color | None = None
) -> Exchange:
    """Work out what a side gains by beginning to take on a square.

    Every legal capture that lands on the square is tried, and either side may
    stop instead of taking.  Promotions count; an en passant capture counts on
    the square where the pawn lands.  Points are the trade's 1-3-3-5-9 (common
    practice, no source).  Takes elsewhere, checks and mates are not looked
    at, so the result is a fact about this square alone.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    square : chess.Square or str
        The square, such as ``"d5"``.
    by : chess.Color, optional
        The side that begins; by default the side to move.  For the other
        side, the side to move passes.

    Returns
    -------
    Exchange
        The points and the takes, from the point of view of the side that
        begins.

    Raises
    ------
    PositionError
        If there is no such square, or the side to move is in check and
        would have to pass.

    Notes
    -----
    The cost grows with the orders in which the men can take, each position
    being worked out once; a handful of attackers takes milliseconds.

    Examples
    --------
    >>> print(exchange("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5"))
    d5: White gains 1 point by taking there (cxd5 exd5 Nxd5)
    """
    given = board_of(position)
    target = square_of(square)
    side = given.turn if by is None else by
    board = seen_by(given, side)
    known: Known = {}
    first, started = _first_take(board, target, known)
    return Exchange(
        fen=given.fen(),
        square=chess.square_name(target),
        side=side,
        started=started,
        sequence=() if first is None else _in_san(board, first, target, known),
    )


def gain_on(board: chess.Board, target: chess.Square) -> int:
    """Return the points that the side to move gains on a square, without the sequence."""
    return _gain(board, target, {})


def takes_on(board: chess.Board, target: chess.Square) -> list[chess.Move]:
    """Return the legal captures that land on a square, the cheapest man first."""
    moves = board.generate_legal_captures(to_mask=chess.BB_SQUARES[target])

    def cost(move: chess.Move) -> tuple[int, int, int]:
        kind = board.piece_type_at(move.from_square) or 0
        return (kind, move.from_square, -(move.promotion or 0))

    return sorted(moves, key=cost)


def _first_take(
    board: chess.Board, target: chess.Square, known: Known
) -> tuple[chess.Move | None, int | None]:
    """Return the best take and the points it ends with; of equal ones the first."""
    best: chess.Move | None = None
    most: int | None = None
    for move in takes_on(board, target):
        points = points_won(board, move)
        board.push(move)
        points -= _gain(board, target, known)
        board.pop()
        if most is None or points > most:
            best, most = move, points
    return best, most


def _gain(board: chess.Board, target: chess.Square, known: Known) -> int:
    """Return what the side to move gains on the square, free not to begin."""
    if not board.attackers_mask(board.turn, target):
        return 0
    key = board.epd()
    if key not in known:
        known[key] = max(0, _first_take(board, target, known)[1] or 0)
    return known[key]


def points_won(board: chess.Board, move: chess.Move) -> int:
    """Return the points that a move wins at once: what it takes, and what a pawn becomes."""
    if board.is_en_passant(move):
        return POINTS[chess.PAWN]
    won = POINTS[board.piece_type_at(move.to_square) or chess.KING]
    return won + (POINTS[move.promotion] - POINTS[chess.PAWN] if move.promotion else 0)


def _in_san(
    board: chess.Board, first: chess.Move, target: chess.Square, known: Known
) -> tuple[str, ...]:
    """Write the takes: the first in any case, then each that does not lose.

    Where taking back and stopping come to the same, people take back.
    """
    scratch = board.copy(stack=False)
    words = [scratch.san_and_push(first)]
    while True:
        move, points = _first_take(scratch, target, known)
        if move is None or points is None or points < 0:
            return tuple(words)
        words.append(scratch.san_and_push(move))
