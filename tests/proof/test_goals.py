"""Goals: what is counted and which moves force, against the plain definitions."""

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.board.points import balance
from chessnb.proof import forcing_moves

WORTH = {"p": 1, "n": 3, "b": 3, "r": 5, "q": 9, "k": 0}
SPECIAL = [
    "3k4/8/8/8/8/8/8/R3K3 w Q - 0 1",  # castling gives check
    "8/8/8/2k5/3pP3/8/8/B3K3 b - e3 0 1",  # en passant
    "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 2",
    "7k/P7/6K1/8/8/8/8/8 w - - 0 1",
    "4k3/8/8/8/4N3/8/8/4RK2 w - - 0 1",  # every knight move discovers a check
    "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1",
]


def positions():
    yield from random_boards(scaled(400), seed=20)
    yield from map(chess.Board, SPECIAL)


def test_forcing_moves_are_the_captures_promotions_and_checks():
    seen = 0
    for board in positions():
        plain = []
        for move in board.legal_moves:
            after = board.copy(stack=False)
            after.push(move)
            taken = len(after.piece_map()) < len(board.piece_map())
            if taken or move.promotion or after.is_check():
                plain.append(move)
        found = forcing_moves(board)
        assert found == sorted(plain, key=chess.Move.uci), board.fen()
        seen += len(found)
    assert seen > scaled(500)


@pytest.mark.parametrize("side", [chess.WHITE, chess.BLACK])
def test_the_balance_counts_one_three_three_five_nine(side):
    for board in positions():
        points = sum(
            WORTH[piece.symbol().lower()] * (1 if piece.color == side else -1)
            for piece in board.piece_map().values()
        )
        assert balance(board, side) == points
