"""What keeps a piece from a square, the safety of its king aside.

FIDE Laws, articles 3.1 to 3.8: how the pieces and the pawns move.
"""

from __future__ import annotations

import chess

from chessnb.board.castling_rights import WINGS, has_right, obstacles
from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES

_OFF_ITS_WAY = {
    chess.BISHOP: "a bishop moves along diagonals, and {} is on none of its own",
    chess.ROOK: "a rook moves along files and ranks, and {} is on neither of its two",
    chess.QUEEN: "a queen moves along files, ranks and diagonals, and {} is on none of its own",
    chess.KNIGHT: (
        "a knight moves two squares along a file or rank and one aside, and {} is elsewhere"
    ),
    chess.KING: "a king moves one square, and {} is further away",
}


def is_light(square: chess.Square) -> bool:
    """Tell whether a square is a light one.

    Examples
    --------
    >>> is_light(chess.H1), is_light(chess.A1)
    (True, False)
    """
    return bool(chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[square])


def on_its_way(piece: chess.PieceType, square: chess.Square, to_square: chess.Square) -> bool:
    """Tell whether a piece (no pawn) could go there on an empty board.

    Examples
    --------
    >>> on_its_way(chess.BISHOP, chess.C1, chess.H6)
    True
    """
    alone = chess.BaseBoard(None)
    alone.set_piece_at(square, chess.Piece(piece, chess.WHITE))
    return bool(alone.attacks_mask(square) & chess.BB_SQUARES[to_square])


def off_its_way(piece: chess.PieceType, to_square: chess.Square) -> str:
    """Say how a piece (no pawn) moves, and that a square is not among its own.

    Examples
    --------
    >>> off_its_way(chess.ROOK, chess.D5)
    'a rook moves along files and ranks, and d5 is on neither of its two'
    """
    return _OFF_ITS_WAY[piece].format(chess.square_name(to_square))


def other_shade(square: chess.Square, to_square: chess.Square) -> str:
    """Say that a bishop never leaves the light or the dark squares.

    Examples
    --------
    >>> other_shade(chess.C1, chess.G4)
    'a bishop on a dark square stays on dark squares, and g4 is a light one'
    """
    own, other = ("light", "dark") if is_light(square) else ("dark", "light")
    goal = chess.square_name(to_square)
    return f"a bishop on a {own} square stays on {own} squares, and {goal} is a {other} one"


def blockers(
    board: chess.Board, square: chess.Square, to_square: chess.Square
) -> list[chess.Square]:
    """Return the squares of the pieces between two squares on a line, the nearest first."""
    between = chess.SquareSet(chess.between(square, to_square) & board.occupied)
    return sorted(between, key=lambda blocker: chess.square_distance(square, blocker))


# -- pieces ------------------------------------------------------------------


def path_reason(board: chess.Board, square: chess.Square, to_square: chess.Square) -> str:
    """Say what keeps a piece (no pawn) from a square; empty if nothing does.

    Examples
    --------
    >>> path_reason(chess.Board(), chess.C1, chess.G5)
    'the pawn on d2 is in the way'
    """
    piece = board.piece_type_at(square)
    assert piece is not None
    assert piece != chess.PAWN
    if not on_its_way(piece, square, to_square):
        return _off_from(board, piece, square, to_square)
    if in_the_way := blockers(board, square, to_square):
        return f"{the_piece(board, in_the_way[0])} is in the way"
    if board.color_at(to_square) == board.turn:
        own = chess.piece_name(board.piece_type_at(to_square) or chess.PAWN)
        return f"{SIDES[board.turn]}'s own {own} stands there"
    return ""


def _off_from(
    board: chess.Board, piece: chess.PieceType, square: chess.Square, to_square: chess.Square
) -> str:
    """Say that a square is off a piece's way, and what the player may have had in mind."""
    if piece == chess.BISHOP and is_light(square) != is_light(to_square):
        return other_shade(square, to_square)
    reason = off_its_way(piece, to_square)
    home = chess.E1 if board.turn else chess.E8
    if piece == chess.KING and square == home and abs(to_square - square) == 2:
        wing = WINGS[0] if to_square > square else WINGS[1]
        if has_right(board, board.turn, wing):
            prevented = listed(found.words for found in obstacles(board, board.turn, wing))
            return f"{reason}; castling {wing} is prevented: {prevented}"
    return reason


# -- pawns -------------------------------------------------------------------


def pawn_aims_at(board: chess.Board, square: chess.Square, to_square: chess.Square) -> bool:
    """Tell whether a pawn of the side to move attacks a square, or has it one or two steps ahead.

    Examples
    --------
    >>> board = chess.Board()
    >>> pawn_aims_at(board, chess.E2, chess.E4), pawn_aims_at(board, chess.E2, chess.E5)
    (True, False)
    """
    ahead = 8 if board.turn else -8
    attacks = chess.BB_PAWN_ATTACKS[board.turn][square]
    return to_square in (square + ahead, square + 2 * ahead) or bool(
        attacks & chess.BB_SQUARES[to_square]
    )


def pawn_reason(
    board: chess.Board,
    square: chess.Square,
    to_square: chess.Square,
    takes: bool,
    promotion: chess.PieceType | None,
) -> str:
    """Say what keeps a pawn from a square; empty if nothing does.

    Examples
    --------
    >>> pawn_reason(chess.Board(), chess.E2, chess.D3, True, None)
    'there is nothing to take on d3 for the pawn on e2'
    """
    mover, goal = the_piece(board, square), chess.square_name(to_square)
    ahead = 8 if board.turn else -8
    if chess.BB_PAWN_ATTACKS[board.turn][square] & chess.BB_SQUARES[to_square]:
        reason = _capture_reason(board, mover, to_square)
    elif to_square in (square + ahead, square + 2 * ahead):
        reason = _step_reason(board, mover, square, to_square, takes)
    else:
        reason = f"{mover} cannot reach {goal}: {_off_pawns_way(board, square, to_square)}"
    if not reason and promotion is not None and chess.square_rank(to_square) not in (0, 7):
        return f"{mover} is promoted on the last rank only, and {goal} is not on it"
    return reason


def _off_pawns_way(board: chess.Board, square: chess.Square, to_square: chess.Square) -> str:
    ranks = chess.square_rank(to_square) - chess.square_rank(square)
    if ranks == 0:
        return "a pawn never moves sideways"
    if (ranks > 0) != board.turn:
        return "a pawn never moves backwards"
    return (
        "a pawn steps one square straight ahead, two from its first square, and takes one square "
        "ahead on the next file"
    )


def _step_reason(
    board: chess.Board, mover: str, square: chess.Square, to_square: chess.Square, takes: bool
) -> str:
    """Say what keeps a pawn from a square one or two steps straight ahead."""
    if takes:
        return f"{mover} takes one square ahead on the next file, not straight on"
    double = abs(to_square - square) == 16
    if double and chess.square_rank(square) != (1 if board.turn else 6):
        return f"{mover} has left its first square and steps one square at a time"
    steps = [(square + to_square) // 2, to_square] if double else [to_square]
    for step in steps:
        if board.color_at(step) is not None:
            goal = chess.square_name(to_square)
            return f"{mover} cannot reach {goal}: {the_piece(board, step)} is in the way"
    return ""


def _capture_reason(board: chess.Board, mover: str, to_square: chess.Square) -> str:
    """Say what keeps a pawn from taking on a square that it attacks."""
    if board.color_at(to_square) == board.turn:
        return (
            f"{mover} cannot take {the_piece(board, to_square)}, which is {SIDES[board.turn]}'s own"
        )
    if board.color_at(to_square) is not None or to_square == board.ep_square:
        return ""
    passed = to_square + (-8 if board.turn else 8)
    right_rank = chess.square_rank(to_square) == (5 if board.turn else 2)
    if right_rank and board.piece_at(passed) == chess.Piece(chess.PAWN, not board.turn):
        return (
            f"{mover} cannot take {the_piece(board, passed)} in passing: {_too_late(board, passed)}"
        )
    return f"there is nothing to take on {chess.square_name(to_square)} for {mover}"


def _too_late(board: chess.Board, pawn: chess.Square) -> str:
    """Say why a pawn cannot be taken in passing (article 3.7.3), from the moves that are known."""
    arrival, at_move, replay = None, 0, board.root()
    for move in board.move_stack:
        if move.to_square == pawn and move:
            arrival, at_move = move, replay.fullmove_number
        replay.push(move)
    if arrival is None:
        return "that is allowed only at once, after its double step"
    if abs(arrival.to_square - arrival.from_square) == 16:
        return f"that is allowed only at once, and it made its double step at move {at_move}"
    start = chess.square_name(arrival.from_square)
    return f"that is allowed only after a double step, and it came from {start} at move {at_move}"
