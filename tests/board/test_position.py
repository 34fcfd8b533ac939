"""What counts as a position, and what is wrong with one that does not."""

import io
import random
import re
from collections import Counter

import chess
import chess.pgn
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.board.position import read_position
from chessnb.board.position_faults import what_is_wrong
from chessnb.errors import PositionError
from chessnb.lessons import Lesson


class Moment:
    """Anything that has a board stands for a position."""

    def __init__(self, board):
        self.board = board


def test_a_board_a_moment_and_a_fen_are_the_same_position():
    board = chess.Board()
    board.push_san("e4")
    assert read_position(board) == read_position(Moment(board)) == board
    assert read_position(board.fen()).fen() == board.fen()
    assert read_position(" start ") == read_position("startpos") == chess.Board()


def test_the_board_is_the_callers_own_and_keeps_its_moves():
    board = chess.Board()
    board.push_san("e4")
    for given in (board, Moment(board)):
        own = read_position(given)
        assert own.move_stack == board.move_stack
        own.push_san("e5")
        assert len(board.move_stack) == 1


def test_a_node_of_a_game_stands_for_its_position():
    game = chess.pgn.read_game(io.StringIO("1. e4 e5"))
    assert read_position(game) == chess.Board()
    assert read_position(game.end()).move_stack == list(game.mainline_moves())


def test_four_fields_of_a_fen_are_enough_and_blanks_do_not_matter():
    assert read_position("  4k3/8/8/8/8/8/8/4K3   b - -\n").fen() == "4k3/8/8/8/8/8/8/4K3 b - - 0 1"


@pytest.mark.parametrize("given", [None, 7, b"8/8", ["e4"], object, Moment, Moment(7)])
def test_what_is_no_position_is_refused(given):
    with pytest.raises(PositionError, match="a position is a board, a place in a lesson, or a FEN"):
        read_position(given)


def test_a_position_that_cannot_come_about_is_taken_only_where_that_is_said():
    no_king = "4k3/8/8/8/8/8/8/8 w - - 0 1"
    assert read_position(no_king, legal=False).fen() == no_king
    with pytest.raises(PositionError) as caught:
        read_position(no_king)
    assert caught.value.given == no_king


def test_the_error_gives_back_what_was_given():
    """Also where a board would write the FEN without the field that is at fault."""
    given = "4k3/8/8/8/8/8/8/4K3 w - e6 0 1"
    with pytest.raises(PositionError) as caught:
        read_position(given)
    assert caught.value.given == given
    with pytest.raises(PositionError) as caught:
        read_position(chess.Board(given))
    assert caught.value.given == given


def test_all_that_is_wrong_is_told():
    faults = what_is_wrong(chess.Board("P7/8/8/8/8/8/8/4K1K1 w - - 0 1"))
    assert [fault.split(",")[0] for fault in faults] == [
        "White has 2 kings", "Black has no king", "a pawn stands on a8",
    ]  # fmt: skip


def test_pieces_that_pawns_became_need_pawns_that_are_gone():
    # FIDE Laws, article 3.7.3.3 (promotion) and 2.2 (the pieces of each side).
    nine_queens = "3k4/8/8/8/8/8/QQQ1QQQQ/QQ2K3 w - - 0 1"
    assert what_is_wrong(chess.Board(nine_queens)) == []
    ten_queens = "3k4/8/8/8/8/8/QQQ1QQQQ/QQQ1K3 w - - 0 1"
    assert what_is_wrong(chess.Board(ten_queens)) == [
        "White has 10 queens, so at least 9 of them must have been pawns, "
        "but only 8 of its pawns may be gone"
    ]
    pair = "3k4/8/8/8/8/8/PPPPPPPP/B1B1K3 w - - 0 1"
    assert what_is_wrong(chess.Board(pair)) == [
        "White has 2 bishops on dark squares, so at least 1 of them must have been a pawn, "
        "but none of its pawns is gone"
    ]


def damaged(board, chance):
    """Return a position with a piece put, moved or taken off, or another field changed."""
    board = board.copy(stack=False)
    for _ in range(chance.randrange(1, 4)):
        square = chance.choice(chess.SQUARES)
        what = chance.randrange(5)
        if what < 2:
            piece = chess.Piece(chance.choice(chess.PIECE_TYPES), chance.choice(chess.COLORS))
            board.set_piece_at(square, piece)
        elif what == 2:
            board.remove_piece_at(square)
        elif what == 3:
            board.turn = not board.turn
        else:
            board.ep_square = chance.choice(chess.SQUARES)
    return board


def promoted_too_often(board, color):
    """Count, piece by piece, the pieces that a side did not begin with."""
    first = {"q": 1, "r": 2, "n": 2, "light": 1, "dark": 1}
    for square, piece in board.piece_map().items():
        if piece.color == color and piece.piece_type not in (chess.PAWN, chess.KING):
            key = piece.symbol().lower()
            if key == "b":
                key = "light" if sum(divmod(square, 8)) % 2 else "dark"
            first[key] -= 1
    extra = -sum(left for left in first.values() if left < 0)
    return extra > 8 - len(board.pieces(chess.PAWN, color))


def test_a_fault_is_found_just_where_python_chess_finds_one_or_pawns_do_not_suffice():
    chance, faulty = random.Random(5), Counter()
    for board in random_boards(scaled(1500), seed=4):
        for one in (board, damaged(board, chance)):
            wrong = not one.is_valid() or any(promoted_too_often(one, c) for c in chess.COLORS)
            faults = what_is_wrong(one)
            assert bool(faults) == wrong, (one.fen(), faults)
            faulty[wrong] += 1
    assert min(faulty.values()) > scaled(500)


@pytest.mark.parametrize(
    ("given", "write"),
    [
        ("28. Ne7+", "lesson.after('28. Ne7+')"),
        ("28... Kf8", "lesson.after('28... Kf8')"),
        ("O-O", "lesson.after('O-O')"),
        ("Sf3", "lesson.after('Sf3')"),
        ("e4 e5 Nf3", "Lesson.from_text('e4 e5 Nf3').end"),
        ("1.e4 e5 2.Nf3", "Lesson.from_text('1.e4 e5 2.Nf3').end"),
        ("20. Nxh6 a5 21. Qg5", "lesson.after('20. Nxh6 a5 21. Qg5')"),
        ("the end", "lesson.after('the end')"),
        ("Black's 3rd", 'lesson.after("Black\'s 3rd")'),
        ("games/my-game.pgn", "Lesson.read('games/my-game.pgn').start"),
    ],
)
def test_a_move_or_a_file_in_the_place_of_a_position_is_told_how_to_become_one(given, write):
    with pytest.raises(PositionError, match=re.escape(f"not a position: write {write}")):
        read_position(given)


@pytest.mark.parametrize("given", ["hello", "8/8/8 e4", "k7", "e9", "28.", "", "Ne7 or Nf7"])
def test_any_other_text_is_no_fen(given):
    with pytest.raises(PositionError, match=r"^this is not a FEN"):
        read_position(given)


def test_a_lesson_in_the_place_of_a_position_is_told_how_to_name_one():
    lesson = Lesson.from_text("1. e4 e5")
    with pytest.raises(PositionError, match=r"write lesson\.after\('14\. Nd5'\), or lesson\.start"):
        read_position(lesson)
