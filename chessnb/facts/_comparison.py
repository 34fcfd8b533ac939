"""Comparing a position before a move with the one after it.

A piece *bears* on another if it could take it, or take back on its square, as
far as pins go: the direct forces that count in :mod:`chessnb.facts._pressure`.
Pieces are followed through the move, so that all squares are those after it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property

import chess

from chessnb.board.exchange import gain_on, hanging, points_won
from chessnb.board.lines import LINE_PIECES, STEPS, pinner_of
from chessnb.board.pieces import Piece, each_piece, in_order, piece_at
from chessnb.board.squares import names_of, read_square
from chessnb.facts._pressure import forces

Pair = tuple[chess.Square, chess.Square]
"""The piece that bears, and the piece that it bears on."""


@dataclass(frozen=True, kw_only=True)
class Attack:
    """A piece that now bears on an enemy piece.

    Attributes
    ----------
    by, target : Piece
        The two pieces.
    undefended : bool
        The target has no defender that counts.
    """

    by: Piece
    target: Piece
    undefended: bool = False


@dataclass(frozen=True, kw_only=True)
class Defence:
    """A piece that now defends another piece of its side."""

    by: Piece
    piece: Piece


@dataclass(frozen=True, kw_only=True)
class Pin:
    """A piece that is pinned to its king, and the piece that pins it.

    Where the pin is gone, the piece stands where it stood before the move.
    """

    by: Piece
    piece: Piece


@dataclass(frozen=True, kw_only=True)
class ExchangeGain:
    """What taking on a piece's square brings the other side (see ``exchange``)."""

    piece: Piece
    points: int


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line that a move opens to a line piece, or closes to it.

    Attributes
    ----------
    by : Piece
        The line piece.
    name : str
        The line, such as ``"the c-file"`` or ``"the a2-g8 diagonal"``.
    squares : tuple of str
        The squares that it sees more, or less, than before.
    attacks, defends : tuple of Piece
        The enemy pieces, and pieces of its own side, among them.
    """

    by: Piece
    name: str
    squares: tuple[str, ...]
    attacks: tuple[Piece, ...] = ()
    defends: tuple[Piece, ...] = ()


class Comparison:
    """A position before and after a legal move.

    Parameters
    ----------
    before : chess.Board
        The position; it is copied.
    move : chess.Move
        A legal move there.
    """

    def __init__(self, before: chess.Board, move: chess.Move) -> None:
        self.before = before.copy(stack=False)
        self.after = before.copy(stack=False)
        self.after.push(move)
        self.move = move
        self.side = before.turn
        self.moved = self._moved()
        self.captured = self._captured()

    def _moved(self) -> dict[chess.Square, chess.Square]:
        """Return from where to where pieces have gone: two of them in castling."""
        if not self.before.is_castling(self.move):
            return {self.move.from_square: self.move.to_square}
        moved: dict[chess.Square, chess.Square] = {}
        for kind in (chess.KING, chess.ROOK):
            old, new = (board.pieces(kind, self.side) for board in (self.before, self.after))
            moved.update(zip(old - new, new - old, strict=True))
        return moved

    def _captured(self) -> Piece | None:
        if not self.before.is_capture(self.move):
            return None
        if self.before.is_en_passant(self.move):
            file = chess.square_file(self.move.to_square)
            rank = chess.square_rank(self.move.from_square)
            return piece_at(self.before, chess.square(file, rank))
        return piece_at(self.before, self.move.to_square)

    def now(self, square: chess.Square) -> chess.Square:
        """Return where the piece of a square before the move stands after it."""
        return self.moved.get(square, square)

    def pieces(self, squares: set[chess.Square]) -> tuple[Piece, ...]:
        """Return the pieces on squares after the move, in order."""
        return in_order(piece_at(self.after, square) for square in squares)

    def left(self, color: chess.Color) -> set[chess.Square]:
        """Return the squares of a side's pieces after the move, its king left out."""
        return set(each_piece(self.after, color)) - {self.after.king(color)}

    # -- who bears on whom ---------------------------------------------------

    @cached_property
    def _raw_before(self) -> set[Pair]:
        """The pairs before the move, with the squares before it."""
        return set(_bearing(self.before))

    @cached_property
    def bearing_before(self) -> set[Pair]:
        """The pairs before the move of pieces that are still there, with the squares after it."""
        gone = {read_square(self.captured.square)} if self.captured else set()
        return {
            (self.now(by), self.now(target))
            for by, target in self._raw_before
            if not {by, target} & gone
        }

    @cached_property
    def bearing_after(self) -> set[Pair]:
        """The pairs after the move."""
        return set(_bearing(self.after))

    def attacks(self, *, by_moved: bool) -> tuple[Attack, ...]:
        """Return the new attacks of the pieces that moved, or of the side's other pieces."""
        new = self._between(self.bearing_after - self.bearing_before, not self.side)
        defended = _borne_on(self.after, self.bearing_after, not self.side, not self.side)
        found = [
            Attack(
                by=self._piece(by), target=self._piece(target), undefended=target not in defended
            )
            for by, target in new
            if (by in self.moved.values()) == by_moved
        ]
        return tuple(
            sorted(found, key=lambda attack: (-attack.target.points, attack.target.square))
        )

    def defends(self) -> tuple[Defence, ...]:
        """Return what the pieces that moved defend now and did not before."""
        new = self._between(self.bearing_after - self.bearing_before, self.side)
        return tuple(
            Defence(by=self._piece(by), piece=self._piece(piece))
            for by, piece in sorted(new)
            if by in self.moved.values()
        )

    def stopped(self, on: chess.Color) -> tuple[Piece, ...]:
        """Return the pieces of a side that a piece that moved bore on, and does no longer."""
        gone = self._between(self.bearing_before - self.bearing_after, on)
        return self.pieces({target for by, target in gone if by in self.moved.values()})

    def turned(self, on: chess.Color, by: chess.Color, *, new: bool) -> tuple[Piece, ...]:
        """Return the pieces of a side that the other side's have begun, or ceased, to bear on.

        With `on` equal to `by` these are the pieces newly defended, or left
        undefended.
        """
        after = _borne_on(self.after, self.bearing_after, on, by)
        # A piece that was taken bore on others, too.
        before = {
            self.now(target)
            for target in _borne_on(self.before, self._raw_before, on, by)
            if self.captured is None or target != read_square(self.captured.square)
        }
        return self.pieces(after - before if new else before - after)

    def _between(self, pairs: set[Pair], on: chess.Color) -> set[Pair]:
        """Keep the pairs of a piece of the side that moved and one of the side `on`."""
        color_at = self.after.color_at
        return {
            (by, target)
            for by, target in pairs
            if color_at(by) == self.side and color_at(target) == on
        }

    def _piece(self, square: chess.Square) -> Piece:
        return piece_at(self.after, square)

    # -- lines ---------------------------------------------------------------

    def lines(self, color: chess.Color, *, opened: bool) -> tuple[Line, ...]:
        """Return the lines opened, or closed, to a side's line pieces that did not move."""
        found = [
            line
            for square in self.left(color) - set(self.moved.values())
            if self.after.piece_type_at(square) in LINE_PIECES
            for line in self._lines_of(square, opened)
        ]
        return tuple(sorted(found, key=lambda line: (line.by.square, line.name)))

    def _lines_of(self, square: chess.Square, opened: bool) -> Iterator[Line]:
        old, new = self.before.attacks(square), self.after.attacks(square)
        change = new - old if opened else old - new
        for step in (*STEPS[chess.ROOK], *STEPS[chess.BISHOP]):
            squares = {other for other in change if _step(square, other) == step}
            if squares:
                yield self._line(square, squares, opened)

    def _line(self, square: chess.Square, squares: set[chess.Square], opened: bool) -> Line:
        pairs = self.bearing_after if opened else self.bearing_before
        by = self._piece(square)
        # A piece that moved is not on the line because of the line.
        still = squares - set(self.moved.values())
        met = [target for piece, target in pairs if piece == square and target in still]
        color_at = self.after.color_at
        return Line(
            by=by,
            name=line_name(square, next(iter(squares))),
            squares=names_of(squares),
            attacks=self.pieces({target for target in met if color_at(target) != by.color}),
            defends=self.pieces({target for target in met if color_at(target) == by.color}),
        )

    # -- pins and gains ------------------------------------------------------

    def pins(self, color: chess.Color, *, new: bool) -> tuple[Pin, ...]:
        """Return the pins of a side's pieces that are new, or that are gone."""
        old = {
            self.now(piece): piece_at(self.before, by) for piece, by in _pins(self.before, color)
        }
        now = {piece: self._piece(by) for piece, by in _pins(self.after, color)}
        change = {piece: by for piece, by in now.items() if piece not in old}
        if not new:
            change = {piece: old[piece] for piece in old.keys() - now.keys() & self.left(color)}
        return tuple(Pin(by=by, piece=self._piece(piece)) for piece, by in sorted(change.items()))

    # -- what taking on one square brings ------------------------------------

    def threatens(self) -> tuple[ExchangeGain, ...]:
        """Return enemy pieces on whose squares the side that moved could gain more than before."""
        before = self._gains(not self.side, after=False)
        after = self._gains(not self.side, after=True)
        return self._as_gains(
            {square: won for square, won in after.items() if won > before.get(square, 0)}
        )

    def offers(self) -> tuple[ExchangeGain, ...]:
        """Return pieces of the side that moved on whose squares the enemy can gain more.

        What the move won is set against what is lost by taking back.
        """
        before, after = self._gains_on_ours
        return self._as_gains(
            {
                square: lost
                for square, lost in after.items()
                if lost - self._won_on(square) > before.get(square, 0)
            }
        )

    def leaves(self) -> tuple[ExchangeGain, ...]:
        """Return pieces of the side that moved that could be taken with gain, and still can."""
        before, after = self._gains_on_ours
        offered = {gain.piece for gain in self.offers()}
        still = self._as_gains({one: lost for one, lost in after.items() if one in before})
        return tuple(gain for gain in still if gain.piece not in offered)

    def parries(self) -> tuple[Piece, ...]:
        """Return pieces that the enemy could have taken with gain, and no longer can.

        A check puts the taking off, and parries it only if no reply to the check leaves
        the piece where it can be taken next.
        """
        before, after = self._gains_on_ours
        safe = before.keys() - after.keys()
        if safe and self.after.is_check():
            safe -= self._hanging_behind_replies(safe)
        return self.pieces(safe)

    def _hanging_behind_replies(self, squares: set[chess.Square]) -> set[chess.Square]:
        """Return those of some squares on which the enemy could gain by a second move on end."""
        found: set[chess.Square] = set()
        for reply in self.after.legal_moves:
            behind = self.after.copy(stack=False)
            behind.push(reply)
            standing = {square for square in squares if behind.color_at(square) == self.side}
            behind.turn, behind.ep_square = not self.side, None
            found |= {square for square in standing - found if gain_on(behind, square)}
        return found

    def forces_mate(self) -> bool:
        """Tell whether the side that moved mates with its next move, whatever the reply."""
        if not self.after.legal_moves:
            return False
        behind = self.after.copy(stack=False)
        for reply in list(behind.legal_moves):
            behind.push(reply)
            if not any(map(self._mates(behind), list(behind.legal_moves))):
                return False
            behind.pop()
        return True

    @staticmethod
    def _mates(board: chess.Board) -> Callable[[chess.Move], bool]:
        def mates(move: chess.Move) -> bool:
            if not board.gives_check(move):
                return False
            board.push(move)
            mated = board.is_checkmate()
            board.pop()
            return mated

        return mates

    def _won_on(self, square: chess.Square) -> int:
        """Return what the move won by going to a square."""
        return points_won(self.before, self.move) if square == self.move.to_square else 0

    def _as_gains(self, points: dict[chess.Square, int]) -> tuple[ExchangeGain, ...]:
        gains = [
            ExchangeGain(piece=self._piece(square), points=won) for square, won in points.items()
        ]
        return tuple(sorted(gains, key=lambda gain: (-gain.points, gain.piece.square)))

    @cached_property
    def _gains_on_ours(self) -> tuple[dict[chess.Square, int], dict[chess.Square, int]]:
        """What the enemy could gain before the move, and can gain after it.

        A check that the move had to answer is set aside: what hung, hung before.
        """
        hung = {
            self.now(square): points for square, points in hanging(self.before, self.side).items()
        }
        return hung, hanging(self.after, self.side)

    def _gains(self, on: chess.Color, *, after: bool) -> dict[chess.Square, int]:
        """Return what the other side can gain by taking on the square of each piece of a side.

        Nothing if the side would have to pass in check.
        """
        board = (self.after if after else self.before).copy(stack=False)
        if board.turn == on:
            if board.is_check():
                return {}
            board.turn, board.ep_square = not on, None
        gains = {square: gain_on(board, square) for square in each_piece(board, on)}
        return {
            square if after else self.now(square): points
            for square, points in gains.items()
            if points
        }


def line_name(start: chess.Square, other: chess.Square) -> str:
    """Name the line through two squares.

    Examples
    --------
    >>> line_name(chess.C1, chess.C4), line_name(chess.C4, chess.F7), line_name(chess.A7, chess.H7)
    ('the c-file', 'the a2-g8 diagonal', 'the seventh rank')
    """
    if chess.square_file(start) == chess.square_file(other):
        return f"the {chess.FILE_NAMES[chess.square_file(start)]}-file"
    if chess.square_rank(start) == chess.square_rank(other):
        ranks = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
        return f"the {ranks[chess.square_rank(start)]} rank"
    squares = chess.SquareSet.ray(start, other)
    return f"the {chess.square_name(min(squares))}-{chess.square_name(max(squares))} diagonal"


def _step(start: chess.Square, end: chess.Square) -> tuple[int, int]:
    """Return the direction from one square to another, as (files, ranks)."""
    files = chess.square_file(end) - chess.square_file(start)
    ranks = chess.square_rank(end) - chess.square_rank(start)
    return ((files > 0) - (files < 0), (ranks > 0) - (ranks < 0))


def _bearing(board: chess.Board) -> Iterator[Pair]:
    """Run through all pairs of pieces of which one bears on the other; kings are not borne on."""
    for color in chess.COLORS:
        for target in each_piece(board, color):
            if target == board.king(color):
                continue
            for group in forces(board, not color, target):
                for force in group:
                    if force.counts and force.behind is None:
                        yield read_square(force.piece.square), target


def _borne_on(
    board: chess.Board, pairs: set[Pair], on: chess.Color, by: chess.Color
) -> set[chess.Square]:
    """Return the pieces of one side on which pieces of a side bear."""
    color_at = board.color_at
    return {target for piece, target in pairs if color_at(piece) == by and color_at(target) == on}


def _pins(board: chess.Board, color: chess.Color) -> Iterator[Pair]:
    for square in each_piece(board, color):
        if square != board.king(color) and board.is_pinned(color, square):
            yield square, pinner_of(board, square)
