"""Files and who holds them, bishops and the pawns in their way, and pawns before a king.

The definitions are the trade's (common practice, no source):

held file
    A rook or the queen of a side stands on an open file, or a rook on one that
    is half-open for the side, and no rook or queen of the other side stands on it.
bad bishop
    More than half of its side's pawns stand on squares of its colour, and
    of these at least two, on the files c to f, have an enemy right before
    them; and it has at most three squares to go to.
shelter
    For a king on its first two ranks, at a to c or f to h, that will not
    castle any more: a file of that wing without a pawn of its side is a gap.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.pieces import Piece, piece_at
from chessnb.board.squares import names_of

KINGSIDE, QUEENSIDE = range(5, 8), range(3)
"""The files before a king that has castled, on either wing."""

LITTLE_ROOM = 3
"""A bishop with more squares to go to has found its way round its pawns."""

MIDDLE = range(2, 6)
"""The files c to f, where a blocked pawn is in a bishop's way."""


@dataclass(frozen=True, kw_only=True)
class HeldFile:
    """A file that one side holds.

    Attributes
    ----------
    side : chess.Color
        The side.
    file : str
        The file's letter.
    pieces : tuple of Piece
        Its rooks and queens there, from its own side of the board on.
    is_open : bool
        Whether no pawn stands on the file; else only the enemy's do.
    """

    side: chess.Color
    file: str
    pieces: tuple[Piece, ...]
    is_open: bool


@dataclass(frozen=True, kw_only=True)
class BadBishop:
    """A bishop whose own pawns stand on its colour and do not move.

    Attributes
    ----------
    piece : Piece
        The bishop.
    pawns : tuple of str
        The squares of its side's pawns on its colour.
    blocked : tuple of str
        Those on the files c to f that have an enemy right before them.
    """

    piece: Piece
    pawns: tuple[str, ...]
    blocked: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class KingShelter:
    """The gaps before a king that stands where kings castle to.

    Attributes
    ----------
    king : Piece
        The king.
    missing : tuple of str
        The letters of the files of its wing without a pawn of its side.
    """

    king: Piece
    missing: tuple[str, ...]


def held_files(board: chess.Board, side: chess.Color) -> Iterator[HeldFile]:
    """Yield the open and half-open files that a side holds, from a to h."""
    own, enemy = board.pieces(chess.PAWN, side), board.pieces(chess.PAWN, not side)
    for letter, bits in zip(chess.FILE_NAMES, chess.BB_FILES, strict=True):
        file = chess.SquareSet(bits)
        if own & file or _heavy(board, not side) & file:
            continue
        is_open = not enemy & file
        rooks = board.pieces(chess.ROOK, side) & file
        if not (_heavy(board, side) & file if is_open else rooks):
            continue
        squares = sorted(_heavy(board, side) & file, reverse=not side)
        pieces = tuple(piece_at(board, square) for square in squares)
        yield HeldFile(side=side, file=letter, pieces=pieces, is_open=is_open)


def _heavy(board: chess.Board, side: chess.Color) -> chess.SquareSet:
    return board.pieces(chess.ROOK, side) | board.pieces(chess.QUEEN, side)


def bad_bishops(board: chess.Board, side: chess.Color) -> Iterator[BadBishop]:
    """Yield the bad bishops of a side."""
    pawns = board.pieces(chess.PAWN, side)
    light = chess.SquareSet(chess.BB_LIGHT_SQUARES)
    for bishop in board.pieces(chess.BISHOP, side):
        alike = pawns & light if bishop in light else pawns - light
        stuck = [
            pawn
            for pawn in alike
            if chess.square_file(pawn) in MIDDLE
            and board.color_at(pawn + (8 if side else -8)) == (not side)
        ]
        room = board.attacks(bishop) & ~chess.SquareSet(board.occupied_co[side])
        if 2 * len(alike) > len(pawns) and len(stuck) > 1 and len(room) <= LITTLE_ROOM:
            piece = piece_at(board, bishop)
            yield BadBishop(piece=piece, pawns=names_of(alike), blocked=names_of(stuck))


def shelters(board: chess.Board, side: chess.Color) -> Iterator[KingShelter]:
    """Yield a side's king if there are gaps before it, while the enemy has a queen."""
    king = board.king(side)
    assert king is not None  # positions without a king are refused where they are read
    rank = chess.square_rank(king) if side else 7 - chess.square_rank(king)
    wing = next((one for one in (KINGSIDE, QUEENSIDE) if chess.square_file(king) in one), None)
    if wing is None or rank > 1 or board.has_castling_rights(side):
        return
    if not board.pieces(chess.QUEEN, not side):
        return
    pawns = board.pieces(chess.PAWN, side)
    missing = tuple(
        chess.FILE_NAMES[file] for file in wing if not pawns & chess.SquareSet(chess.BB_FILES[file])
    )
    if missing:
        yield KingShelter(king=piece_at(board, king), missing=missing)
