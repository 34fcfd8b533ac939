"""What is read from an annotator's sentences, and what is left alone."""

import pytest
from teaching.statements.judging import moment_of

from chessnb.teaching.statements.english import ENGLISH
from chessnb.teaching.statements.german import GERMAN
from chessnb.teaching.statements.reader import read_statements


def read(place, text, language=ENGLISH):
    return [one.parts for one in read_statements(text, moment_of(place), language=language)]


@pytest.mark.parametrize(
    "text",
    [
        "White seems to mate in two.",
        "White probably mates in two.",
        "I think that White mates in two.",
        "Does White mate in two?",
        "Find the mate in two.",
        "White mates in two if the knight moves away.",
        "With another rook White would have mated in two.",
        "It is not true that White mates in two.",
        "Nobody says that White mates in two.",
    ],
)
def test_what_is_hedged_asked_commanded_or_unreal_is_not_read(text):
    assert read("opera: 15... Nxd7", text) == []


@pytest.mark.parametrize(
    ("place", "text", "parts"),
    [
        ("opera: 16. Qb8+", "It is mate in two.", ("mate", "White", "Qb8+", "2")),
        ("opera: 15... Nxd7", "There is mate in two.", ("mate", "White", "2")),
        ("legall: 6. Bxf7+", "He has only one legal move.", ("only legal move", "Black", "1")),
        (
            "legall: 5. Nxe5",
            "If Black takes the queen, White mates in two.",
            ("mate", "White", "2"),
        ),
        (
            "reti: 9. Qd8+",
            "If 9... Kxd8 10. Bg5+ Kc7, then 11. Bd8#.",
            ("checkmate", "White", "Bd8#"),
        ),
    ],
)
def test_side_move_and_position_come_from_the_words_and_whose_move_it_is(place, text, parts):
    assert read(place, text) == [parts]


def test_a_sentence_about_what_was_is_not_read_as_what_is():
    assert read("legall: 5. Nxe5", "The knight was pinned, but it moved all the same.") == []


def test_two_knights_of_which_none_was_meant_are_both_candidates():
    (said,) = read_statements("White's knight is in a pin.", moment_of("legall: 4. Nc3"))
    assert said.piece == "Nc3"  # the one that has just moved
    (said,) = read_statements("White's rook is undefended.", moment_of("legall: 4. Nc3"))
    assert (said.piece, said.candidates) == ("R", ("Ra1", "Rh1"))


def test_a_language_reads_its_own_letters():
    assert read("fork", "Sc7+ ist eine Gabel.", GERMAN) == [("shows", "White", "Nc7+", "fork")]
    assert read("fork", "Sc7+ ist eine Gabel.") == []
