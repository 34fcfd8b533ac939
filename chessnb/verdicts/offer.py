"""Offers: what a move leaves to be taken, counted by exchange on one square, nothing searched."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.exchange import hanging, nets
from chessnb.board.points import POINTS
from chessnb.board.turns import moved


@dataclass(frozen=True, kw_only=True)
class Offer:
    """What a move leaves to be taken.

    Attributes
    ----------
    points : int
        What taking it brings the other side, less what the move itself took; zero or
        less where nothing is offered.
    square : chess.Square
        Where it stands.
    """

    points: int
    square: chess.Square


def offer_of(before: chess.Board, move: chess.Move) -> Offer:
    """Return the most that a move offers: the piece that moved, or one that it leaves or uncovers.

    A piece that the other side could have taken before is no offer, nor is a
    pawn that is left, nor a piece that is lost wherever it goes.

    Parameters
    ----------
    before : chess.Board
        The position before the move; with its last move, if that is known, so
        that what hung already is known.
    move : chess.Move
        A legal move.
    """
    side, after = before.turn, moved(before, [move])
    hung = _could_be_taken(before)
    offers = []
    for square, offered in hanging(after, side).items():
        if square != move.to_square:
            offered -= hung.get(square, 0)
            if after.piece_type_at(square) == chess.PAWN:
                continue
        elif _is_lost_anyway(before, move):
            continue
        offers.append((offered, square == move.to_square, square))
    offered, _, square = max(offers, default=(0, False, move.to_square))
    return Offer(points=offered - _taken(before, move), square=square)


def _could_be_taken(before: chess.Board) -> dict[chess.Square, int]:
    """Return what the other side could have taken when it had the move, by square.

    Where nobody knows its last move: what it could take if we passed.
    """
    if not before.move_stack:
        return hanging(before, before.turn)
    earlier = before.copy(stack=1)
    earlier.pop()
    return hanging(earlier, before.turn)


def _is_lost_anyway(before: chess.Board, move: chess.Move) -> bool:
    """Tell whether the piece that moved hung before, and would hang wherever it went."""
    start = move.from_square
    if start not in hanging(before, before.turn):
        return False
    ways = [other for other in before.legal_moves if other.from_square == start]
    return all(nets(before, way) < 0 for way in ways)


def _taken(before: chess.Board, move: chess.Move) -> int:
    if before.is_en_passant(move):
        return POINTS[chess.PAWN]
    if before.is_castling(move):
        return 0
    kind = before.piece_type_at(move.to_square)
    return POINTS.get(kind, 0) if kind else 0
