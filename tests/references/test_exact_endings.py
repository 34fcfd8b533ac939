"""Endings worked out exactly, against the three-piece Gaviota tables of the package ``chess``.

Every legal position of king and pawn, queen or rook against king; a daily run takes every
fiftieth of them.
"""

import chess
import chess.gaviota
import pytest
from thoroughness import is_thorough

from chessnb.facts._bare_king import mate_distance
from chessnb.facts._king_and_pawn import pawn_wins
from references.archive import chess_archive

STEP = 1 if is_thorough else 101


@pytest.fixture(scope="module")
def tables():
    with chess.gaviota.open_tablebase(str(chess_archive() / "data" / "gaviota")) as opened:
        yield opened


def positions(kind):
    """Yield every legal position with a white piece of a kind; files e to h for a pawn too."""
    number = 0
    squares = chess.SQUARES[8:56] if kind == chess.PAWN else chess.SQUARES
    for piece in squares:
        for own in chess.SQUARES:
            for lone in chess.SQUARES:
                if len({piece, own, lone}) < 3 or chess.square_distance(own, lone) < 2:
                    continue
                for turn in (chess.WHITE, chess.BLACK):
                    number += 1
                    if number % STEP:
                        continue
                    board = chess.Board(None)
                    board.set_piece_at(piece, chess.Piece(kind, chess.WHITE))
                    board.set_piece_at(own, chess.Piece(chess.KING, chess.WHITE))
                    board.set_piece_at(lone, chess.Piece(chess.KING, chess.BLACK))
                    board.turn = turn
                    if not (turn and board.attackers_mask(chess.WHITE, lone)):
                        yield board


def test_a_pawn_wins_where_the_table_says_so(tables):
    met = {True: 0, False: 0}
    for number, board in enumerate(positions(chess.PAWN)):
        won = tables.probe_dtm(board) != 0
        asked = board.mirror() if number % 2 else board
        assert pawn_wins(asked) == won, board.fen()
        met[won] += 1
    assert min(met.values()) > 500


@pytest.mark.parametrize("kind", [chess.QUEEN, chess.ROOK], ids=["queen", "rook"])
def test_the_distance_to_mate_is_the_table_s(kind, tables):
    longest = 0
    for number, board in enumerate(positions(kind)):
        plies = tables.probe_dtm(board)
        if plies:
            moves = (abs(plies) + 1) // 2 if board.turn else abs(plies) // 2
        else:
            moves = -1 if board.is_checkmate() else 0
        asked = board.mirror() if number % 2 else board
        assert mate_distance(asked) == moves, board.fen()
        longest = max(longest, moves)
    assert longest == {chess.QUEEN: 10, chess.ROOK: 16}[kind]


@pytest.mark.parametrize(
    "fen",
    [
        "4k3/8/8/8/8/8/8/4K3 w - - 0 1",
        "4k3/8/8/8/8/8/4PP2/4K3 w - - 0 1",
        "4k3/8/8/8/8/8/4B3/4K3 w - - 0 1",
        "4k3/4p3/8/8/8/8/4R3/4K3 w - - 0 1",
    ],
)
def test_other_material_is_left_alone(fen):
    assert pawn_wins(chess.Board(fen)) is None
    assert mate_distance(chess.Board(fen)) is None
