"""What verdicts say, replayed: the pieces that are named fall in the line, and the points are theirs."""

import random
import re

import chess
import pytest
from thoroughness import scaled

from chessnb.verdicts import Depth, verdict

VALUES = {"pawn": 1, "knight": 3, "bishop": 3, "rook": 5, "queen": 9}
COUNTS = {"a": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8}
MATERIAL = re.compile(r"^(?:wins|loses) (?:the )?(.+) \((\d+) points?\)$")


def worth(words: str) -> int:
    """Return the points of pieces in words: ``"a rook and two pawns"``, ``"bishop and pawn"``."""
    total, count = 0, 1
    for word in re.findall(r"[a-z]+", words):
        if word in COUNTS:
            count = COUNTS[word]
        elif word.rstrip("s") in VALUES:
            total += count * VALUES[word.rstrip("s")]
            count = 1
    return total


def played_at_random(seed: int) -> chess.Board:
    rng = random.Random(seed)
    board = chess.Board()
    for _ in range(rng.randint(8, 50)):
        moves = list(board.legal_moves)
        if not moves:
            return chess.Board()
        board.push(rng.choice(moves))
    return board


def balance(board: chess.Board, side: chess.Color) -> int:
    return sum(
        value * (len(board.pieces(kind, side)) - len(board.pieces(kind, not side)))
        for kind, value in zip(chess.PIECE_TYPES, (1, 3, 3, 5, 9), strict=False)
    )


SEEDS = range(scaled(120, least=40))


@pytest.mark.parametrize("seed", SEEDS)
def test_pieces_points_and_lines_agree(seed):
    board = played_at_random(seed)
    rng = random.Random(seed)
    moves = sorted(board.legal_moves, key=chess.Move.uci)
    for move in rng.sample(moves, min(5, len(moves))):
        found = verdict(board, move, depth=Depth(mate=2, within=2, budget=60_000))
        after = found.board
        for step in found.line:
            assert step in after.legal_moves
            after.push(step)
        if found.kind in ("mates", "mated"):
            assert after.is_checkmate(), "a mate is shown to its end"
            assert len(found.line) // 2 <= found.moves
        assert not (after.is_checkmate() and found.kind in ("wins", "loses")), (
            "a mate is called one"
        )
        if found.pieces and found.kind in ("wins", "loses", "offers"):
            winner = board.turn if found.kind == "wins" else not board.turn
            assert balance(after, winner) - balance(board, winner) == found.points
            won, _, given = found.pieces.partition(" for ")
            if "new" not in found.pieces:
                assert worth(won) - worth(given) == found.points, found.words


def test_the_words_are_read_as_they_are_written():
    assert worth("a rook and two pawns") == 7
    match = MATERIAL.match("loses the queen for rook and pawn (3 points)")
    assert match is not None
    won, _, given = match[1].partition(" for ")
    assert worth(won) == 9
    assert worth(given) == 6
