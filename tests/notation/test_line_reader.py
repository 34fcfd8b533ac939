"""A line as a text, or move by move in any form; texts are tested with the movetext."""

import io

import chess
import chess.pgn
import pytest
from boards import random_boards

from chessnb.errors import IllegalMove, MalformedMove
from chessnb.notation import read_line, write_line

LINE = ["e2e4", "e7e5", "g1f3"]


@pytest.mark.parametrize(
    "line",
    [
        "1. e4 e5 2. Nf3",
        ["e4", "e5", "Nf3"],
        ("e2e4", "e7-e5", "knight to f3"),
        ["1. e4", "1... e5", "2. Nf3!"],
        [chess.Move.from_uci("e2e4"), "pawn to e5", chess.Move.from_uci("g1f3")],
        iter(["e4", "e5", "Nf3"]),
        chess.pgn.read_game(io.StringIO("1. e4 e5 2. Nf3")).mainline_moves(),
    ],
)
def test_a_line_is_a_text_or_moves_in_any_form(line):
    assert [move.uci() for move in read_line("start", line)] == LINE


def test_one_move_is_a_line():
    assert read_line("start", chess.Move.from_uci("g1f3")) == read_line("start", "Nf3")


@pytest.mark.parametrize("none", ["", [], (), iter([])])
def test_no_moves_are_an_empty_line(none):
    assert read_line("start", none) == ()


def test_lines_of_random_games_are_the_same_in_every_form():
    for board in random_boards(25, seed=11):
        start, moves = board.root(), list(board.move_stack)
        text = write_line(start, moves)
        assert list(read_line(start, moves)) == moves
        assert list(read_line(start, [move.uci() for move in moves])) == moves
        assert write_line(start, text) == text


def test_a_pass_of_a_game_tree_is_kept_however_it_is_given():
    assert read_line("start", "e4 -- Nf3") == read_line(
        "start", ["e4", chess.Move.null(), chess.Move.from_uci("g1f3")]
    )


@pytest.mark.parametrize(
    ("line", "kind", "part"),
    [
        (["e4", "Ke4"], IllegalMove, "'Ke4': "),
        (["e4", "hello"], MalformedMove, "'hello': this is not a move"),
        (["e4", 7], MalformedMove, "'7': a move is a text, such as 'Nf3', or a chess.Move"),
        ([["e4"]], MalformedMove, "a move is a text"),
        (7, MalformedMove, "'7': a line is a text, such as 'Nd5 exd5', or a list of moves"),
        (None, MalformedMove, "a line is a text"),
        (b"e4", MalformedMove, "a line is a text"),
        ({"e4"}, MalformedMove, "a line is a text"),
        ({"e4": 1}, MalformedMove, "a line is a text"),
        (list, MalformedMove, "a line is a text"),
        ([chess.Move.from_uci("e2e5")], IllegalMove, "'e2e5': "),
    ],
    ids=repr,
)
def test_what_is_no_line_is_refused(line, kind, part):
    with pytest.raises(kind) as caught:
        read_line("start", line)
    assert part in str(caught.value)


def test_the_board_that_is_handed_in_is_not_changed():
    board = chess.Board()
    read_line(board, ["e4", "e5"])
    assert board == chess.Board()
    assert not board.move_stack
