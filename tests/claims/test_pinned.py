"""To what a piece is said to be pinned, and what is told where that is no square."""

import chess
import pytest

from chessnb import claims

# The knight on c6 stands before its king, the rook on f6 before its queen.
PINS = "3qk3/8/2n2r2/1B4B1/8/8/8/4K3 b - - 0 1"


@pytest.mark.parametrize("to", ["king", " King ", "e8", chess.E8])
def test_a_pin_to_the_king(to):
    claim = claims.pinned(PINS, "c6", to=to)
    assert claim.words == "the knight on c6 is pinned to the king on e8 by the bishop on b5"


def test_a_pin_to_a_piece_that_is_worth_more():
    claim = claims.pinned(PINS, "f6", to="d8")
    assert claim.words == "the rook on f6 is pinned to the queen on d8 by the bishop on g5"


@pytest.mark.parametrize("to", ["queen", " Queen ", "Q", "♛", chess.Piece(chess.QUEEN, False)])
def test_a_piece_may_be_named_where_its_side_has_one(to):
    assert claims.pinned(PINS, "f6", to=to) == claims.pinned(PINS, "f6", to="d8")


def test_of_several_pieces_one_must_be_named():
    rooks = "r3k1r1/8/8/8/8/8/n7/R3K3 b - - 0 1"
    assert claims.pinned(rooks, "a2", to="a8")
    with pytest.raises(claims.ClaimError) as caught:
        claims.pinned(rooks, "a2", to="rook")
    assert str(caught.value) == (
        f"Black has two rooks: say which, to='a8' or to='g8' [{chess.Board(rooks).fen()}]"
    )


@pytest.mark.parametrize(
    ("to", "reason"),
    [("bishop", "Black has no bishop to pin it to"), ("Rook", "Black has no rook to pin it to")],
)
def test_a_piece_that_the_side_has_not_is_no_pin(to, reason):
    """A piece does not pin itself: the only rook stands on f6."""
    with pytest.raises(claims.FalseClaim) as caught:
        claims.pinned(PINS, "f6", to=to)
    assert caught.value.reason == reason


@pytest.mark.parametrize("to", ["the queen", "", "z9", None, 64, ["d8"]])
def test_what_is_neither_piece_nor_square_is_refused(to):
    with pytest.raises(claims.ClaimError) as caught:
        claims.pinned(PINS, "f6", to=to)
    assert str(caught.value) == (
        "to is “king”, another piece, or the square of what stands behind, such as to='d8';"
        f" not {to!r}"
    )


def test_an_empty_square_is_no_king_and_no_piece():
    with pytest.raises(claims.FalseClaim, match="no piece or pawn of Black's stands on a8"):
        claims.pinned(PINS, "f6", to="a8")


@pytest.mark.parametrize(
    ("fen", "square", "to", "pinner"),
    [
        ("2rq2k1/3r4/8/8/8/8/3R4/3Q2K1 b - - 0 1", "d7", "d8", "rook on d2"),
        ("2rq2k1/3r4/8/8/8/8/3R4/3Q2K1 w - - 0 1", "d7", "d8", "rook on d2"),
        ("3qk3/8/5b2/6B1/7P/8/8/4K3 b - - 0 1", "f6", "d8", "bishop on g5"),
    ],
)
def test_what_can_take_what_pins_it_without_loss_is_not_pinned(fen, square, to, pinner):
    with pytest.raises(claims.FalseClaim) as caught:
        claims.pinned(fen, square, to=to)
    assert caught.value.reason == (
        f"it can take the {pinner} along the line, and loses nothing by it"
    )


def test_what_cannot_take_along_the_line_is_pinned_and_so_is_what_stands_before_its_king():
    defended = "4q1k1/4r3/8/8/8/8/4Q3/4R1K1 b - - 0 1"
    with pytest.raises(claims.FalseClaim, match="loses nothing"):
        claims.pinned(defended, "e7", to="e8")  # the rook takes a queen
    pawn = "4q1k1/8/4r3/8/4R3/3P4/8/4R1K1 b - - 0 1"
    with pytest.raises(claims.FalseClaim, match="loses nothing"):
        claims.pinned(pawn, "e6", to="e8")  # rook for rook
    knight = "3q2k1/8/5n2/6B1/8/8/8/6K1 b - - 0 1"
    assert claims.pinned(knight, "f6", to="d8").words.endswith("by the bishop on g5")
    king = "4k3/4r3/8/8/8/8/4R3/4R1K1 b - - 0 1"
    assert claims.pinned(king, "e7", to="king").words.endswith("by the rook on e2")
