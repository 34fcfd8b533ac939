import random
import re
from collections import Counter

import chess
import pytest

from chessnb.facts import Material, PieceCounts, material

WORDS = dict(
    zip(
        ("a", "the", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
        (1, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10),
        strict=True,
    )
)

SENTENCES = [
    ("4k3/p7/8/8/8/8/P7/4K3 w - - 0 1", "level"),
    ("4k3/p7/8/8/8/8/PP6/4K3 w - - 0 1", "White is a pawn ahead"),
    ("4k3/ppp5/8/8/8/8/P7/4K3 w - - 0 1", "Black is two pawns ahead"),
    ("4k3/p7/8/8/8/8/PP6/1N2K3 w - - 0 1", "White is a knight and a pawn ahead, 4 points"),
    ("3qk3/8/8/8/8/8/8/4K3 w - - 0 1", "Black is a queen ahead, 9 points"),
    ("2b1k3/8/8/8/8/8/8/R3K3 w - - 0 1", "White is the exchange ahead (rook for bishop), 2 points"),
    (
        "4k2r/pp6/8/8/8/8/P7/1N2K3 b - - 0 1",
        "Black is the exchange and a pawn ahead (rook and pawn for knight), 3 points",
    ),
    (
        "2b1k3/p7/8/8/8/8/8/R3K3 w - - 0 1",
        "White has the exchange for a pawn (rook for bishop and pawn), 1 point",
    ),
    (
        "2b1k3/pp6/8/8/8/8/8/R3K3 w - - 0 1",
        "White has the exchange for two pawns (rook for bishop and two pawns), level in points",
    ),
    (
        "2b1k3/ppp5/8/8/8/8/8/R3K3 w - - 0 1",
        "Black has three pawns for the exchange (bishop and three pawns for rook), 1 point",
    ),
    (
        "rr2k3/8/8/8/8/8/8/1NB1K3 w - - 0 1",
        "Black is two exchanges ahead (two rooks for bishop and knight), 4 points",
    ),
    ("3qk3/8/8/8/8/8/8/R3K2R w - - 0 1", "White has two rooks for the queen, 1 point"),
    ("qq2k3/8/8/8/8/8/8/Q3K2R w - - 0 1", "Black has a queen for a rook, 4 points"),
    (
        "3qk3/8/8/8/8/8/PPPP4/R3K3 w - - 0 1",
        "Black has the queen for a rook and four pawns, level in points",
    ),
    (
        "1n2k3/8/8/8/8/8/8/2B1K3 w - - 0 1",
        "White has a bishop for a knight, level in points",
    ),
    (
        "2bqk3/8/8/8/8/8/8/R1BQKB2 w - - 0 1",
        "White is a rook and a bishop ahead, 8 points; White has the bishop pair",
    ),
    ("2b1k3/p7/8/8/8/8/P7/2B1K3 w - - 0 1", "level; opposite-coloured bishops"),
    ("2b1k3/p7/8/8/8/8/P7/4KB2 w - - 0 1", "level"),
    ("2b1kb2/8/8/8/8/8/8/2B1KB2 w - - 0 1", "level"),
]


@pytest.mark.parametrize(("fen", "words"), SENTENCES)
def test_the_words(fen: str, words: str) -> None:
    assert material(fen).words == f"material: {words}"


def test_two_bishops_on_one_colour_are_no_pair() -> None:
    assert material("4k3/8/8/8/8/8/8/B1B1K3 w - - 0 1").bishop_pair == ()


def test_bishops_are_opposite_only_on_squares_of_different_colours() -> None:
    # c1 and f8 are both dark; c1 is dark and c8 light.
    assert not material("4kb2/8/8/8/8/8/8/2B1K3 w - - 0 1").opposite_bishops
    assert material("2b1k3/8/8/8/8/8/8/2B1K3 w - - 0 1").opposite_bishops


def test_the_words_tell_exactly_who_has_what_more_in_any_imbalance() -> None:
    """Read the words back, and compare with the counts they came from."""
    chance = random.Random(5)
    for _ in range(3000):
        white, black = _random_pieces(chance), _random_pieces(chance)
        found = Material(
            fen=chess.STARTING_FEN,
            white=white,
            black=black,
            bishop_pair=(),
            opposite_bishops=False,
        )
        extra = {
            "White": Counter(_counted(white)) - Counter(_counted(black)),
            "Black": Counter(_counted(black)) - Counter(_counted(white)),
        }
        _check_words(found.words.removeprefix("material: "), extra, found.balance)


def _random_pieces(chance: random.Random) -> PieceCounts:
    return PieceCounts(
        queens=chance.randrange(3),
        rooks=chance.randrange(4),
        bishops=chance.randrange(4),
        knights=chance.randrange(4),
        pawns=chance.randrange(9),
    )


def _counted(pieces: PieceCounts) -> dict[str, int]:
    return {
        "queen": pieces.queens,
        "rook": pieces.rooks,
        "bishop": pieces.bishops,
        "knight": pieces.knights,
        "pawn": pieces.pawns,
    }


def _check_words(words: str, extra: dict[str, Counter[str]], balance: int) -> None:
    if words == "level":
        assert not extra["White"]
        assert not extra["Black"]
        return
    side, rest = words.split(" ", 1)
    other = "Black" if side == "White" else "White"
    if bracket := re.search(r"\((.*)\)", rest):
        assert "exchange" in rest
        mine, theirs = bracket[1].split(" for ")
    elif " ahead" in rest:
        mine, theirs = rest.removeprefix("is ").split(" ahead")[0], ""
    else:
        mine, theirs = rest.removeprefix("has ").split(", level")[0].split(" for ")
        theirs = re.sub(r", \d+ points?$", "", theirs)
    assert (_read(mine), _read(theirs)) == (extra[side], extra[other]), words
    ahead = balance if side == "White" else -balance
    assert ahead >= 0, words
    if points := re.search(r"(\d+) points?$", words):
        assert int(points[1]) == ahead
    elif "level in points" in words:
        assert ahead == 0
    else:
        assert set(extra[side]) == {"pawn"}
        assert not extra[other]


def _read(words: str) -> Counter[str]:
    pieces: Counter[str] = Counter()
    for part in re.split(r", | and ", words):
        *number, name = part.split() or [""]
        if name:
            pieces[name.removesuffix("s")] += WORDS[number[0]] if number else 1
    return pieces
