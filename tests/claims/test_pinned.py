"""To what a man is said to be pinned, and what is told where that is no square."""

import chess
import pytest

from chessnb import claims

# The knight on c6 stands before its king, the bishop on f6 before its queen.
PINS = "3qk3/8/2n2b2/1B4B1/8/8/8/4K3 b - - 0 1"


@pytest.mark.parametrize("to", ["king", " King ", "e8", chess.E8])
def test_a_pin_to_the_king(to):
    claim = claims.pinned(PINS, "c6", to=to)
    assert claim.words == "the knight on c6 is pinned to the king on e8 by the bishop on b5"


def test_a_pin_to_a_man_that_is_worth_more():
    claim = claims.pinned(PINS, "f6", to="d8")
    assert claim.words == "the bishop on f6 is pinned to the queen on d8 by the bishop on g5"


@pytest.mark.parametrize(
    ("to", "example"),
    [("queen", "to='d8'"), ("Bishop", "to='f6'"), ("rook", "to='d8'"), ("the queen", "to='d8'")],
)
def test_a_man_is_named_by_its_square(to, example):
    with pytest.raises(claims.ClaimError) as caught:
        claims.pinned(PINS, "f6", to=to)
    assert str(caught.value) == (
        f"to is “king” or the square of what stands behind, such as {example}; not {to!r}"
    )


def test_an_empty_square_is_no_king_and_no_man():
    with pytest.raises(claims.FalseClaim, match="no man of Black on a8"):
        claims.pinned(PINS, "f6", to="a8")
