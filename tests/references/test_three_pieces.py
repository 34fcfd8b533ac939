"""Mates against the three-piece Gaviota tables in the source archive of the package ``chess``.

Every position with a queen or a rook against the bare king whose table gives
a mate within reach must be proved in exactly so many moves, and refuted in
one less; where the table says there is none in reach, the search says so too.
"""

import random

import chess
import chess.gaviota
import pytest

from chessnb.search import core
from references.archive import chess_archive

REACH = 5
EACH = 160


@pytest.fixture(scope="module")
def tables():
    with chess.gaviota.open_tablebase(str(chess_archive() / "data" / "gaviota")) as opened:
        yield opened


def positions(piece, seed):
    pick = random.Random(seed)
    while True:
        board = chess.Board(None)
        strong, weak, third = pick.sample(chess.SQUARES, 3)
        board.set_piece_at(strong, chess.Piece(chess.KING, chess.WHITE))
        board.set_piece_at(weak, chess.Piece(chess.KING, chess.BLACK))
        board.set_piece_at(third, chess.Piece(piece, chess.WHITE))
        board.turn = pick.random() < 0.6
        if board.is_valid() and not board.is_game_over():
            yield board


def within(board, moves):
    question = core.Question(board.fen(), attacker=chess.WHITE, mate=moves)
    while (status := question.run(200_000)) == core.OPEN:
        assert question.positions < 20_000_000, board.fen()
    return status == core.PROVED


@pytest.mark.parametrize(
    "piece", [chess.QUEEN, chess.ROOK, chess.PAWN], ids=["queen", "rook", "pawn"]
)
def test_the_distance_to_mate_is_the_table_s(piece, tables):
    met = {True: 0, False: 0}
    for board in positions(piece, seed=piece):
        distance = tables.probe_dtm(board)
        won = (distance > 0) == (board.turn == chess.WHITE) and distance != 0
        plies = abs(distance)
        moves = (plies + 1) // 2 if board.turn == chess.WHITE else plies // 2
        near = won and moves <= REACH
        if met[near] >= EACH:
            if min(met.values()) >= EACH or (piece == chess.PAWN and met[False] >= EACH):
                break
            continue
        met[near] += 1
        if near:
            assert within(board, moves), (board.fen(), moves)
            assert moves == 1 or not within(board, moves - 1), (board.fen(), moves)
        else:
            assert not within(board, 3), board.fen()
