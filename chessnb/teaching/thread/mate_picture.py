"""The mate that ends a game: what gives check, what guards it, and what takes each square."""

from __future__ import annotations

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.teaching.thread.remark import Course, Remark, Remarks, place, who


def mate_remarks(course: Course, ply: int) -> Remarks:
    """Yield how the pieces mate together, at the last move of a game."""
    board = course.after(ply)
    if ply != len(course.moves) or not board.is_checkmate():
        return
    side = course.side(ply)
    king = board.king(not side)
    assert king is not None
    yield Remark(
        ply=ply,
        weight=6,
        words=f"Checkmate: {_checks(board, side)}{_squares(board, side, king)}.",
        key=("mate",),
    )


def _checks(board: chess.Board, side: chess.Color) -> str:
    """Say what gives check, and what guards it where the king could take it."""
    checkers = list(board.checkers())
    names = listed([the_piece(board, one) for one in checkers])
    if len(checkers) > 1:
        return f"{names} give check together"
    king = board.king(not side)
    assert king is not None
    guards = [
        one
        for one in board.attackers(side, checkers[0])
        if chess.square_distance(checkers[0], king) == 1
    ]
    if not guards:
        return f"{names} gives check"
    return f"{names} gives check, guarded by {the_piece(board, guards[0])}"


def _squares(board: chess.Board, side: chess.Color, king: chess.Square) -> str:
    """Say which other pieces take squares from the king, and where its own stand."""
    alone = board.copy(stack=False)
    alone.remove_piece_at(king)  # it cannot hide behind itself
    around = chess.SquareSet(chess.BB_KING_ATTACKS[king])
    checkers = board.checkers()
    taken: dict[chess.Square, list[chess.Square]] = {}
    for square in around:
        if board.color_at(square) == (not side) or square in checkers:
            continue
        attackers = alone.attackers(side, square)
        if attackers & checkers:
            continue
        best = min(attackers, key=lambda one: (-len(alone.attacks(one) & around), one))
        taken.setdefault(best, []).append(square)
    told = [
        f"{the_piece(board, one)} takes {listed([place(square) for square in squares])}"
        for one, squares in sorted(taken.items(), key=lambda pair: -len(pair[1]))
    ]
    own = [place(one) for one in around if board.color_at(one) == (not side)]
    words = f"; {listed(told)} from the king" if told else ""
    if own:
        words += f"; {who(not side)}'s own men stand on {listed(own)}"
    return words
