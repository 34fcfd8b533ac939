"""What a gain or a loss of material is measured from.

The *baseline* of the side to move is the balance on the board, unless one of
these is higher:

- the balance before the other side's last move, where that is known and took
  something: taking back is no gain, nor is it after a check in between;
- in check, the settled balance of the second-best move: what two moves bring
  alike is routine.

A *settled* balance is the balance when both sides have made the captures and
promotions that pay, and stop.  Simply passing can only lose something of the
balance on the board, so to move an attacked piece away is no gain either.
"""

from __future__ import annotations

import chess

from chessnb.errors import ChessnbError
from chessnb.proof.counting import POINTS, balance

INFINITE = 10_000


WILD = "so many captures can follow each other that nobody can say what is won or lost"
"""What is said of a position whose balance is not settled."""


class TooWild(ChessnbError):  # noqa: N818 (a verdict on the position)
    """So many captures follow each other that the balance is not settled in reasonable time."""


def settled(board: chess.Board, *, positions: int = 100_000) -> int:
    """Return the settled balance, in points of the side to move.

    Captures and promotions are played out; a side may stop at any time unless
    it is in check, when it tries every legal move.

    Parameters
    ----------
    board : chess.Board
        A legal position; mate counts as all that can be lost.
    positions : int
        So many positions are looked at, at most.

    Raises
    ------
    TooWild
        If that is not enough.

    Examples
    --------
    >>> settled(chess.Board("4k3/8/4p3/3r4/8/8/3Q4/4K3 w - - 0 1"))  # d5 is defended
    3
    >>> settled(chess.Board("4k3/8/8/3r4/8/8/3Q4/4K3 w - - 0 1"))
    9
    """
    settling = _Settling(positions, board.fen())
    return settling.value(board.copy(stack=False), -INFINITE, INFINITE, plies=0)


def baseline(board: chess.Board) -> int:
    """Return what the side to move is measured from, in its own points.

    Raises
    ------
    TooWild
        As :func:`settled`; only in check.

    Examples
    --------
    A rook stands undefended, but it is not taken yet; taking it gains 5.

    >>> baseline(chess.Board("4k3/8/8/3r4/8/8/3Q4/4K3 w - - 0 1"))
    4
    """
    found = max(balance(board, board.turn), _before_a_capture(board))
    if board.is_check():
        after_moves = sorted((-settled(after) for after in _after_each_move(board)), reverse=True)
        found = max([found, *after_moves[1:2]])
    return found


def held(board: chess.Board, *, positions: int = 100_000) -> int:
    """Return what a loss of the side to move is measured from, in its own points.

    The balance on the board: who does not take what hangs has lost nothing.
    But a piece that was just taken is still held where taking back pays.  In
    check, no more than what its best way out keeps.

    Parameters
    ----------
    board : chess.Board
        A legal position; it may know the moves before it.
    positions : int
        As for :func:`settled`.

    Raises
    ------
    TooWild
        As :func:`settled`; only in check, or just after a capture.

    Examples
    --------
    A rook stands undefended; leaving it alone loses nothing.

    >>> held(chess.Board("4k3/8/8/3r4/8/8/3Q4/4K3 w - - 0 1"))
    4
    """
    now, due = balance(board, board.turn), _before_a_capture(board)
    checked = board.is_check()
    if due <= now and not checked:
        return now
    kept = settled(board, positions=positions)
    found = max(now, min(due, kept))
    return min(found, kept) if checked else found


def looks_back(board: chess.Board) -> int:
    """Return how many of the moves before a position its balance may depend on.

    The last one; and behind a check and its answer the one before them too.
    """
    known, plies = board.copy(), 0
    while known.move_stack:
        known.pop()
        plies += 1
        if not (known.is_check() and known.move_stack):
            break
        known.pop()
        plies += 1
    return plies


def _before_a_capture(board: chess.Board) -> int:
    """Return the balance before the other side took, if it just did and that is known.

    A check and its answer in between change nothing: to take back one move
    later is still taking back.
    """
    known, found = board.copy(), -INFINITE
    while known.move_stack:
        move = known.pop()
        if move and known.is_capture(move):
            found = max(found, balance(known, board.turn))
        if not (known.is_check() and known.move_stack and known.pop()):
            break
    return found


def _after_each_move(board: chess.Board) -> list[chess.Board]:
    boards = []
    for move in board.legal_moves:
        after = board.copy(stack=False)
        after.push(move)
        boards.append(after)
    return boards


class _Settling:
    """One quiescence search, with its allowance of positions."""

    def __init__(self, positions: int, fen: str) -> None:
        self.left = positions
        self.fen = fen

    def value(self, board: chess.Board, alpha: int, beta: int, *, plies: int) -> int:
        """Return the settled balance between two bounds, in points of the side to move."""
        self.left -= 1
        if self.left < 0:
            raise TooWild(f"{WILD} [{self.fen}]")
        best = -INFINITE + plies
        checked = board.is_check()
        if not checked:
            best = balance(board, board.turn)
            alpha = max(alpha, best)
            if alpha >= beta:
                return best
        for move in self._moves(board, checked=checked):
            board.push(move)
            best = max(best, -self.value(board, -beta, -alpha, plies=plies + 1))
            board.pop()
            alpha = max(alpha, best)
            if alpha >= beta:
                break
        return best

    def _moves(self, board: chess.Board, *, checked: bool) -> list[chess.Move]:
        if checked:
            moves = list(board.legal_moves)
        else:
            moves = [move for move in board.legal_moves if move.promotion or board.is_capture(move)]
        return sorted(moves, key=lambda move: (-_promise(board, move), move.uci()))


def _promise(board: chess.Board, move: chess.Move) -> int:
    """Return what a capture takes, the cheaper capturer first; for ordering only."""
    taken = POINTS[board.piece_type_at(move.to_square) or chess.PAWN]
    return (
        16 * (taken + POINTS[move.promotion or chess.KING])
        - POINTS[board.piece_type_at(move.from_square) or chess.PAWN]
    )
