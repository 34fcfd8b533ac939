"""What is given up and what is forced, as the game shows it."""

import chess
import pytest
from teaching.thread.test_choosing import GAMBIT, OPERA, moves_of, said

from chessnb.teaching.thread.choosing import thread

KIESERITZKY = (
    GAMBIT + " g4 Nf6 Rg1 cxb5 h4 Qg6 h5 Qg5 Qf3 Ng8 Bxf4 Qf6 Nc3 Bc5 Nd5 Qxb2 Bd6 Bxg1 e5 Qxa1+ "
    "Ke2 Na6 Nxg7+ Kd8 Qf6+ Nxf6 Be7#"
)
"""The same game to its end, as it is printed everywhere (London, 1851)."""

HUNT = (
    "d4 f5 Nf3 e6 Nc3 Nf6 Bg5 Be7 Bxf6 Bxf6 e4 fxe4 Nxe4 b6 Ne5 O-O Bd3 Bb7 Qh5 Qe7 Qxh7+ Kxh7 "
    "Nxf6+ Kh6 Neg4+ Kg5 h4+ Kf4 g3+ Kf3 Be2+ Kg2 Rh2+ Kg1 Kd2#"
)
"""A king's way across the board (London, 1912), as it is printed everywhere."""


@pytest.mark.parametrize(
    ("sans", "ply", "words"),
    [
        (GAMBIT, 3, "White gives up the pawn on f4."),
        (GAMBIT, 8, "Black gives up the pawn on b5."),
        (KIESERITZKY, 43, "White gives up the queen on f6."),
        (OPERA, 25, "White gives up the rook on d7 for the knight."),
        (
            KIESERITZKY,
            28,
            "The knight goes home to g8: of Black's pieces only the queen on g5 is still in play.",
        ),
        (
            OPERA,
            17,
            "The bishop has left c1, and the way is clear: White castles queenside at move 12.",
        ),
        (HUNT, 24, "Forced: the other legal move is answered by mate, 12... Kh8 13. Ng6#."),
        (HUNT, 34, "Since 13... Kg5 each of Black's moves was the only legal one."),
        (OPERA, 27, "The rook on d1 now attacks the pinned rook on d7 as well."),
    ],
)
def test_what_the_game_shows_is_said(sans, ply, words):
    assert words in said(sans)[ply]


def test_an_exchange_gives_nothing_up():
    """White's pawn on e5 comes back, the bishop on d7 has taken a rook before it is taken."""
    told = " ".join(words for all_of_one in said(OPERA).values() for words in all_of_one)
    assert "gives up the pawn on e5" not in told
    assert "gives up the bishop on d7" not in told
    quiet = "d4 d5 c4 e6 Nc3 Nf6 cxd5 exd5 Bg5 Be7 e3 O-O Bd3 Nbd7"
    assert "gives up" not in " ".join(words for each in said(quiet).values() for words in each)


def test_the_move_that_is_asked_for_is_not_told_before():
    told = thread(chess.Board(), moves_of(KIESERITZKY), asked={44})
    assert "gives up the queen" not in " ".join(told.get(43, ()))
