"""What keeps a side from castling (FIDE Laws, article 3.8.2).

The one place where this is found and put into words: the answer to a move
that was tried and the facts of a position both draw from it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES

WingName = Literal["kingside", "queenside"]
"""The two ways to castle."""

WINGS: tuple[WingName, ...] = ("kingside", "queenside")


@dataclass(frozen=True, kw_only=True)
class Obstacle:
    """One thing that prevents castling for the time being (article 3.8.2.2).

    Attributes
    ----------
    words : str
        What it is, as a clause: ``"the bishop on c4 attacks f1, which the king would pass"``.
    attacked : chess.Square or None
        The square of the king's way that is attacked; ``None`` for pieces in the way.
    """

    words: str
    attacked: chess.Square | None = None


def has_right(board: chess.Board, side: chess.Color, wing: WingName) -> bool:
    """Return whether a side still has the right to castle on a wing.

    Examples
    --------
    >>> has_right(chess.Board(), chess.WHITE, "kingside")
    True
    """
    if wing == "kingside":
        return board.has_kingside_castling_rights(side)
    return board.has_queenside_castling_rights(side)


# -- what prevents it now (article 3.8.2.2) ----------------------------------


def obstacles(board: chess.Board, side: chess.Color, wing: WingName) -> tuple[Obstacle, ...]:
    """Say all that prevents castling for the time being; empty if nothing does.

    Parameters
    ----------
    board : chess.Board
        The position, in which the side has the right; whose move it is plays
        no part.  Chess960 boards are understood.
    side : chess.Color
        The side that would castle.
    wing : {"kingside", "queenside"}
        Where.

    Returns
    -------
    tuple of Obstacle
        Pieces in the way first, then the attacks along the king's way.

    Examples
    --------
    >>> board = chess.Board("4k3/8/8/8/2b5/8/8/4K1NR w K - 0 1")
    >>> [obstacle.words for obstacle in obstacles(board, chess.WHITE, "kingside")]
    ['the knight on g1 is in the way', 'the bishop on c4 attacks f1, which the king would pass']
    """
    king, rook, king_to, rook_to = _squares(board, side, wing)
    ways = _way(king, king_to) | _way(rook, rook_to)
    between = chess.SquareSet(board.occupied) & ways - chess.SquareSet([king, rook])
    found = list(_attacks(board, side, wing))
    if between:
        outwards = sorted(between, key=lambda square: abs(square - king))
        verb = "is" if len(between) == 1 else "are"
        words = f"{listed(the_piece(board, square) for square in outwards)} {verb} in the way"
        found.insert(0, Obstacle(words=words))
    return tuple(found)


def _squares(
    board: chess.Board, side: chess.Color, wing: WingName
) -> tuple[chess.Square, chess.Square, chess.Square, chess.Square]:
    """Return the squares of king and rook, before and after castling."""
    king = board.king(side)
    assert king is not None  # who has the right has a king
    rooks = chess.SquareSet(board.clean_castling_rights() & board.occupied_co[side])
    rook = max(rooks) if wing == "kingside" else min(rooks)
    files = (6, 5) if wing == "kingside" else (2, 3)
    king_to, rook_to = (chess.square(file, chess.square_rank(king)) for file in files)
    return king, rook, king_to, rook_to


def _way(start: chess.Square, end: chess.Square) -> chess.SquareSet:
    return chess.SquareSet(range(min(start, end), max(start, end) + 1))


def _attacks(board: chess.Board, side: chess.Color, wing: WingName) -> Iterator[Obstacle]:
    """Run through the attacked squares of the king's way, from where it stands."""
    king, rook, king_to, rook_to = _squares(board, side, wing)
    occupied = chess.SquareSet(board.occupied)
    # Where it starts beside the king's goal, the rook may have shielded it (Chess960 only).
    castled = (occupied - chess.SquareSet([king, rook])) | chess.SquareSet([rook_to])
    for square in sorted(_way(king, king_to), key=lambda square: abs(square - king)):
        landing = square == king_to != king and not board.attackers(not side, king)
        attackers = board.attackers(not side, square, castled if landing else occupied)
        if not attackers:
            continue
        who = listed(the_piece(board, attacker) for attacker in attackers)
        if square == king:
            words = f"{SIDES[side]} is in check from {who}"
        else:
            attack = f"{who} {'attacks' if len(attackers) == 1 else 'attack'}"
            there = (
                "where the king would land" if square == king_to else "which the king would pass"
            )
            words = f"{attack} {chess.square_name(square)}, {there}"
        yield Obstacle(words=words, attacked=square)


# -- why the right is lost (article 3.8.2.1) ---------------------------------


def why_lost(board: chess.Board, side: chess.Color, wing: WingName) -> str:
    """Say why a side has no right to castle on a wing, as a clause.

    Parameters
    ----------
    board : chess.Board
        The position, in which the side has not the right.
    side, wing
        Whose castling, and where.

    Returns
    -------
    str
        Read from the moves that led to the position; where none are known,
        from where king and rook stand.

    Notes
    -----
    Replays the moves that are known: the cost grows with their number.

    Examples
    --------
    >>> board = chess.Board()
    >>> for move in ("e2e4", "e7e5", "e1e2"):
    ...     board.push_uci(move)
    Move.from_uci('e2e4')
    Move.from_uci('e7e5')
    Move.from_uci('e1e2')
    >>> why_lost(board, chess.WHITE, "kingside")
    'the king moved at move 2'
    """
    replay = board.root()
    if not has_right(replay, side, wing):
        if board.move_stack:
            return "it had gone before the moves that are known"
        return _as_it_stands(replay, side, wing)
    for move in board.move_stack:
        before = replay.copy(stack=False)
        replay.push(move)
        if not has_right(replay, side, wing):
            return _what_cost_it(before, move, side, wing)
    raise AssertionError("a right that the moves keep is not lost")


def _what_cost_it(board: chess.Board, move: chess.Move, side: chess.Color, wing: WingName) -> str:
    king, rook, _, _ = _squares(board, side, wing)
    at_move = f"at move {board.fullmove_number}"
    if board.turn == side and board.is_castling(move):
        return f"{SIDES[side]} castled {at_move}"
    if move.from_square == king:
        return f"the king moved {at_move}"
    verb = "moved" if board.turn == side else "was taken"
    return f"{the_piece(board, rook)} {verb} {at_move}"


def _as_it_stands(board: chess.Board, side: chess.Color, wing: WingName) -> str:
    """Give the reason that a position without earlier moves shows."""
    rank = "1" if side else "8"
    if board.king(side) is None:
        return f"{SIDES[side]} has no king"
    if not board.chess960:
        if board.king(side) != chess.parse_square(f"e{rank}"):
            return f"{SIDES[side]}'s king is not on e{rank}"
        corner = f"{'h' if wing == 'kingside' else 'a'}{rank}"
        if board.piece_at(chess.parse_square(corner)) != chess.Piece(chess.ROOK, side):
            return f"there is no rook of {SIDES[side]}'s on {corner}"
    return "the position was given without it, as if the king or that rook had moved"
