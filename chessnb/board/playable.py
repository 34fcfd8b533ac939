"""Positions that a live board can be played on, and what is wrong with others."""

from __future__ import annotations

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.position_faults import what_is_wrong
from chessnb.errors import PositionError

LONGEST_FEN = 200
"""So many characters are read; a FEN has 100 at the very most."""

_ORDINARY = "a live board castles by the ordinary rules only"


def playable(position: Position) -> chess.Board:
    """Turn a position into a board that a live board can begin with.

    Raises
    ------
    PositionError
        If it cannot come about in a game, or needs the castling of Chess960.

    Examples
    --------
    >>> playable("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1").turn
    True
    """
    board = read_position(position)
    if board.has_chess960_castling_rights():
        raise PositionError(_ORDINARY, given=board.fen())
    board.chess960 = False
    return board


def faults_of(fen: str) -> list[str]:
    """Say in words why a position set up by hand cannot be played on; empty if it can.

    Parameters
    ----------
    fen : str
        What was set up, or typed as a FEN.

    Returns
    -------
    list of str
        Clauses without a full stop, the gravest first.

    Examples
    --------
    >>> faults_of("8/8/8/8/8/8/8/4K3 w - - 0 1")
    ['Black has no king']
    >>> faults_of("e4 e5")
    ['these are moves, not a position']
    >>> faults_of("4k3/8/8/8/8/8/8/4K3 w - - 0 1")
    []
    """
    try:
        board = read_position(fen[:LONGEST_FEN], legal=False)
    except PositionError as error:
        return [error.reason]
    faults = what_is_wrong(board)
    if not faults and board.has_chess960_castling_rights():
        return [_ORDINARY]
    return faults
