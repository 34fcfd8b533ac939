"""What single words of a spoken move mean, and which are never passed over."""

import chess
import pytest

from chessnb.notation.spoken.vocabulary import words_of, written_in


def meanings(text):
    (words,) = words_of(text)
    return [(word.kind, word.value) for word in words]


# FIDE Laws of Chess (2018), Appendix D.2.1: names of files, ranks and pieces.
FILES = ["Anna", "Bella", "Cesar", "David", "Eva", "Felix", "Gustav", "Hector"]
RANKS = ["eins", "zwei", "drei", "vier", "fuenf", "sechs", "sieben", "acht"]
PIECES = ["Bauer", "Springer", "Laeufer", "Turm", "Dame", "Koenig"]


@pytest.mark.parametrize("square", chess.SQUARES)
def test_every_square_has_its_name_in_the_laws(square):
    file, rank = FILES[chess.square_file(square)], RANKS[chess.square_rank(square)]
    assert meanings(f"{file} {rank}") == [("square", square)]


def test_every_piece_has_its_name_in_the_laws():
    assert [meanings(name) for name in PIECES] == [[("piece", kind)] for kind in chess.PIECE_TYPES]


@pytest.mark.parametrize("square", chess.SQUARES)
def test_every_square_is_heard_in_letters_and_figures(square):
    name = chess.square_name(square)
    number = ["one", "two", "three", "four", "five", "six", "seven", "eight"][int(name[1]) - 1]
    letter = ["ay", "bee", "see", "dee", "e", "eff", "gee", "aitch"][chess.square_file(square)]
    for said in (
        name,
        name.upper(),
        f"{name[0]} {name[1]}",
        f"{name[0]} {number}",
        f"{letter} {number}",
    ):
        assert meanings(f"queen to {said}") == [
            ("piece", chess.QUEEN),
            ("to", 0),
            ("square", square),
        ]


# Common practice, no source: what speech recognition writes for figures.
@pytest.mark.parametrize(
    ("said", "places"),
    [
        ("d to", [("square", chess.D2)]),
        ("d too", [("square", chess.D2)]),
        ("e for", [("square", chess.E4)]),
        ("h ate", [("square", chess.H8)]),
        ("f to d2", [("file", 5), ("to", 0), ("square", chess.D2)]),
        ("f to d to", [("file", 5), ("to", 0), ("square", chess.D2)]),
        ("for e4", [("square", chess.E4)]),
        ("be e4", [("square", chess.E4)]),
        ("I see e4", [("square", chess.E4)]),
        ("ate e4", [("takes", 0), ("square", chess.E4)]),
    ],
)
def test_words_that_sound_like_figures_are_figures_only_behind_a_file(said, places):
    assert meanings(said) == places


TURNING = """not never no don't can't cannot or if unless instead after before without loses
attacks"""


@pytest.mark.parametrize("word", TURNING.split())
def test_what_may_turn_the_sense_round_is_never_passed_over(word):
    for said in (f"{word} knight f3", f"knight {word} f3", f"knight f3 {word}"):
        assert any(kind == "unknown" for kind, _ in meanings(said))


def test_a_written_move_is_found_among_words_and_keeps_its_letters():
    assert written_in("okay, then White plays 14. Nd5!") == ("14. Nd5!", {True})
    assert written_in("I think bxc4.") == ("bxc4", set())
    assert written_in("black's Nf6") == ("Nf6", {False})
    assert written_in("a Nf6") == ("a Nf6", set())  # the letter may be a file
