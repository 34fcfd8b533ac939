"""What can be proved of a position: the goals, and when each is reached.

A goal is the claim of one side, the *attacker*; the other side, the
*defender*, tries everything the rules allow.  Moves are counted as the
attacker's own.  Repetition and the 50-move rule are left out.

Material is counted in points, 1-3-3-5-9 (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.errors import ChessnbError
from chessnb.facts.men import POINTS

MOST_MOVES = 40
"""The longest goal, in the attacker's moves: what the solver keeps room for."""

MOST_POINTS = 103
"""All that one side can have: nine queens, and the pieces that no pawn becomes."""


class GoalError(ChessnbError, ValueError):
    """A goal that has no meaning, or is longer than the solver goes."""


def balance(board: chess.Board, side: chess.Color) -> int:
    """Return a side's points minus the other side's.

    Examples
    --------
    >>> balance(chess.Board("4k3/8/8/8/8/8/4P3/R3K3 w - - 0 1"), chess.BLACK)
    -6
    """
    own, other = board.occupied_co[side], board.occupied_co[not side]
    return sum(
        points * ((men & own).bit_count() - (men & other).bit_count())
        for men, points in (
            (board.pawns, POINTS[chess.PAWN]),
            (board.knights, POINTS[chess.KNIGHT]),
            (board.bishops, POINTS[chess.BISHOP]),
            (board.rooks, POINTS[chess.ROOK]),
            (board.queens, POINTS[chess.QUEEN]),
        )
    )


@dataclass(frozen=True, kw_only=True)
class Mate:
    """Mate, with the attacker's `within`-th move at the latest.

    Parameters
    ----------
    within : int
        The attacker's moves; at least 1.
    """

    within: int

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)

    @property
    def words(self) -> str:
        """The goal as a noun: ``"mate in 3"``."""
        return f"mate in {self.within}"


@dataclass(frozen=True, kw_only=True)
class Gain:
    """Material, at a quiet end of the line; or mate within the same moves.

    A defender who lets himself be mated has not kept his material: without
    the mate the claim would be false whenever mate is the smaller evil.

    Parameters
    ----------
    points : int
        At least so many points more than `baseline`.
    within : int
        The attacker's moves; quiet comebacks after them are not searched.
    baseline : int
        The balance, in the attacker's points minus the defender's, that the
        gain is measured from; see :func:`chessnb.proof.baseline.baseline`.
    """

    points: int
    within: int
    baseline: int

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)
        whole_number("points", self.points, most=MOST_POINTS)

    @property
    def target(self) -> int:
        """The balance that must stand in the end, in the attacker's points."""
        return self.baseline + self.points

    @property
    def words(self) -> str:
        """The goal as a noun: ``"a gain of at least 5 within 4 moves"``."""
        return f"a gain of at least {self.points} within {_moves(self.within)}"


@dataclass(frozen=True, kw_only=True)
class MateOrGain:
    """Mate within some moves, or material within others: the usual goal in class."""

    mate: Mate
    gain: Gain

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return f"{self.mate.words} or {self.gain.words}"


@dataclass(frozen=True, kw_only=True)
class Stalemate:
    """A stalemate of either side that the attacker forces, a saving draw."""

    within: int

    def __post_init__(self) -> None:
        whole_number("within", self.within, most=MOST_MOVES)

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return f"stalemate within {_moves(self.within)}"


@dataclass(frozen=True, kw_only=True)
class Perpetual:
    """Check after check without end: a draw at least, since positions must repeat."""

    @property
    def words(self) -> str:
        """The goal as a noun."""
        return "perpetual check"


Goal = Mate | Gain | MateOrGain | Stalemate | Perpetual
"""Anything that can be proved of a position."""


def mate_within(goal: Goal) -> int:
    """Return the attacker's moves within which checkmate reaches a goal; 0 if it does not count."""
    match goal:
        case Mate():
            return goal.within
        case Gain():
            return goal.within
        case MateOrGain():
            return max(goal.mate.within, goal.gain.within)
    return 0


def gain_of(goal: Goal) -> Gain | None:
    """Return the material part of a goal, if it has one."""
    match goal:
        case Gain():
            return goal
        case MateOrGain():
            return goal.gain
    return None


def longest(goal: Goal) -> int:
    """Return the most moves that the attacker may make before a goal is reached."""
    match goal:
        case Stalemate():
            return goal.within
        case Perpetual():
            return 0
    return mate_within(goal)


def forcing_moves(board: chess.Board) -> list[chess.Move]:
    """Return the captures, promotions and checks of the side to move, in a fixed order."""
    enemy = board.occupied_co[not board.turn]
    king = board.king(not board.turn)
    uncovering = 0 if king is None else _uncovering(board, king)

    def checks(move: chess.Move) -> bool:
        # To ask of every move whether it gives check would cost most of the time.
        if king is None or not (uncovering >> move.from_square & 1 or _reaches(board, move, king)):
            return False
        return board.gives_check(move)

    return sorted(
        (
            move
            for move in board.legal_moves
            if move.promotion
            or enemy >> move.to_square & 1
            or board.is_en_passant(move)
            or checks(move)
        ),
        key=chess.Move.uci,
    )


def _uncovering(board: chess.Board, king: chess.Square) -> int:
    """Return the squares of single men that stand between a king and a line piece against it."""
    found = 0
    own = board.occupied_co[board.turn]
    straight = own & (board.rooks | board.queens) & _REACH[board.turn, chess.ROOK][king]
    slanting = own & (board.bishops | board.queens) & _REACH[board.turn, chess.BISHOP][king]
    for sniper in chess.scan_forward(straight | slanting):
        between = chess.between(king, sniper) & board.occupied
        if not between & (between - 1):
            found |= between
    return found


def _reaches(board: chess.Board, move: chess.Move, king: chess.Square) -> bool:
    """Tell whether the man that moves may attack a king from where it goes; a castling may."""
    kind = board.piece_type_at(move.from_square)
    if kind is None or not _REACH[board.turn, kind][king] >> move.to_square & 1:
        return kind == chess.KING and board.is_castling(move)
    between = chess.between(move.to_square, king) & board.occupied
    return not between & ~chess.BB_SQUARES[move.from_square]


def _reach(side: chess.Color, kind: chess.PieceType, square: chess.Square) -> int:
    """Return the squares from which a man attacks a square on an empty board, as a bitboard."""
    board = chess.Board(None)
    board.set_piece_at(square, chess.Piece(kind, not side))
    return 0 if kind == chess.KING else board.attacks_mask(square)


_REACH = {
    (side, kind): [_reach(side, kind, square) for square in chess.SQUARES]
    for side in chess.COLORS
    for kind in chess.PIECE_TYPES
}


def whole_number(name: str, value: object, *, most: int) -> None:
    """Refuse what is no whole number from 1 to `most`.

    Raises
    ------
    GoalError
        With the name under which it was given.

    Examples
    --------
    >>> whole_number("within", 3, most=40)
    """
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
        raise GoalError(f"{name} is a whole number from 1 to {most:,}, not {value!r}")


def _moves(number: int) -> str:
    return "1 move" if number == 1 else f"{number} moves"
