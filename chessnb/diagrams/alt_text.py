"""A diagram in words: what a reader hears who does not see it."""

from __future__ import annotations

from collections.abc import Iterable

import chess

from chessnb.diagrams.ink import INK
from chessnb.diagrams.marks import Mark

_SIDES = {chess.WHITE: "White", chess.BLACK: "Black"}


def spoken(
    board: chess.Board,
    *,
    turned: bool = False,
    last_move: chess.Move | None = None,
    marks: Iterable[Mark] = (),
) -> str:
    """Say a position as one would read it out.

    Parameters
    ----------
    board : chess.Board
        The position; also one that could not be played on.
    turned : bool
        Whether it is seen from Black's side.
    last_move : chess.Move or None
        The move that led here, if it is to be said.
    marks : iterable of Mark
        What was drawn on it.

    Returns
    -------
    str
        Sentences: the side to move, White's pieces, Black's pieces (king first,
        pawns last, by square), the check, the last move, the marks.

    Examples
    --------
    >>> spoken(chess.Board("4k3/8/8/8/8/8/4P3/4K2R w K - 0 1"))
    'White to move. White: king e1, rook h1, pawn e2. Black: king e8.'
    """
    sentences = [
        f"{_SIDES[board.turn]} to move",
        *(f"{_SIDES[side]}: {_pieces(board, side)}" for side in (chess.WHITE, chess.BLACK)),
    ]
    if board.is_check():
        sentences.append(f"{_SIDES[board.turn]} is in check")
    if last_move is not None:
        sentences.append(f"Last move: {_move(board, last_move)}")
    if drawn := [_mark(mark) for mark in marks]:
        sentences.append(f"Marks: {', '.join(drawn)}")
    if turned:
        sentences.append("Seen from Black's side")
    return ". ".join(sentences) + "."


def _mark(mark: Mark) -> str:
    said: str = INK["marks"][mark.role]["said"]
    return said.format(square=mark.square, to=mark.to)


def _pieces(board: chess.Board, side: chess.Color) -> str:
    """Name a side's pieces by kind, the king first."""
    groups = []
    for kind in reversed(chess.PIECE_TYPES):
        squares = [chess.square_name(square) for square in board.pieces(kind, side)]
        if squares:
            name = chess.piece_name(kind) + ("s" if len(squares) > 1 else "")
            groups.append(f"{name} {_listed(squares)}")
    return ", ".join(groups) or "no pieces"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _move(board: chess.Board, move: chess.Move) -> str:
    """Name a move that has been played by its squares and by who stands there now."""
    way = f"from {chess.square_name(move.from_square)} to {chess.square_name(move.to_square)}"
    if move.promotion:
        return f"pawn {way}, promoted to {chess.piece_name(move.promotion)}"
    piece = board.piece_type_at(move.to_square)
    return f"{chess.piece_name(piece)} {way}" if piece else way
