import chess
import pytest

from chessnb.board.squares import names_of, read_square
from chessnb.errors import InputError


@pytest.mark.parametrize("square", ["e4", "E4", " e4 ", chess.E4])
def test_a_square_is_read_however_it_is_typed(square: str | chess.Square) -> None:
    assert read_square(square) == chess.E4


def test_every_square_is_its_name_and_its_number() -> None:
    for square in chess.SQUARES:
        assert read_square(square) == read_square(chess.square_name(square)) == square


@pytest.mark.parametrize("given", ["i1", "a9", "", "e44", "4e", 64, -1, True, None, 4.0, ["e4"]])
def test_what_is_no_square_is_refused(given: object) -> None:
    with pytest.raises(InputError) as caught:
        read_square(given)  # type: ignore[arg-type]
    assert str(caught.value) == (
        f"a square is a letter from a to h and a figure from 1 to 8, such as 'e4', not {given!r}"
    )
    assert caught.value.given is given


def test_names_are_sorted() -> None:
    assert names_of([chess.H1, chess.A8, chess.A1]) == ("a1", "a8", "h1")
