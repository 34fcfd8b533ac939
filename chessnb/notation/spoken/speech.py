"""Moves as one says them aloud in English, and as a screen reader can read them.

A spoken move tells apart what SAN (PGN standard, section 8.2.3) tells apart,
with words for letters and signs; no two legal moves of a position sound alike.
"""

from __future__ import annotations

import re

import chess

_SAN = re.compile(
    r"""^(?P<piece>[KQRBN])?(?P<file>[a-h])?(?P<rank>[1-8])?(?P<takes>x)?
        (?P<to>[a-h][1-8])(?:=(?P<promotion>[QRBN]))?[+\#]?$""",
    re.VERBOSE,
)
_ENDINGS = {"+": ", check", "#": ", checkmate"}


def spoken(board: chess.Board, move: chess.Move) -> str:
    """Say a legal move as a teacher says it.

    Parameters
    ----------
    board : chess.Board
        The position before the move.
    move : chess.Move
        A legal move there (this is not checked), or the null move.

    Returns
    -------
    str
        Such as ``"knight f takes d5, check"``, ``"rook from d1 to d3"``,
        ``"pawn to e8 makes a queen"``, ``"e takes d6 en passant"``,
        ``"castles short"``.

    Examples
    --------
    >>> board = chess.Board("1r5k/2P5/8/8/8/8/8/R3K3 w Q - 0 1")
    >>> [spoken(board, board.parse_san(san)) for san in ("cxb8=R+", "O-O-O", "Ra8")]
    ['c takes b8 makes a rook, check', 'castles long', 'rook to a8']
    """
    san = board.san(move)
    ending = _ENDINGS.get(san[-1], "")
    if not move:
        return "a pass"
    if board.is_castling(move):
        return f"castles {'short' if board.is_kingside_castling(move) else 'long'}{ending}"
    said = _SAN.match(san)
    assert said is not None
    words = [_mover(said, move), "takes" if said["takes"] else "to", said["to"]]
    if move.promotion:
        words.append(f"makes a {chess.piece_name(move.promotion)}")
    if board.is_en_passant(move):
        words.append("en passant")
    return " ".join(words) + ending


def _mover(said: re.Match[str], move: chess.Move) -> str:
    """Name the piece that moves, with what tells it from others of its kind."""
    if not said["piece"]:
        return str(said["file"] or "pawn")
    name = chess.piece_name(chess.PIECE_SYMBOLS.index(said["piece"].lower()))
    if said["rank"]:
        # "rook 1" would be heard as a number of the rook.
        return f"{name} from {chess.square_name(move.from_square)}"
    return f"{name} {said['file']}" if said["file"] else name
