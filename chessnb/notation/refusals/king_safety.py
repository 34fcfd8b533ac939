"""Why a move that a piece could make is forbidden by the safety of its king.

FIDE Laws, article 3.9: no piece may leave or place its own king under attack.
"""

from __future__ import annotations

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES


def why_unsafe(board: chess.Board, move: chess.Move) -> str:
    """Say why a pseudo-legal move is not legal, as a sentence without a full stop.

    Parameters
    ----------
    board : chess.Board
        The position before the move.
    move : chess.Move
        A move that the piece could make, were it not for its king; no castling.

    Examples
    --------
    >>> board = chess.Board("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1")
    >>> why_unsafe(board, chess.Move.from_uci("e2c3"))
    'the knight on e2 is pinned to the king on e1 by the rook on e8'
    """
    king = board.king(board.turn)
    assert king is not None  # without a king every pseudo-legal move is legal
    if move.from_square == king:
        return _king_reason(board, move)
    checkers = board.checkers()
    if len(checkers) > 1:
        return (
            f"{SIDES[board.turn]} is in check from {_who(board, checkers)} at once, "
            "so only the king can move"
        )
    after = board.copy(stack=False)
    after.push(move)
    attackers = after.attackers(not board.turn, king)
    if remaining := checkers & attackers:
        side = SIDES[board.turn]
        return f"{side} is in check from {_who(board, remaining)}, and this does not stop it"
    mover, home = the_piece(board, move.from_square), chess.square_name(king)
    if board.is_en_passant(move) and not board.is_pinned(board.turn, move.from_square):
        return (
            f"{mover} cannot take in passing: with both pawns gone, the king on {home} "
            f"would be in check from {_who(board, attackers)}"
        )
    return f"{mover} is pinned to the king on {home} by {_who(board, attackers)}"


def _who(board: chess.Board, squares: chess.SquareSet) -> str:
    return listed(the_piece(board, square) for square in squares)


def _king_reason(board: chess.Board, move: chess.Move) -> str:
    takes = board.is_capture(move)
    goal = the_piece(board, move.to_square)
    verb = "take" if takes else "go to"
    return f"the king may not {verb} {goal}: {listed(_attacks(board, move, takes))}"


def _attacks(board: chess.Board, move: chess.Move, takes: bool) -> list[str]:
    """Say who attacks the square that a king wants to go to."""
    other = not board.turn
    goal = chess.square_name(move.to_square)
    alone = board.copy(stack=False)
    alone.remove_piece_at(move.from_square)
    attackers = alone.attackers(other, move.to_square)
    behind = attackers - board.attackers(other, move.to_square)
    kings = chess.SquareSet(board.kings) & attackers
    found = []
    if direct := attackers - behind - kings:
        attack, defend = ("attacks", "defends") if len(direct) == 1 else ("attack", "defend")
        found.append(f"{_who(board, direct)} {f'{defend} it' if takes else f'{attack} {goal}'}")
    if behind:
        left = chess.square_name(move.from_square)
        attack = "attacks" if len(behind) == 1 else "attack"
        found.append(f"{_who(board, behind)} {attack} {goal} once the king has left {left}")
    if kings:
        squares = listed(chess.square_name(square) for square in kings)
        found.append(f"it would stand next to {SIDES[other]}'s king on {squares}")
    return found
