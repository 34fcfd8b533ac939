"""What counts as a position: a moment, a board, or a FEN.

Every function of the package that looks at a position takes any of the three
and begins with :func:`board_of`.
"""

from __future__ import annotations

from typing import Protocol, runtime_checkable

import chess

from chessnb.errors import PositionError


@runtime_checkable
class HasBoard(Protocol):
    """Anything that stands for a position and can show it as a board."""

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        ...  # pragma: no cover


Position = chess.Board | HasBoard | str
"""A ``chess.Board``, a moment (anything with a ``board``), or a FEN."""


def board_of(position: Position, *, legal: bool = True) -> chess.Board:
    """Turn a position into a board that the caller may change.

    Parameters
    ----------
    position : chess.Board, moment or str
        A board, a moment of a lesson, or a FEN (four fields are enough; the
        word ``"start"`` is the position at the start of a game).
    legal : bool
        Refuse positions that cannot be played on, such as one without a king.

    Returns
    -------
    chess.Board
        A copy, with the move history that was known.

    Raises
    ------
    PositionError
        If it is not a position, or (with `legal`) not a legal one.

    Examples
    --------
    >>> board_of("start").fen()
    'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1'
    """
    if isinstance(position, chess.Board):
        board = position.copy()
    elif isinstance(position, str):
        board = _read_fen(position)
    elif isinstance(position, HasBoard):
        board = position.board.copy()
    else:
        raise PositionError(
            "a position is a board, a moment of a lesson, or a FEN", given=repr(position)
        )
    if legal and (faults := what_is_wrong(board)):
        raise PositionError(f"this position cannot be played: {faults[0]}", given=board.fen())
    return board


def _read_fen(text: str) -> chess.Board:
    if text.strip().lower() in ("start", "startpos"):
        return chess.Board()
    try:
        return chess.Board(" ".join(text.split()))
    except ValueError as error:
        raise PositionError(f"this is not a FEN ({_fen_fault(text, error)})", given=text) from None


def _fen_fault(text: str, error: ValueError) -> str:
    fields = text.split()
    if not fields:
        return "it is empty"
    rows = fields[0].split("/")
    if len(rows) != 8:
        return f"the first field needs 8 ranks with / between them, and has {len(rows)}"
    for rank, row in zip(range(8, 0, -1), rows, strict=True):
        if strange := [letter for letter in row if letter not in "pnbrqkPNBRQK12345678"]:
            return (
                f"rank {rank} has {strange[0]!r}, which is neither a piece nor a count from 1 to 8"
            )
        width = sum(int(letter) if letter.isdigit() else 1 for letter in row)
        if width != 8:
            return f"rank {rank}, {row!r}, fills {width} squares instead of 8"
    return str(error).split(":")[0]


def what_is_wrong(board: chess.Board) -> list[str]:
    """Say in words why a position cannot be played on; empty if it can.

    The conditions are those of the FIDE Laws, articles 1 to 3, as far as a
    single position shows them.
    """
    status = board.status()
    checked = not board.turn
    names = {True: "White", False: "Black"}
    sentences = [
        (chess.STATUS_NO_WHITE_KING, "White has no king"),
        (chess.STATUS_NO_BLACK_KING, "Black has no king"),
        (chess.STATUS_TOO_MANY_KINGS, "a side has more than one king"),
        (chess.STATUS_TOO_MANY_WHITE_PAWNS, "White has more than eight pawns"),
        (chess.STATUS_TOO_MANY_BLACK_PAWNS, "Black has more than eight pawns"),
        (chess.STATUS_PAWNS_ON_BACKRANK, "a pawn stands on the first or the eighth rank"),
        (chess.STATUS_TOO_MANY_WHITE_PIECES, "White has more than sixteen men"),
        (chess.STATUS_TOO_MANY_BLACK_PIECES, "Black has more than sixteen men"),
        (
            chess.STATUS_OPPOSITE_CHECK,
            f"{names[checked]} is in check, yet it is {names[board.turn]}'s move",
        ),
        (
            chess.STATUS_BAD_CASTLING_RIGHTS,
            "castling is said to be allowed, but king or rook is not on its square",
        ),
        (chess.STATUS_INVALID_EP_SQUARE, "no pawn can just have made the double step it says"),
        (
            chess.STATUS_TOO_MANY_CHECKERS | chess.STATUS_IMPOSSIBLE_CHECK,
            f"{names[board.turn]}'s king is checked in a way that no move can bring about",
        ),
        (chess.STATUS_EMPTY, "the board is empty"),
    ]
    return [sentence for flag, sentence in sentences if status & flag]
