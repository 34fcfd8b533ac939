"""What the checker counts: points and forcing moves, with python-chess alone.

The piece values stand here again on purpose: the checker shares no code with
what it checks, and a test compares them with those of the rest.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

POINTS = {
    chess.PAWN: 1,
    chess.KNIGHT: 3,
    chess.BISHOP: 3,
    chess.ROOK: 5,
    chess.QUEEN: 9,
    chess.KING: 0,
}
"""What a piece is worth (common practice, no source); the king is never for sale."""


def balance(board: chess.Board, side: chess.Color) -> int:
    """Return a side's points minus the other side's.

    Examples
    --------
    >>> balance(chess.Board("4k3/8/8/8/8/8/4P3/R3K3 w - - 0 1"), chess.BLACK)
    -6
    """
    own, other = board.occupied_co[side], board.occupied_co[not side]
    return sum(
        points * ((men & own).bit_count() - (men & other).bit_count())
        for men, points in (
            (board.pawns, POINTS[chess.PAWN]),
            (board.knights, POINTS[chess.KNIGHT]),
            (board.bishops, POINTS[chess.BISHOP]),
            (board.rooks, POINTS[chess.ROOK]),
            (board.queens, POINTS[chess.QUEEN]),
        )
    )


def forcing_moves(board: chess.Board) -> list[chess.Move]:
    """Return the captures, promotions and checks of the side to move, in a fixed order."""
    found = {*board.generate_legal_captures(), *_promotions(board)}
    king = board.king(not board.turn)
    if king is not None:
        found.update(move for move in _near_checks(board, king) if board.gives_check(move))
    return sorted(found, key=chess.Move.uci)


def _promotions(board: chess.Board) -> Iterator[chess.Move]:
    """Yield the promotions that take nothing."""
    pawns = board.pawns & (chess.BB_RANK_7 if board.turn else chess.BB_RANK_2)
    if pawns & board.occupied_co[board.turn]:
        yield from board.generate_legal_moves(pawns, _LAST_RANKS & ~board.occupied)


def _near_checks(board: chess.Board, king: chess.Square) -> Iterator[chess.Move]:
    """Yield the moves that may give check: to ask it of every move would cost most of the time.

    They uncover a line to the king, go to where it can be attacked from, or castle.
    """
    empty, own = ~board.occupied, board.occupied_co[board.turn]
    uncovering = _uncovering(board, king)
    if uncovering:
        yield from board.generate_legal_moves(uncovering, empty)
    reach = _REACH[board.turn]
    for men, squares in (
        (board.pawns, reach[chess.PAWN][king]),
        (board.knights, reach[chess.KNIGHT][king]),
        (board.bishops | board.queens, reach[chess.BISHOP][king]),
        (board.rooks | board.queens, reach[chess.ROOK][king]),
    ):
        movers = men & own & ~uncovering
        if movers and squares & empty:
            for move in board.generate_legal_moves(movers, squares & empty):
                between = chess.between(move.to_square, king) & board.occupied
                if not between & ~chess.BB_SQUARES[move.from_square]:
                    yield move
    if board.castling_rights:
        yield from (move for move in board.generate_castling_moves())


def _uncovering(board: chess.Board, king: chess.Square) -> int:
    """Return the squares of single pieces that stand between a king and a line piece against it."""
    found = 0
    own = board.occupied_co[board.turn]
    straight = own & (board.rooks | board.queens) & _REACH[board.turn][chess.ROOK][king]
    slanting = own & (board.bishops | board.queens) & _REACH[board.turn][chess.BISHOP][king]
    for sniper in chess.scan_forward(straight | slanting):
        between = chess.between(king, sniper) & board.occupied
        if not between & (between - 1):
            found |= between
    return found


def _reach(side: chess.Color, kind: chess.PieceType, square: chess.Square) -> int:
    """Return the squares from which a piece attacks a square on an empty board, as a bitboard."""
    board = chess.Board(None)
    board.set_piece_at(square, chess.Piece(kind, not side))
    return int(board.attacks_mask(square))


_LAST_RANKS = chess.BB_RANK_1 | chess.BB_RANK_8

_REACH = {
    side: {
        kind: [_reach(side, kind, square) for square in chess.SQUARES]
        for kind in (chess.PAWN, chess.KNIGHT, chess.BISHOP, chess.ROOK)
    }
    for side in chess.COLORS
}
