"""What the checker counts: points and forcing moves, with python-chess alone.

The piece values stand here again on purpose: the checker shares no code with
what it checks, and a test compares them with those of the rest.
"""

from __future__ import annotations

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
    enemy = board.occupied_co[not board.turn]
    king = board.king(not board.turn)
    uncovering = 0 if king is None else _uncovering(board, king)

    def checks(move: chess.Move) -> bool:
        # To ask of every move whether it gives check would cost most of the time.
        if king is None or not (uncovering >> move.from_square & 1 or _reaches(board, move, king)):
            return False
        return board.gives_check(move)

    return sorted(
        (
            move
            for move in board.legal_moves
            if move.promotion
            or enemy >> move.to_square & 1
            or board.is_en_passant(move)
            or checks(move)
        ),
        key=chess.Move.uci,
    )


def _uncovering(board: chess.Board, king: chess.Square) -> int:
    """Return the squares of single pieces that stand between a king and a line piece against it."""
    found = 0
    own = board.occupied_co[board.turn]
    straight = own & (board.rooks | board.queens) & _REACH[board.turn, chess.ROOK][king]
    slanting = own & (board.bishops | board.queens) & _REACH[board.turn, chess.BISHOP][king]
    for sniper in chess.scan_forward(straight | slanting):
        between = chess.between(king, sniper) & board.occupied
        if not between & (between - 1):
            found |= between
    return found


def _reaches(board: chess.Board, move: chess.Move, king: chess.Square) -> bool:
    """Tell whether the piece that moves may attack a king from where it goes; a castling may."""
    kind = board.piece_type_at(move.from_square)
    if kind is None or not _REACH[board.turn, kind][king] >> move.to_square & 1:
        return kind == chess.KING and board.is_castling(move)
    between = chess.between(move.to_square, king) & board.occupied
    return not between & ~chess.BB_SQUARES[move.from_square]


def _reach(side: chess.Color, kind: chess.PieceType, square: chess.Square) -> int:
    """Return the squares from which a piece attacks a square on an empty board, as a bitboard."""
    board = chess.Board(None)
    board.set_piece_at(square, chess.Piece(kind, not side))
    return 0 if kind == chess.KING else board.attacks_mask(square)


_REACH = {
    (side, kind): [_reach(side, kind, square) for square in chess.SQUARES]
    for side in chess.COLORS
    for kind in chess.PIECE_TYPES
}
