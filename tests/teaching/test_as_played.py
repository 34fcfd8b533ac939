"""What a game shows of its moves: offers that came off, offers nobody took, the mate at its end."""

import chess
import pytest
from facts.test_purpose import OPERA, TORRE

from chessnb import Lesson
from chessnb.teaching.as_played import came_off, mate_at_the_end, of_offer, of_purpose

WON = '[Result "1-0"]\n\n'


def offers(text):
    """The moves that offered something which came off, with its square."""
    lesson = Lesson.from_text(text)
    found = {}
    for moment in lesson.moments():
        offer = came_off(moment)
        if offer is not None:
            found[moment.numbered] = chess.square_name(offer.square)
    return found


def test_morphy_s_offers():
    assert offers(f"{WON}{OPERA} 1-0") == {"10. Nxb5": "b5", "13. Rxd7": "d7", "16. Qb8+": "b8"}


def test_torre_s_offers_in_a_game_that_was_won():
    found = offers(f"{WON}{TORRE} 1-0")
    assert found["25. Bf6"] == "h5"
    assert "26. Rxg7+" not in found  # the rook is defended


@pytest.mark.parametrize(
    "game",
    [
        # a trade: taken back at once
        "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. O-O",
        # a piece that is simply lost, and so is the game
        '[Result "0-1"]\n\n1. e4 e5 2. Nf3 Nc6 3. Nxe5 Nxe5 4. d4 Ng6 5. c4 Bb4+ 0-1',
        # what nobody could take
        "1. d4 d5 2. c4 e6 3. Nc3 Nf6 4. Bg5 Be7 5. e3 O-O",
    ],
)
def test_what_is_no_offer_that_came_off(game):
    assert offers(game) == {}


def test_what_nobody_took_is_left_to_be_taken():
    lesson = Lesson.from_text(
        '[Result "0-1"]\n\n1. e4 e5 2. Nf3 d6 3. Nc3 a6 4. Nxe5 h6 5. d3 dxe5 6. h3 Bb4 0-1'
    )
    (sign,) = of_offer(lesson.after("4. Nxe5"))
    assert sign.words == "White leaves the knight on e5 to be taken"
    assert sign.cell == "reply_table(lesson.after('4. Nxe5'), taking='e5')"
    assert sign.kind == "left"
    assert list(of_offer(lesson.after("5. d3"))) == []  # it hung before


def test_the_mate_at_the_end_is_known_from_its_first_move():
    lesson = Lesson.from_text(f"{WON}{OPERA} 1-0")
    assert {node.san(): moves for node, moves in mate_at_the_end(lesson).items()} == {
        "Qb8+": 2, "Rd8#": 1,
    }  # fmt: skip


def test_a_mate_in_a_game_that_was_given_up():
    head = '[Result "1-0"]\n[SetUp "1"]\n[FEN "r5k1/5ppp/8/8/8/8/4RPPP/4R1K1 w - - 0 1"]\n\n'
    found = mate_at_the_end(Lesson.from_text(f"{head}1. Re8+ 1-0"))
    assert [(node.san(), moves) for node, moves in found.items()] == [("Re8+", 2)]
    assert mate_at_the_end(Lesson.from_text(f"{head}1. h3 g6 2. Re7 1-0")) == {}
    assert (
        mate_at_the_end(Lesson.from_text(f"{head.replace('1-0', '1/2-1/2')}1. Re8+ 1/2-1/2")) == {}
    )


def test_a_use_is_a_sign_with_its_cell():
    lesson = Lesson.from_text(TORRE)
    (sign,) = of_purpose(lesson.after("25. Bf6"))
    assert sign.cell == "lesson.after('25. Bf6').purpose()"
    assert sign.words.startswith("the bishop left g5")
    assert list(of_purpose(lesson.after("24. Ne3"))) == []
