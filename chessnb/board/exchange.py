"""What taking on one square brings when both sides may stop at any time."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.points import POINTS

Known = dict[tuple[int, ...], int]
"""What the side to move gains in positions met before, by where the men stand."""


def gain_on(
    board: chess.Board, target: chess.Square, *, aside: chess.Bitboard = chess.BB_EMPTY
) -> int:
    """Return the points that the side to move gains on a square, without the sequence.

    Checks given from the squares `aside` do not hinder anybody from taking: so a piece
    is judged as it stood before the check.
    """
    return _gain(board, target, {}, aside)


def hanging(board: chess.Board, side: chess.Color) -> dict[chess.Square, int]:
    """Return what the other side gains on the squares of a side's pieces, if it may begin.

    A check to the side is set aside: what hangs beside it hangs, and so does what
    stands behind the king on the line of the check.

    Examples
    --------
    >>> hanging(chess.Board("4k3/8/8/8/8/8/4n3/2K1N3 w - - 0 1"), chess.WHITE)
    {}
    >>> skewered = hanging(chess.Board("4k3/8/8/8/8/8/8/r2K3R w - - 0 1"), chess.WHITE)
    >>> {chess.square_name(square): points for square, points in skewered.items()}
    {'h1': 5}
    """
    seen = board.copy(stack=False)
    checkers, king = chess.SquareSet(), board.king(side)
    if board.turn == side:
        checkers = board.checkers()
        seen.turn, seen.ep_square = not side, None
    own = chess.SquareSet(board.occupied_co[side])
    gains = {square: gain_on(seen, square, aside=int(checkers)) for square in own}
    if checkers and king is not None:
        seen.remove_piece_at(king)
        for checker in checkers:
            behind = seen.attacks(checker) & chess.SquareSet.ray(checker, king) & own
            for square in behind - chess.SquareSet([king]):
                gains[square] = max(gains[square], gain_on(seen, square))
    return {square: points for square, points in gains.items() if points}


def nets(board: chess.Board, capture: chess.Move) -> int:
    """Return the points that a legal capture comes to by the exchange on its square.

    Examples
    --------
    >>> board = chess.Board("4k3/4p3/3p4/4n3/8/8/8/4Q1K1 w - - 0 1")
    >>> nets(board, chess.Move.from_uci("e1e5"))
    -6
    """
    after = board.copy(stack=False)
    after.push(capture)
    return points_won(board, capture) - gain_on(after, capture.to_square)


def takes_on(
    board: chess.Board, target: chess.Square, aside: chess.Bitboard = chess.BB_EMPTY
) -> list[chess.Move]:
    """Return the legal captures that land on a square, the cheapest piece first."""
    moves = board.generate_legal_captures(to_mask=chess.BB_SQUARES[target])
    if aside and board.checkers_mask() & aside:
        moves = _takes_in_check(board, target, aside)

    def cost(move: chess.Move) -> tuple[int, int, int]:
        kind = board.piece_type_at(move.from_square) or 0
        return (kind, move.from_square, -(move.promotion or 0))

    return sorted(moves, key=cost)


def _takes_in_check(
    board: chess.Board, target: chess.Square, aside: chess.Bitboard
) -> Iterator[chess.Move]:
    """Yield the captures on a square that would be legal without the checks set aside."""
    side = board.turn
    for move in board.generate_pseudo_legal_captures(to_mask=chess.BB_SQUARES[target]):
        king = board.king(side) == move.from_square
        board.push(move)
        home = board.king(side)
        checked = 0 if home is None else board.attackers_mask(not side, home)
        board.pop()
        if not checked & ~(0 if king else aside):
            yield move


def best_take(
    board: chess.Board,
    target: chess.Square,
    known: Known,
    aside: chess.Bitboard = chess.BB_EMPTY,
) -> tuple[chess.Move | None, int | None]:
    """Return the best take and the points it ends with; of equal ones the first."""
    best: chess.Move | None = None
    most: int | None = None
    for move in takes_on(board, target, aside):
        points = points_won(board, move)
        board.push(move)
        points -= _gain(board, target, known, aside)
        board.pop()
        if most is None or points > most:
            best, most = move, points
    return best, most


def _gain(board: chess.Board, target: chess.Square, known: Known, aside: chess.Bitboard = 0) -> int:
    """Return what the side to move gains on the square, free not to begin."""
    if not board.attackers_mask(board.turn, target):
        return 0
    key = _men(board)
    if key not in known:
        known[key] = max(0, best_take(board, target, known, aside)[1] or 0)
    return known[key]


def _men(board: chess.Board) -> tuple[int, ...]:
    """Return what is alike for the same men and the same side to move."""
    men = (board.pawns, board.knights, board.bishops, board.rooks, board.queens, board.kings)
    return (*men, board.occupied_co[True], board.turn, board.ep_square or 0)


def points_won(board: chess.Board, move: chess.Move) -> int:
    """Return the points that a move wins at once: what it takes, and what a pawn becomes."""
    if board.is_en_passant(move):
        return POINTS[chess.PAWN]
    won = POINTS[board.piece_type_at(move.to_square) or chess.KING]
    return won + (POINTS[move.promotion] - POINTS[chess.PAWN] if move.promotion else 0)
