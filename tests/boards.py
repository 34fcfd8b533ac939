"""Positions for tests: random play from the start, the same for the same seed."""

import random
from collections.abc import Iterator

import chess


def random_boards(count: int, *, seed: int, longest: int = 120) -> Iterator[chess.Board]:
    """Yield positions (with their history) after a random number of random legal moves."""
    chance = random.Random(seed)
    while count:
        board = chess.Board()
        for _ in range(chance.randrange(1, longest)):
            moves = list(board.legal_moves)
            if not moves:
                break
            board.push(chance.choice(moves))
        yield board
        count -= 1


def few_pieces(pieces: str, *, seed: int) -> Iterator[chess.Board]:
    """Yield without end positions with these pieces off the first and last rank, White to move."""
    chance = random.Random(seed)
    while True:
        board = chess.Board(None)
        for square, letter in zip(chance.sample(range(8, 56), len(pieces)), pieces, strict=True):
            board.set_piece_at(square, chess.Piece.from_symbol(letter))
        if board.is_valid():
            yield board
