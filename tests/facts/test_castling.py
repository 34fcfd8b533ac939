import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.facts import Castling, castling


def after(*moves: str, fen: str = chess.STARTING_FEN) -> chess.Board:
    board = chess.Board(fen)
    for san in moves:
        board.push_san(san)
    return board


SENTENCES = [
    (
        "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1",
        "White may castle kingside and queenside; Black may castle kingside and queenside",
    ),
    (
        # FIDE Laws, article 3.8.2.2 a: the square the king must cross.
        "4k3/8/8/8/2b5/8/8/4K2R w K - 0 1",
        "White may not castle kingside now (the bishop on c4 attacks f1, which the king would pass); "
        "White has no right to castle queenside any more (there is no rook of White's on a1); "
        "Black has no right to castle kingside any more (there is no rook of Black's on h8); "
        "Black has no right to castle queenside any more (there is no rook of Black's on a8)",
    ),
]


@pytest.mark.parametrize(("fen", "words"), SENTENCES)
def test_the_words(fen: str, words: str) -> None:
    assert castling(fen).words == f"castling: {words}"


def one_side(position: chess.Board | str, side: chess.Color = chess.WHITE) -> str:
    return castling(position, side).words.removeprefix("castling: ")


@pytest.mark.parametrize(
    ("fen", "words"),
    [
        # Article 3.8.2.2 a: in check; the square the king is to occupy.
        (
            "4k3/8/8/8/1b6/8/8/R3K3 w Q - 0 1",
            "White may not castle queenside now (White is in check from the bishop on b4)",
        ),
        (
            "4k3/8/8/8/8/b7/8/R3K3 w Q - 0 1",
            "White may not castle queenside now "
            "(the bishop on a3 attacks c1, where the king would land)",
        ),
        # Article 3.8.2.2 b: all pieces in between are named.
        (
            "4k3/8/8/8/8/8/8/RN1QK3 w Q - 0 1",
            "White may not castle queenside now "
            "(the queen on d1 and the knight on b1 are in the way)",
        ),
        # Several reasons at once.
        (
            "4k3/8/8/b7/8/8/3p4/RN2K3 w Q - 0 1",
            "White may not castle queenside now (the knight on b1 is in the way, "
            "White is in check from the pawn on d2 and "
            "the pawn on d2 attacks c1, where the king would land)",
        ),
        # The rook may be attacked, and may cross an attacked square.
        ("4k3/8/8/4b3/8/8/8/R3K3 w Q - 0 1", "White may castle queenside"),
        ("1r2k3/8/8/4b3/8/8/8/R3K3 w Q - 0 1", "White may castle queenside"),
    ],
)
def test_what_prevents_it_for_the_time_being(fen: str, words: str) -> None:
    assert one_side(fen).split("; White has no right")[0] == words


@pytest.mark.parametrize(
    ("moves", "words"),
    [
        (
            "e4 e5 Nf3 Nc6 Bb5 a6 O-O",
            "White has no right to castle any more (White castled at move 4)",
        ),
        ("e4 e5 Ke2 d6 Ke1", "White has no right to castle any more (the king moved at move 2)"),
        (
            "h4 h5 Rh3 d6 Rh1 d5",
            "White may not castle queenside now "
            "(the queen on d1, the bishop on c1 and the knight on b1 are in the way); "
            "White has no right to castle kingside any more (the rook on h1 moved at move 2)",
        ),
        (
            "g3 b6 Nf3 Bb7 Nd4 Bxh1 Bg2",
            "White may not castle queenside now "
            "(the queen on d1, the bishop on c1 and the knight on b1 are in the way); "
            "White has no right to castle kingside any more (the rook on h1 was taken at move 3)",
        ),
    ],
)
def test_why_a_right_is_lost_is_read_from_the_moves(moves: str, words: str) -> None:
    assert one_side(after(*moves.split())) == words


def test_moves_from_a_set_up_do_not_show_what_came_before() -> None:
    board = after("Kf1", fen="4k3/8/8/8/8/8/8/4K2R w - - 0 1")
    words = "White has no right to castle any more (it had gone before the moves that are known)"
    assert one_side(board) == words


def test_a_set_up_without_rights_says_that_nothing_more_is_known() -> None:
    words = one_side("r3k2r/8/8/8/8/8/8/R3K2R w kq - 0 1")
    assert words == (
        "White has no right to castle any more "
        "(the position was given without it, as if the king or that rook had moved)"
    )
    assert "White's king is not on e1" in one_side("4k3/8/8/8/8/8/8/R2K3R w - - 0 1")


def allowed(found: Castling, side: chess.Color) -> tuple[bool, bool]:
    kingside, queenside = (wing.may for wing in found.wings if wing.side == side)
    return kingside, queenside


def test_it_says_may_just_when_castling_is_legal() -> None:
    """For the side to move, by python-chess; for the other as if the side to move passed."""
    seen = {True: 0, False: 0}
    for board in random_boards(scaled(1500), seed=6, longest=40):
        for side in chess.COLORS:
            to_move = board.copy(stack=False)
            to_move.turn, to_move.ep_square = side, None
            if not to_move.is_valid():
                continue  # the side to move is in check: the other's move would not be legal
            legal = {move.to_square for move in to_move.generate_castling_moves()}
            home = 0 if side else 56
            wanted = (chess.G1 + home in legal, chess.C1 + home in legal)
            assert allowed(castling(board), side) == wanted, board.fen()
            for may in wanted:
                seen[may] += 1
    assert seen[True] > scaled(30)


def test_one_side_is_the_half_of_both() -> None:
    board = after("e4", "e5", "Nf3", "Nc6", "Bc4", "Bc5")
    both = castling(board).wings
    assert both == castling(board, chess.WHITE).wings + castling(board, chess.BLACK).wings


def test_the_board_is_left_alone() -> None:
    board = after("e4", "e5", "Ke2", "Ke7")
    before = board.copy()
    castling(board)
    assert board == before
    assert board.move_stack == before.move_stack


def test_the_picture_ticks_the_attacked_squares() -> None:
    picture = castling("4k3/8/8/8/2b5/8/8/4K2R w K - 0 1").picture
    assert [(mark.role, mark.square) for mark in picture.marks] == [("target", "f1")]


def test_a_rook_that_shields_the_way_is_counted_out() -> None:
    # FIDE Laws, guidelines for Chess960: the rook starts beside the king's way.
    board = chess.Board("4k3/8/8/8/8/8/8/rR2K3 w B - 0 1", chess960=True)
    assert not list(board.generate_castling_moves())
    assert one_side(board).startswith(
        "White may not castle queenside now (the rook on a1 attacks c1, where the king would land)"
    )
