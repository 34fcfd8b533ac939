"""A man on its square, and the words and points that all facts share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import chess

from chessnb.errors import PositionError
from chessnb.notation.words import listed
from chessnb.position import Position, board_of

POINTS = {
    chess.PAWN: 1,
    chess.KNIGHT: 3,
    chess.BISHOP: 3,
    chess.ROOK: 5,
    chess.QUEEN: 9,
    chess.KING: 0,
}
"""What a man is worth (common practice, no source); the king is never for sale."""

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
"""Small numbers in words."""


@dataclass(frozen=True, kw_only=True)
class Man:
    """A man and the square it stands on.

    Attributes
    ----------
    piece : str
        Its letter as in a FEN: ``"Q"`` is White's queen, ``"q"`` Black's.
    square : str
        Such as ``"e4"``.

    Examples
    --------
    >>> str(Man(piece="q", square="e7"))
    'the queen on e7'
    """

    piece: str
    square: str

    @property
    def color(self) -> chess.Color:
        """The side that it belongs to."""
        return self.piece.isupper()

    @property
    def kind(self) -> chess.PieceType:
        """What it is, as python-chess numbers the kinds."""
        return chess.PIECE_SYMBOLS.index(self.piece.lower())

    @property
    def name(self) -> str:
        """What it is, in words: ``"queen"``."""
        return chess.piece_name(self.kind)

    @property
    def points(self) -> int:
        """What it is worth."""
        return POINTS[self.kind]

    def __str__(self) -> str:
        return f"the {self.name} on {self.square}"


def man_at(board: chess.Board, square: chess.Square) -> Man:
    """Return the man on a square, which must not be empty."""
    piece = board.piece_at(square)
    if piece is None:
        raise ValueError(f"{chess.square_name(square)} is empty [{board.fen()}]")
    return Man(piece=piece.symbol(), square=chess.square_name(square))


def in_order(men: Iterable[Man]) -> tuple[Man, ...]:
    """Sort men as facts list them: the dearest first, then by square."""
    return tuple(sorted(men, key=lambda one: (-one.points, -one.kind, one.square)))


def men_in_words(men: Iterable[Man]) -> str:
    """Name men in the order given, those of one kind that follow each other together.

    Examples
    --------
    >>> men_in_words([Man(piece="r", square=square) for square in ("a8", "f8")])
    'the rooks on a8 and f8'
    """
    groups: list[list[Man]] = []
    for one in men:
        if groups and groups[-1][0].piece == one.piece:
            groups[-1].append(one)
        else:
            groups.append([one])
    return listed(_group_in_words(group) for group in groups)


def _group_in_words(group: list[Man]) -> str:
    plural = "s" if len(group) > 1 else ""
    return f"the {group[0].name}{plural} on {listed(one.square for one in group)}"


def square_of(square: chess.Square | str) -> chess.Square:
    """Turn the name of a square into python-chess's number; numbers stay.

    Raises
    ------
    PositionError
        If there is no such square.

    Examples
    --------
    >>> square_of("e4") == square_of(chess.E4) == chess.E4
    True
    """
    if isinstance(square, str):
        name = square.strip().lower()
        if name in chess.SQUARE_NAMES:
            return chess.SQUARE_NAMES.index(name)
    elif square in chess.SQUARES:
        return square
    raise PositionError(
        "a square is a letter from a to h and a figure from 1 to 8", given=repr(square)
    )


def names_of(squares: Iterable[chess.Square]) -> tuple[str, ...]:
    """Return the names of squares, sorted."""
    return tuple(sorted(chess.square_name(square) for square in squares))


def seen_by(position: Position, side: chess.Color) -> chess.Board:
    """Return the position with a side to move: if it is not its turn, the other passes.

    Raises
    ------
    PositionError
        If the other side would have to pass in check, which no rule allows.

    Examples
    --------
    >>> seen_by("start", chess.BLACK).turn == chess.BLACK
    True
    """
    board = board_of(position)
    if board.turn == side:
        return board
    if board.is_check():
        raise PositionError(
            "the side to move is in check and cannot pass, so nothing can be said about"
            " what the other side could do next",
            given=board.fen(),
        )
    # Not a null move: the history would then hold a move that nobody played.
    board.turn, board.ep_square = side, None
    return board


def each_man(board: chess.Board, color: chess.Color) -> Iterator[chess.Square]:
    """Run through the squares of a side's men, from a1 to h8."""
    yield from chess.scan_forward(board.occupied_co[color])
