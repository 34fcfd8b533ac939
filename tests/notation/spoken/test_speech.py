"""Moves as they are said aloud."""

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.notation import read_line, write_line, write_move


# Common practice, no source: how players say moves.  The distinctions are SAN's.
@pytest.mark.parametrize(
    ("position", "san", "said"),
    [
        ("start", "Nf3", "knight to f3"),
        ("start", "e4", "pawn to e4"),
        ("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "exd5", "e takes d5"),
        ("4k3/8/8/2npP3/8/8/8/4K3 w - d6 0 1", "exd6", "e takes d6 en passant"),
        ("4k3/8/8/3p4/8/5N2/8/1N2K3 w - - 0 1", "Nbd2", "knight b to d2"),
        ("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "O-O", "castles short"),
        ("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "O-O-O", "castles long"),
        ("5k2/8/8/8/8/8/8/4K2R w K - 0 1", "O-O+", "castles short, check"),
        ("4k3/8/8/8/8/R7/8/R3K3 w - - 0 1", "R3a2", "rook from a3 to a2"),
        ("8/k7/8/8/4Q2Q/8/8/K6Q w - - 0 1", "Qh4e1", "queen from h4 to e1"),
        ("3r3k/4P3/8/8/8/8/8/4K3 w - - 0 1", "e8=N", "pawn to e8 makes a knight"),
        ("3r3k/4P3/8/8/8/8/8/4K3 w - - 0 1", "exd8=Q+", "e takes d8 makes a queen, check"),
        ("6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1", "Ra8#", "rook to a8, checkmate"),
    ],
)
def test_what_is_said(position, san, said):
    board = chess.Board() if position == "start" else chess.Board(position)
    assert write_move(board, board.parse_san(san), form="spoken") == said


def test_no_two_moves_of_a_position_sound_alike():
    for board in random_boards(scaled(200), seed=91):
        said = [write_move(board, move, form="spoken") for move in board.legal_moves]
        assert len(set(said)) == len(said), board.fen()


def test_a_screen_reader_has_words_only():
    """No signs: letters, squares, spaces, and the comma before a check."""
    for board in random_boards(scaled(100), seed=92):
        for move in board.legal_moves:
            said = write_move(board, move, form="spoken")
            assert said.replace(", check", "").replace(" ", "").isalnum(), said
            assert said == said.lower()


def test_a_line_is_said_from_either_side():
    board = chess.Board()
    line = read_line(board, "1. e4 e5 2. Nf3")
    assert write_line(board, line, form="spoken") == (
        "move 1: pawn to e4; pawn to e5; move 2: knight to f3"
    )
    board.push(line[0])
    assert write_line(board, line[1:], form="spoken") == (
        "move 1, Black's: pawn to e5; move 2: knight to f3"
    )
    assert write_line(board, [], form="spoken") == ""


def test_a_pass_is_said():
    assert write_move("start", chess.Move.null(), form="spoken") == "a pass"
