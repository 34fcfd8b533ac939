"""Where a move that was given belongs, and what is different there.

A student who gives a wrong move has often mixed up two places.  The lesson is
looked through for where the same side plays it; the pieces that stand
elsewhere there say how to tell the two apart.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess
import chess.pgn

from chessnb.board.naming import counted, listed
from chessnb.board.sides import SIDES
from chessnb.lessons.addresses import address_of, walk

MOST_TOLD = 2
"""So many differences are told."""


def where_it_belongs(node: chess.pgn.ChildNode, move: chess.Move) -> str:
    """Say where the lesson plays a move that was given in the place of another.

    Parameters
    ----------
    node : chess.pgn.ChildNode
        The move that was asked for.
    move : chess.Move
        The move that was given; legal there.

    Returns
    -------
    str
        A sentence; empty if the lesson plays it nowhere else.
    """
    board = node.parent.board()
    san = board.san(move)
    other = _nearest(node, move, san)
    if other is None:
        return ""
    if _is_later(node, other):
        plies = other.ply() - node.ply()
        return f"{san} comes {counted(plies // 2, 'move')} later." if plies else ""
    address = address_of(other)
    if different := _differences(other.parent.board(), board):
        return f"{san} belongs to {address}; there {different}."
    return f"In the same position the lesson plays it in {address}."


def _nearest(node: chess.pgn.ChildNode, move: chess.Move, san: str) -> chess.pgn.ChildNode | None:
    """Return the place where the move is played that is most like the one asked about."""
    board = node.parent.board()
    piece = board.piece_at(move.from_square)
    found = [
        other
        for other in walk(node.game())
        if isinstance(other, chess.pgn.ChildNode)
        and other.move
        and other is not node
        and other.parent.turn() == board.turn
        and other.move.to_square == move.to_square
        and other.parent.board().piece_at(other.move.from_square) == piece
    ]
    found.sort(key=lambda other: (_distance(other.parent.board(), board), other.ply()))
    return found[0] if found else None


def _distance(one: chess.Board, other: chess.Board) -> int:
    return sum(one.piece_at(square) != other.piece_at(square) for square in chess.SQUARES)


def _is_later(node: chess.pgn.ChildNode, other: chess.pgn.ChildNode) -> bool:
    """Tell whether another move stands further on in the line of the one that was asked for."""
    following: chess.pgn.GameNode | None = other
    while following is not None:
        if following is node:
            return True
        following = following.parent
    return False


def _differences(there: chess.Board, here: chess.Board) -> str:
    """Say which pieces stand otherwise in another position: ``"Black's bishop stands on h5"``."""
    told = list(_told(there, here))
    return listed(told[:MOST_TOLD])


def _told(there: chess.Board, here: chess.Board) -> Iterator[str]:
    for square in chess.scan_forward(there.occupied):
        piece = there.piece_at(square)
        if piece is None or here.piece_at(square) == piece:
            continue
        whose = SIDES[piece.color]
        name = chess.piece_name(piece.piece_type)
        gone = [one for one in here.pieces(piece.piece_type, piece.color)
                if there.piece_at(one) != piece]  # fmt: skip
        where = chess.square_name(square)
        if len(gone) == 1:
            yield f"{whose}'s {name} stands on {where} (here on {chess.square_name(gone[0])})"
        else:
            yield f"{whose}'s {name} stands on {where}"
