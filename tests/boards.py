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
