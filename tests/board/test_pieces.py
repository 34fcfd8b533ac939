import chess
import pytest

from chessnb.board.pieces import Piece, PieceKind, in_order, piece_at, pieces_in_words, read_piece
from chessnb.board.turns import seen_by
from chessnb.errors import InputError, PositionError


def test_pieces_of_one_kind_are_named_together() -> None:
    pieces = [Piece(letter=letter, square=square) for letter, square in (("q", "d8"), ("r", "a8"))]
    pieces.append(Piece(letter="r", square="h8"))
    assert pieces_in_words(pieces) == "the queen on d8 and the rooks on a8 and h8"
    assert pieces_in_words(pieces[:1]) == "the queen on d8"
    assert pieces_in_words([]) == ""


def test_pieces_of_both_sides_are_not_thrown_together() -> None:
    pieces = [Piece(letter="R", square="a1"), Piece(letter="r", square="a8")]
    assert pieces_in_words(pieces) == "the rook on a1 and the rook on a8"


def test_the_dearest_comes_first_and_a_bishop_before_a_knight() -> None:
    pieces = [Piece(letter=letter, square="a1") for letter in "PNBRQ"]
    assert [piece.letter for piece in in_order(pieces)] == ["Q", "R", "B", "N", "P"]


ROOKS = ["rook", "Rook", " ROOK ", "R", "r", "♖", "♜", chess.ROOK, chess.Piece(chess.ROOK, True)]


@pytest.mark.parametrize("piece", ROOKS, ids=repr)
def test_a_piece_is_read_however_it_is_named(piece: PieceKind) -> None:
    assert read_piece(piece) == chess.ROOK


def test_every_piece_has_its_name_letter_and_figurines() -> None:
    for kind in chess.PIECE_TYPES:
        white, black = chess.Piece(kind, chess.WHITE), chess.Piece(kind, chess.BLACK)
        names = [chess.piece_name(kind), white.symbol(), black.symbol()]
        names += [white.unicode_symbol(), black.unicode_symbol()]
        assert {read_piece(name) for name in names} == {kind}


@pytest.mark.parametrize("given", ["horse", "", "X", "knights", 0, 7, True, None, 2.0, ["rook"]])
def test_what_is_no_piece_is_refused(given: object) -> None:
    with pytest.raises(InputError) as caught:
        read_piece(given)  # type: ignore[arg-type]
    assert str(caught.value) == (
        f"a piece is 'king', 'queen', 'rook', 'bishop', 'knight' or 'pawn', not {given!r}"
    )
    assert caught.value.given is given


def test_an_empty_square_holds_no_piece() -> None:
    with pytest.raises(ValueError, match="e4 is empty"):
        piece_at(chess.Board(), chess.E4)


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
