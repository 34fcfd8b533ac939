"""The words for pieces and sides that every sentence of the package uses."""

from __future__ import annotations

import chess

from chessnb.board.sides import SIDES
from chessnb.errors import listed as listed

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
"""Small numbers in words."""


def the_piece(board: chess.Board, square: chess.Square) -> str:
    """Name the piece on a square: ``"the bishop on c1"``; an empty square by its name.

    Examples
    --------
    >>> the_piece(chess.Board(), chess.C1)
    'the bishop on c1'
    """
    piece = board.piece_at(square)
    name = chess.square_name(square)
    return name if piece is None else f"the {chess.piece_name(piece.piece_type)} on {name}"


def to_move(board: chess.Board) -> str:
    """Say whose move it is, or how the game ended, as a sentence.

    Examples
    --------
    >>> to_move(chess.Board())
    'White to move.'
    """
    side = SIDES[board.turn]
    if board.is_checkmate():
        return f"{side} is checkmated."
    if board.is_stalemate():
        return f"{side} is stalemated."
    return f"{side} to move{', in check' if board.is_check() else ''}."


def ordinal(number: int) -> str:
    """Write a counting number as a place: ``14`` is ``"14th"``.

    Examples
    --------
    >>> [ordinal(number) for number in (1, 2, 3, 11, 21, 112)]
    ['1st', '2nd', '3rd', '11th', '21st', '112th']
    """
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"


def number(board: chess.Board) -> str:
    """Return the number before the next move: ``"14."`` or ``"14..."``."""
    return f"{board.fullmove_number}{'.' if board.turn else '...'}"


def counted(number: int, noun: str) -> str:
    """Write a number with its noun: ``"1 move"``, ``"3 moves"``."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
