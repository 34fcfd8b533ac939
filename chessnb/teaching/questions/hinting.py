"""Hints as they are said: where to look, which piece, what happens, how it begins."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.board.naming import listed
from chessnb.notation import write_move
from chessnb.teaching.questions.question_values import Hint


def area(squares: Iterable[chess.Square]) -> Hint:
    """Say in which part of the board something happens.

    Examples
    --------
    >>> area([chess.G7, chess.H7]).text, area([chess.A1, chess.H8]).text
    ('Look at the kingside.', 'Look at the whole board.')
    """
    files = {chess.square_file(square) for square in squares}
    if files and files <= {3, 4}:
        where = "middle of the board"
    elif files and files <= {4, 5, 6, 7}:
        where = "kingside"
    elif files and files <= {0, 1, 2, 3}:
        where = "queenside"
    else:
        where = "whole board"
    return Hint(sort="area", text=f"Look at the {where}.")


def mover(board: chess.Board, moves: Iterable[chess.Move]) -> Hint:
    """Say which kinds of pieces move."""
    kinds = {board.piece_type_at(move.from_square) or chess.PAWN for move in moves}
    names = listed((f"a {chess.piece_name(kind)}" for kind in sorted(kinds)), joint="or")
    return Hint(sort="piece", text=f"It is a move of {names}." if kinds else "")


def kinds_of(board: chess.Board, squares: Iterable[chess.Square]) -> Hint:
    """Say which kinds of pieces are meant."""
    kinds = sorted({board.piece_type_at(square) or chess.PAWN for square in squares}, reverse=True)
    names = listed(f"a {chess.piece_name(kind)}" for kind in kinds)
    return Hint(sort="piece", text=f"Look for {names}." if kinds else "")


def idea(text: str) -> Hint:
    """Say what happens."""
    return Hint(sort="idea", text=text)


def first_move(board: chess.Board, move: chess.Move) -> Hint:
    """Say how it begins."""
    return Hint(sort="first move", text=f"It begins with {write_move(board, move)}.")
