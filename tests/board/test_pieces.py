import chess
import pytest

from chessnb.board.pieces import Man, in_order, man_at, men_in_words
from chessnb.board.squares import read_square
from chessnb.board.turns import seen_by
from chessnb.errors import PositionError


def test_men_of_one_kind_are_named_together() -> None:
    men = [Man(piece=piece, square=square) for piece, square in (("q", "d8"), ("r", "a8"))]
    men.append(Man(piece="r", square="h8"))
    assert men_in_words(men) == "the queen on d8 and the rooks on a8 and h8"
    assert men_in_words(men[:1]) == "the queen on d8"
    assert men_in_words([]) == ""


def test_men_of_both_sides_are_not_thrown_together() -> None:
    men = [Man(piece="R", square="a1"), Man(piece="r", square="a8")]
    assert men_in_words(men) == "the rook on a1 and the rook on a8"


def test_the_dearest_comes_first_and_a_bishop_before_a_knight() -> None:
    men = [Man(piece=piece, square="a1") for piece in "PNBRQ"]
    assert [man.piece for man in in_order(men)] == ["Q", "R", "B", "N", "P"]


@pytest.mark.parametrize("square", ["i1", "a9", "", "e44", 64, -1])
def test_what_is_no_square_is_refused(square: chess.Square | str) -> None:
    with pytest.raises(PositionError, match="a letter from a to h and a figure from 1 to 8"):
        read_square(square)


def test_a_square_is_read_however_it_is_typed() -> None:
    assert read_square(" E4 ") == chess.E4


def test_an_empty_square_holds_no_man() -> None:
    with pytest.raises(ValueError, match="e4 is empty"):
        man_at(chess.Board(), chess.E4)


def test_nobody_passes_in_check() -> None:
    board = chess.Board("4k3/8/8/8/8/8/4r3/4K3 w - - 0 1")
    assert seen_by(board, chess.WHITE).turn == chess.WHITE
    with pytest.raises(PositionError, match="is in check and cannot pass"):
        seen_by(board, chess.BLACK)


def test_a_pass_ends_the_right_to_take_en_passant() -> None:
    # FIDE Laws, article 3.7.3.2: only on the move directly after.
    board = chess.Board("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1")
    assert seen_by(board, chess.BLACK).ep_square is None
    assert board.ep_square == chess.D6
