"""Squares that pawns have left behind: holes and outposts, and who can use them.

The definitions are the trade's (common practice, no source):

hole
    A square of the third or fourth rank, seen from its side, on the files b
    to g, that no pawn of the side can guard any more by going ahead: a pawn on a
    neighbouring file has gone past it, and none is left behind it.  It counts
    while the enemy has a knight, or a bishop of its colour, that could use it.
outpost
    A square of the fifth or sixth rank, seen from the side that uses it,
    that no enemy pawn on a neighbouring file can attack, now or later, and
    that a pawn of its own side guards.

A pawn that takes changes its file, and may come to attack such a square after
all: the sentences speak of the neighbouring files, where that can be seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.pieces import Piece, piece_at
from chessnb.board.squares import names_of
from chessnb.facts._pawns import ahead, beside

FARTHEST = 3
"""So many moves a knight may need to a square that is still said to be in its reach."""


@dataclass(frozen=True, kw_only=True)
class Outpost:
    """A square in the enemy's half that no pawn can drive a piece from.

    Attributes
    ----------
    side : chess.Color
        The side that may use it.
    square : str
        The square.
    guards : tuple of str
        The squares of the pawns that guard it.
    piece : Piece or None
        The side's knight or bishop that stands there, or the knight that can be there soonest.
    route : tuple of str
        The squares over which that knight goes, the outpost last; empty if it stands there.
    """

    side: chess.Color
    square: str
    guards: tuple[str, ...]
    piece: Piece | None = None
    route: tuple[str, ...] = ()

    @property
    def is_held(self) -> bool:
        """Whether a knight or bishop of the side stands there."""
        return self.piece is not None and not self.route


def holes(board: chess.Board, side: chess.Color) -> tuple[str, ...]:
    """Return the squares of a side's half that its pawns can guard no more."""
    own = board.pieces(chess.PAWN, side)
    ranks = (2, 3) if side else (5, 4)
    return names_of(
        square
        for square in (chess.square(file, rank) for file in range(1, 7) for rank in ranks)
        if not attackable(board, square, side)
        and own & beside(square) & (ahead(square, side) | _rank(square))
        and _has_a_user(board, square, not side)
    )


def _has_a_user(board: chess.Board, square: chess.Square, side: chess.Color) -> bool:
    light = chess.SquareSet(chess.BB_LIGHT_SQUARES)
    alike = light if square in light else ~light
    return bool(board.pieces(chess.KNIGHT, side) or board.pieces(chess.BISHOP, side) & alike)


def outposts(board: chess.Board, side: chess.Color) -> Iterator[Outpost]:
    """Yield the outposts of a side, from a to h, those that nobody can use soon too."""
    for square in _of_the_enemys_half(side):
        guards = board.attackers(side, square) & board.pieces(chess.PAWN, side)
        if not guards or attackable(board, square, not side):
            continue
        occupant = board.piece_at(square)
        plain = Outpost(side=side, square=chess.square_name(square), guards=names_of(guards))
        if occupant is None:
            yield _with_a_knight(board, plain)
        elif occupant.color == side and occupant.piece_type in (chess.KNIGHT, chess.BISHOP):
            yield _used(plain, piece_at(board, square), ())


def _used(plain: Outpost, piece: Piece, route: tuple[str, ...]) -> Outpost:
    return Outpost(
        side=plain.side, square=plain.square, guards=plain.guards, piece=piece, route=route
    )


def _of_the_enemys_half(side: chess.Color) -> Iterator[chess.Square]:
    for file in range(8):
        for rank in (4, 5) if side else (3, 2):
            yield chess.square(file, rank)


def _rank(square: chess.Square) -> chess.SquareSet:
    return chess.SquareSet(chess.BB_RANKS[chess.square_rank(square)])


def attackable(board: chess.Board, square: chess.Square, side: chess.Color) -> bool:
    """Tell whether a pawn of a side attacks a square, or can by going ahead on its file."""
    pawns = board.pieces(chess.PAWN, side) & beside(square)
    return bool(pawns - ahead(square, side) - _rank(square))


def _with_a_knight(board: chess.Board, outpost: Outpost) -> Outpost:
    """Add the knight that can be on an empty outpost soonest, if one can."""
    goal = chess.parse_square(outpost.square)
    routes = [
        (len(route), _seen_by(outpost.side, knight), knight, route)
        for knight in board.pieces(chess.KNIGHT, outpost.side)
        if not board.is_pinned(outpost.side, knight)
        if (route := knight_route(board, knight, goal))
    ]
    if not routes:
        return outpost
    *_, knight, route = min(routes)
    return _used(outpost, piece_at(board, knight), route)


def _seen_by(side: chess.Color | None, square: chess.Square) -> chess.Square:
    """Return a square as its side counts it, so that neither colour is favoured."""
    return square if side else chess.square_mirror(square)


def knight_route(board: chess.Board, knight: chess.Square, goal: chess.Square) -> tuple[str, ...]:
    """Return the squares of a knight's shortest way; empty if there is none within reach.

    It goes over empty squares that no enemy pawn attacks now, while nothing else moves.
    """
    side = board.color_at(knight)
    ways: dict[chess.Square, tuple[str, ...]] = {knight: ()}
    edge = [knight]
    for _ in range(FARTHEST):
        reached = []
        for square in edge:
            steps = chess.SquareSet(chess.BB_KNIGHT_ATTACKS[square])
            for step in sorted(steps, key=lambda one: _seen_by(side, one)):
                if step in ways or board.piece_at(step) is not None:
                    continue
                if board.attackers(not side, step) & board.pieces(chess.PAWN, not side):
                    continue
                ways[step] = (*ways[square], chess.square_name(step))
                reached.append(step)
        if goal in ways:
            return ways[goal]
        edge = reached
    return ()
