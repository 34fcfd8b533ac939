"""The mate that ends a game: which piece does what."""

import chess
import pytest
from teaching.thread.test_choosing import OPERA, said
from teaching.thread.test_giving import HUNT, KIESERITZKY


@pytest.mark.parametrize(
    ("sans", "words"),
    [
        (
            OPERA,
            "Checkmate: the rook on d8 gives check, guarded by the bishop on g5; the bishop on g5 "
            "takes e7 from the king; Black's own men stand on f7 and f8.",
        ),
        (
            KIESERITZKY,
            "Checkmate: the bishop on e7 gives check, guarded by the knight on d5; the knight on "
            "d5 takes c7 and the knight on g7 takes e8 from the king; Black's own men stand on d7 "
            "and c8.",
        ),
        (
            HUNT,
            "Checkmate: the rook on a1 gives check; the rook on h2 takes f2 and g2 and the knight "
            "on g4 takes h2 from the king.",
        ),
    ],
)
def test_every_square_around_the_king_is_accounted_for(sans, words):
    told = said(sans)
    assert words in told[max(told)]


def test_a_double_check_names_both():
    told = said("Nf6#", "3rkr2/3p1p2/8/8/4N3/8/8/K3R3 w - - 0 1")
    assert told[1][-1].startswith("Checkmate: ")
    assert "give check together" in told[1][-1]


def test_a_game_that_goes_on_has_none():
    told = said("e4 e5 Nf3", chess.STARTING_FEN)
    assert not any("Checkmate" in words for each in told.values() for words in each)
