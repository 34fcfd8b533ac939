"""How positions, moves, sides and pieces are written in records, and told from them."""

from __future__ import annotations

import re
from collections.abc import Iterable

import chess

from chessnb.board.naming import number
from chessnb.board.pieces import Piece
from chessnb.board.sides import SIDES


def place_of(board: chess.Board, move: chess.Move | None = None) -> str:
    """Return the place of what is found in a position, or of a move in it.

    Examples
    --------
    >>> place_of(chess.Board()), place_of(chess.Board(), chess.Move.from_uci("e2e4"))
    ('1.', '1. e4')
    """
    at = number(board)
    return f"{at} {board.san(move)}" if move else at


def side_of_place(place: str) -> chess.Color:
    """Return the side that is to move in a position, or that makes a move.

    Examples
    --------
    >>> side_of_place("20... Nf3+"), side_of_place("21.")
    (False, True)
    """
    return "..." not in place


def side_word(side: chess.Color) -> str:
    """Return a side as records name it."""
    return SIDES[side].lower()


def piece_on(board: chess.Board, square: chess.Square) -> str:
    """Return what stands on a square as records name it; an empty square by its name.

    Examples
    --------
    >>> piece_on(chess.Board(), chess.G1), piece_on(chess.Board(), chess.E4)
    ('Ng1', 'e4')
    """
    kind = board.piece_type_at(square)
    letter = "" if kind is None else chess.piece_symbol(kind).upper()
    return f"{letter}{chess.square_name(square)}"


def pieces_field(pieces: Iterable[Piece]) -> str:
    """Return several pieces as records name them.

    Examples
    --------
    >>> pieces_field([Piece(letter="q", square="f5"), Piece(letter="P", square="e4")])
    'Qf5 Pe4'
    """
    return " ".join(f"{one.letter.upper()}{one.square}" for one in pieces)


def piece_in_words(field: str) -> str:
    """Tell what a record names: ``"Nc6"`` is ``"the knight on c6"``, ``"c6"`` itself.

    Examples
    --------
    >>> piece_in_words("Nc6"), piece_in_words("c6")
    ('the knight on c6', 'c6')
    """
    if len(field) == 2:
        return field
    kind = chess.PIECE_SYMBOLS.index(field[0].lower())
    return f"the {chess.piece_name(kind)} on {field[1:]}"


def number_in(field: str) -> int:
    """Return the number of a field: 5 for ``"5 points"``.

    Examples
    --------
    >>> number_in("5 points"), number_in("within 4"), number_in("-2 points")
    (5, 4, -2)
    """
    found = re.search(r"-?\d+", field)
    assert found is not None
    return int(found[0])


def fields_by_unit(fields: Iterable[str]) -> dict[str, int]:
    """Return the numbers of fields by their units: ``{"mate": 3, "points": 5}``.

    Examples
    --------
    >>> fields_by_unit(("mate 3", "5 points", "within 4", "white"))
    {'mate': 3, 'points': 5, 'within': 4}
    """
    numbers = ((re.fullmatch(r"(?:(\D+) )?(-?\d+)(?: (\D+))?", field)) for field in fields)
    return {(found[1] or found[3] or ""): int(found[2]) for found in numbers if found}
