"""Forms of moves, checked by reading them back and against python-chess."""

from typing import get_args

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import IllegalMove, InputError
from chessnb.notation import Form, read_line, read_move, write_last_move, write_line, write_move


@pytest.mark.parametrize("form", get_args(Form))
def test_every_form_of_every_legal_move_reads_back(form):
    moves = 0
    for board in random_boards(scaled(500), seed=2024):
        board = board.copy(stack=False)  # its history is not needed, and dear to copy
        for move in board.legal_moves:
            assert read_move(board, write_move(board, move, form=form)) == move
            moves += 1
    assert moves > scaled(10_000)


@pytest.mark.thorough
def test_san_and_long_form_are_the_reference_library_s():
    for board in random_boards(60, seed=7):
        for move in board.legal_moves:
            assert write_move(board, move) == board.san(move)
            assert write_move(board, move, form="long") == board.lan(move)


# The examples of the FIDE Laws, Appendix C (C.8 to C.13): pieces of one kind are told
# apart by file, then by rank; a promotion names the piece.
@pytest.mark.parametrize(
    ("fen", "uci", "san"),
    [
        ("4k3/8/8/8/8/5N2/8/N3K3 w - - 0 1", "a1b3", "Nb3"),
        ("4k3/8/8/8/8/5N2/3p4/1N2K3 w - - 0 1", "f3d2", "Nfxd2"),
        ("4k3/8/8/6N1/8/8/8/4K1N1 w - - 0 1", "g5f3", "N5f3"),
        ("4k3/8/8/6N1/8/8/8/4K1N1 w - - 0 1", "g1f3", "N1f3"),
        ("7k/3P4/8/8/8/8/8/4K3 w - - 0 1", "d7d8q", "d8=Q+"),
        ("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "e1g1", "O-O"),
    ],
)
def test_forms_of_the_laws(fen, uci, san):
    board = chess.Board(fen)
    assert write_move(board, chess.Move.from_uci(uci)) == san
    assert read_move(board, san) == chess.Move.from_uci(uci)


def test_lines_are_numbered_from_either_side():
    board = chess.Board()
    line = read_line(board, "1. e4 e5 2. Nf3 Nc6")
    assert write_line(board, line) == "1. e4 e5 2. Nf3 Nc6"
    board.push(line[0])
    assert write_line(board, line[1:]) == "1... e5 2. Nf3 Nc6"
    assert write_line(board, []) == ""
    assert write_line(board, line[1:], form="figurine") == "1... e5 2. ♘f3 ♘c6"


def test_lines_of_random_games_read_back():
    for board in random_boards(40, seed=3):
        text = write_line(board.root(), board.move_stack)
        assert list(read_line("start", text)) == board.move_stack


def test_a_move_and_a_line_are_written_however_they_are_given():
    for given in ("Nf3", "Ng1-f3", "g1f3", "knight to f3", chess.Move.from_uci("g1f3")):
        assert write_move("start", given) == "Nf3"
        assert write_line("start", [given, "e5"]) == "1. Nf3 e5"
    assert write_line("start", "Nf3 e5") == "1. Nf3 e5"
    assert write_move("start", chess.Move.null()) == "--"


def test_what_cannot_be_played_is_not_written():
    with pytest.raises(IllegalMove, match="the bishop on f1 cannot reach b5"):
        write_move("start", chess.Move.from_uci("f1b5"))
    with pytest.raises(IllegalMove):
        write_line("start", ["e4", "e4"])


def test_the_last_move_is_written_of_whatever_stands_for_a_position():
    board = chess.Board()
    assert write_last_move(board) == write_last_move("start") == ""
    board.push_san("e4")
    assert write_last_move(board) == "1. e4"
    assert board.move_stack


def test_an_unknown_form_is_told_the_forms():
    with pytest.raises(InputError, match=r"^a form is 'san', .* or 'spoken', not 'SAN'$"):
        write_move("start", "e4", form="SAN")
