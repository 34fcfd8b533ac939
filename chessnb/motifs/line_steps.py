"""Following the pieces through a line: which took which, wherever they had gone meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess


@dataclass(frozen=True, kw_only=True)
class Step:
    """One move of a line, with where its pieces stood when the line began.

    Attributes
    ----------
    ply : int
        Its place in the line, from 0.
    board : chess.Board
        The position before it.
    move : chess.Move
        The move.
    mover : chess.Square
        Where the piece that moves stood at the beginning.
    taken : chess.Square or None
        Where the piece that is taken stood at the beginning.
    """

    ply: int
    board: chess.Board
    move: chess.Move
    mover: chess.Square
    taken: chess.Square | None

    @property
    def side(self) -> chess.Color:
        """The side that moves."""
        return self.board.turn

    @property
    def checks(self) -> bool:
        """Whether the move gives check."""
        return self.board.gives_check(self.move)


def steps(board: chess.Board, line: Sequence[chess.Move]) -> Iterator[Step]:
    """Walk a line from a position."""
    board = board.copy(stack=False)
    origin = {square: square for square in chess.SquareSet(board.occupied)}
    for ply, move in enumerate(line):
        victim = move.to_square
        if board.is_en_passant(move):
            victim = chess.square(
                chess.square_file(move.to_square), chess.square_rank(move.from_square)
            )
        capture = board.is_capture(move)
        taken = origin.pop(victim, None) if capture else None
        mover = origin.pop(move.from_square, move.from_square)
        yield Step(ply=ply, board=board.copy(stack=False), move=move, mover=mover, taken=taken)
        if board.is_castling(move):
            rank = chess.square_rank(move.from_square)
            rook, home = (
                (chess.square(7, rank), chess.square(5, rank))
                if board.is_kingside_castling(move)
                else (chess.square(0, rank), chess.square(3, rank))
            )
            origin[home] = origin.pop(rook, rook)
        origin[move.to_square] = mover
        board.push(move)
