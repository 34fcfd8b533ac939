"""Kinds of pieces as they are named, a piece on its square, and how pieces are listed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import chess

from chessnb.board.naming import listed
from chessnb.board.points import POINTS
from chessnb.errors import InputError

PieceKind = str | chess.PieceType | chess.Piece
"""A kind of piece as a teacher names it: ``"knight"``, ``"N"``, ``"♘"``, ``chess.KNIGHT``,
or a ``chess.Piece``, whose side does not matter."""

_FIGURINES = {figurine: letter for letter, figurine in chess.UNICODE_PIECE_SYMBOLS.items()}


def read_piece(piece: PieceKind) -> chess.PieceType:
    """Read the name of a kind of piece.

    Raises
    ------
    InputError
        If there is no such piece.

    Examples
    --------
    >>> kinds = {read_piece(piece) for piece in ("knight", "Knight", "N", "n", "♞", chess.KNIGHT)}
    >>> kinds == {chess.KNIGHT}
    True
    """
    if isinstance(piece, chess.Piece):
        return piece.piece_type
    if isinstance(piece, str):
        name = piece.strip()
        name = _FIGURINES.get(name, name).lower()
        if name in chess.PIECE_NAMES[1:]:
            return chess.PIECE_NAMES.index(name)
        if name in chess.PIECE_SYMBOLS[1:]:
            return chess.PIECE_SYMBOLS.index(name)
    elif isinstance(piece, int) and not isinstance(piece, bool) and piece in chess.PIECE_TYPES:
        return piece
    kinds = listed(map(repr, reversed(chess.PIECE_NAMES[1:])), joint="or")
    raise InputError(f"a piece is {kinds}", given=piece)


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A piece and the square it stands on.

    Attributes
    ----------
    letter : str
        Its letter as in a FEN: ``"Q"`` is White's queen, ``"q"`` Black's.
    square : str
        Such as ``"e4"``.

    Examples
    --------
    >>> str(Piece(letter="q", square="e7"))
    'the queen on e7'
    """

    letter: str
    square: str

    @property
    def color(self) -> chess.Color:
        """The side that it belongs to."""
        return self.letter.isupper()

    @property
    def kind(self) -> chess.PieceType:
        """What it is, as python-chess numbers the kinds."""
        return chess.PIECE_SYMBOLS.index(self.letter.lower())

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


def piece_at(board: chess.Board, square: chess.Square) -> Piece:
    """Return the piece on a square, which must not be empty."""
    piece = board.piece_at(square)
    if piece is None:
        raise ValueError(f"{chess.square_name(square)} is empty [{board.fen()}]")
    return Piece(letter=piece.symbol(), square=chess.square_name(square))


def in_order(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Sort pieces as facts list them: the dearest first, then by square."""
    return tuple(sorted(pieces, key=lambda one: (-one.points, -one.kind, one.square)))


def pieces_in_words(pieces: Iterable[Piece]) -> str:
    """Name pieces in the order given, those of one kind that follow each other together.

    Examples
    --------
    >>> pieces_in_words([Piece(letter="r", square=square) for square in ("a8", "f8")])
    'the rooks on a8 and f8'
    """
    groups: list[list[Piece]] = []
    for one in pieces:
        if groups and groups[-1][0].letter == one.letter:
            groups[-1].append(one)
        else:
            groups.append([one])
    return listed(_group_in_words(group) for group in groups)


def _group_in_words(group: list[Piece]) -> str:
    plural = "s" if len(group) > 1 else ""
    return f"the {group[0].name}{plural} on {listed(one.square for one in group)}"


def each_piece(board: chess.Board, color: chess.Color) -> Iterator[chess.Square]:
    """Run through the squares of a side's pieces, from a1 to h8."""
    yield from chess.scan_forward(board.occupied_co[color])
