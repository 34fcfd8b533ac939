import chess
import pytest

from chessnb.board.sides import read_side
from chessnb.errors import InputError


@pytest.mark.parametrize("side", ["White", "white", " WHITE ", "w", "W", chess.WHITE, True])
def test_white_is_read_however_it_is_named(side: str | chess.Color) -> None:
    assert read_side(side) is chess.WHITE


@pytest.mark.parametrize("side", ["Black", "black", " BLACK ", "b", "B", chess.BLACK, False])
def test_black_is_read_however_it_is_named(side: str | chess.Color) -> None:
    assert read_side(side) is chess.BLACK


def test_none_is_a_side_only_where_one_is_the_default() -> None:
    assert read_side(None, default=chess.BLACK) is chess.BLACK
    assert read_side("White", default=chess.BLACK) is chess.WHITE
    with pytest.raises(InputError, match=r"not None$"):
        read_side(None)


@pytest.mark.parametrize("given", ["", "green", "whites", 1, 0, 2, 1.0, b"w", ["w"], chess.Piece])
def test_what_is_no_side_is_refused(given: object) -> None:
    with pytest.raises(InputError, match=r"^a side is 'White' or 'Black', not ") as caught:
        read_side(given, default=chess.WHITE)  # type: ignore[arg-type]
    assert caught.value.given is given
