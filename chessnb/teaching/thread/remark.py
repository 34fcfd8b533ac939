"""A remark of the thread, and the course of the game that it is about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from chessnb.board.sides import SIDES

Key = tuple[object, ...]
"""What a remark is about; of two remarks with one key the later is not told."""


@dataclass(frozen=True, kw_only=True)
class Remark:
    """A sentence about a move of a game.

    Attributes
    ----------
    ply : int
        The move that it stands behind; 1 is the first.
    weight : int
        How much speaks for telling it (common practice, no source).
    words : str
        The sentence, with its full stop.
    key : tuple
        What it is about, so that it is told once.
    until : int
        The last move that it tells of; `ply` itself unless it looks ahead.
    """

    ply: int
    weight: int
    words: str
    key: Key
    until: int = 0

    @property
    def last(self) -> int:
        """The last move that it tells of."""
        return max(self.ply, self.until)


@dataclass(frozen=True)
class Course:
    """A game: its positions, one more than its moves, and its moves."""

    boards: Sequence[chess.Board]
    moves: Sequence[chess.Move]

    @classmethod
    def of(cls, start: chess.Board, moves: Sequence[chess.Move]) -> Course:
        """Play the moves from a position."""
        boards = [start.copy(stack=False)]
        for move in moves:
            boards.append(boards[-1].copy(stack=False))
            boards[-1].push(move)
        return cls(tuple(boards), tuple(moves))

    @property
    def plies(self) -> range:
        """The numbers of its moves, from 1."""
        return range(1, len(self.moves) + 1)

    def move(self, ply: int) -> chess.Move:
        """Return a move."""
        return self.moves[ply - 1]

    def before(self, ply: int) -> chess.Board:
        """Return the position before a move."""
        return self.boards[ply - 1]

    def after(self, ply: int) -> chess.Board:
        """Return the position after a move."""
        return self.boards[ply]

    def side(self, ply: int) -> chess.Color:
        """Return who made a move."""
        return self.boards[ply - 1].turn

    def takes(self, ply: int) -> bool:
        """Tell whether a move of the game takes something."""
        return ply in self.plies and self.before(ply).is_capture(self.move(ply))

    def own(self, ply: int, many: int) -> Iterator[int]:
        """Yield the side's next moves after one of its moves."""
        yield from range(ply + 2, min(ply + 2 * many, len(self.moves)) + 1, 2)

    def number(self, ply: int) -> int:
        """Return the number that a move has in the game."""
        return self.before(ply).fullmove_number


Remarks = Iterator[Remark]


def place(square: chess.Square) -> str:
    """Name a square."""
    return chess.square_name(square)


def kind(board: chess.Board, square: chess.Square) -> str:
    """Name the piece on a square without the square."""
    piece = board.piece_type_at(square)
    assert piece is not None
    return chess.piece_name(piece)


def who(side: chess.Color) -> str:
    """Name a side."""
    return SIDES[side]


def upper(words: str) -> str:
    """Begin with a capital."""
    return words[:1].upper() + words[1:]
