"""Any true wording of the material is accepted, and no false one."""

from collections import Counter

import chess
import pytest
from boards import random_boards
from hypothesis import given, settings
from hypothesis import strategies as st

from chessnb import claims
from chessnb.board.points import POINTS
from chessnb.claims.material_words import is_true_of
from chessnb.facts import material

FOR_THE_QUEEN = "r5k1/5ppp/8/3bb3/8/8/5PP1/3Q2K1 w - - 0 1"
"""Black has a rook, two bishops and a pawn for the queen."""
EXCHANGE = "4k3/pp6/8/8/8/2b5/PP6/R3K3 w - - 0 1"
PIECE_UP = "4k3/pp6/8/8/8/8/PP3N2/4K3 w - - 0 1"
MIXED = "4k3/pp6/8/2bb4/8/8/PP3NR1/4K3 w - - 0 1"
"""White has rook and knight for two bishops: the knight cancels one of them."""

TRUE = [
    (FOR_THE_QUEEN, "rook, two bishops and a pawn for the queen"),
    (FOR_THE_QUEEN, "Black has a rook, two bishops and a pawn for the queen."),
    (FOR_THE_QUEEN, "a rook, two pieces and a pawn for a queen"),
    (FOR_THE_QUEEN, "White has the queen for a rook, two bishops and a pawn"),
    (FOR_THE_QUEEN, "Black is 3 points ahead; Black has the bishop pair"),
    (FOR_THE_QUEEN, "White is three points behind"),
    (EXCHANGE, "White is the exchange up"),
    (EXCHANGE, "rook for bishop"),
    (EXCHANGE, "White is the exchange ahead (rook for bishop), 2 points"),
    (EXCHANGE, "Black is the exchange down"),
    (EXCHANGE, "Black has a piece for a rook"),
    (PIECE_UP, "White is a clear piece ahead"),
    (PIECE_UP, "Black is a knight down"),
    (PIECE_UP, "White is ahead"),
    (MIXED, "White has rook and knight for two bishops"),
    (MIXED, "White has a rook for a bishop"),
    ("start", "level"),
]
FALSE = [
    (FOR_THE_QUEEN, "rook, two bishops and two pawns for the queen"),
    (FOR_THE_QUEEN, "White has a rook, two bishops and a pawn for the queen"),
    (FOR_THE_QUEEN, "rook, bishop, knight and a pawn for the queen"),
    (FOR_THE_QUEEN, "White is a queen ahead"),
    (FOR_THE_QUEEN, "White is ahead"),
    (EXCHANGE, "White is the exchange down"),
    (EXCHANGE, "rook for knight"),
    (EXCHANGE, "White is the exchange and a pawn ahead"),
    (EXCHANGE, "White is the exchange ahead (rook for bishop), 3 points"),
    (PIECE_UP, "White is a bishop ahead"),
    (PIECE_UP, "Black is a piece ahead"),
    (MIXED, "White has a rook for a knight"),
    ("start", "White is a pawn ahead"),
]


@pytest.mark.parametrize(("fen", "says"), TRUE)
def test_what_is_true_is_accepted_in_any_words(fen, says):
    assert claims.material(fen, says).record.kind == "material"


@pytest.mark.parametrize(("fen", "says"), FALSE)
def test_what_is_false_is_refused_with_the_truth(fen, says):
    with pytest.raises(claims.FalseClaim) as caught:
        claims.material(fen, says)
    assert caught.value.reason == material(fen).in_words


@pytest.mark.parametrize("says", ["White is happy", "a unicorn for the queen", "", "for", "the"])
def test_what_is_not_understood_is_neither(says):
    with pytest.raises(claims.ClaimError, match="not understood"):
        claims.material(FOR_THE_QUEEN, says)


def test_its_own_words_are_always_true():
    for board in random_boards(60, seed=31):
        assert is_true_of(material(board), material(board).in_words) is True, board.fen()


NAMES = {chess.piece_name(kind): kind for kind in range(chess.PAWN, chess.KING)}


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.sampled_from(sorted(NAMES)), min_size=1, max_size=3),
    st.lists(st.sampled_from(sorted(NAMES)), min_size=1, max_size=3),
    st.sampled_from([FOR_THE_QUEEN, EXCHANGE, MIXED]),
)
def test_what_is_accepted_adds_up_in_points(has, gives, fen):
    said = is_true_of(material(fen), f"{' and '.join(f'a {one}' for one in has)} for "
                      f"{' and '.join(f'a {one}' for one in gives)}")  # fmt: skip
    assert said is not None
    total = Counter(has)
    total.subtract(gives)
    points = sum(POINTS[NAMES[name]] * many for name, many in total.items())
    if said:
        assert abs(points) == abs(material(fen).balance)
