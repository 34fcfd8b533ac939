"""The claim that a move shows a motif, and which part of the definition fails where it does not."""

import pytest

from chessnb import Lesson, claims, motifs
from chessnb.errors import LessonError
from chessnb.proof import check

FORK = "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"


def test_shows_with_its_proof():
    claim = claims.shows(FORK, "fork", move="Nc7+")
    check(claim.proof)
    assert claim.words == "1. Nc7+ shows a fork"
    assert "The knight on c7 forks the rook on a8 and the king on e8." in claim.evidence


def test_of_a_moment_means_the_move_that_led_there():
    lesson = Lesson.from_text("1. e4 c5 2. d4 cxd4 3. Nf3 e5 4. Nxe5 Qa5+ 5. Nc3 Qxe5")
    assert claims.shows(lesson.after("4... Qa5+"), "fork").words == "4... Qa5+ shows a fork"


@pytest.mark.parametrize(
    ("motif", "fen", "line", "reason"),
    [
        ("clearance", "5rk1/5pp1/6P1/8/8/8/1K3PP1/3Q3R w - - 0 1", "Rh8+ Kxh8 Qh5+ Kg8 Qh7#",
         "the square h5 was free already: Qh5+ could be played at once"),
        ("decoy", "4k3/7p/7q/4N3/8/8/5PPP/3R2K1 w - - 0 1", "Rd8+ Ke7 Rd7+",
         "no piece is lured to d8: Black goes to e7"),
        ("decoy", "6q1/8/6k1/2R5/8/8/5P2/4K2R w K - 0 1", "Rg5+ Kxg5 Rg1+ Kf4 Rxg8",
         "Rg1+ wins at once as well: nothing need be lured to g5"),
        ("double check", FORK, "Nc7+", "only the knight on c7 gives check"),
        ("discovered attack", FORK, "Nc7+", "the knight on d5 opens no line of another piece"),
        ("fork", FORK, "Nf6+",
         "the knight on f6 attacks one target only, the king on e8"),
        ("fork", "6k1/5ppp/8/8/8/8/5PPP/1N4K1 w - - 0 1", "Nc3",
         "the knight on c3 attacks nothing that is undefended or worth more than itself"),
        ("interference", "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1", "Ra8#",
         "Ra8# is mate at once, and needs nothing else to happen"),
        ("skewer", FORK, "Nc7+",
         "no line piece attacks a piece that has another, worth no more, behind it"),
        ("removing the defender", "6k1/5ppp/4p3/3n4/8/8/5PPP/3R2K1 w - - 0 1", "Rxd5",
         "after exd5 nothing is proved to be won"),
        ("smothered mate", FORK, "Nc7+ Kd8 Nxa8", "it is not mate"),
        ("back-rank mate", "7k/6R1/7K/8/8/8/8/R7 w - - 0 1", "Ra8#",
         "nothing of the king's own side stands on g7, h7 and g8"),
    ],
)  # fmt: skip
def test_says_which_part_fails(motif, fen, line, reason):
    with pytest.raises(claims.FalseClaim) as caught:
        claims.shows(fen, motif, line=line)
    assert caught.value.reason == reason


def test_a_fork_that_one_check_answers():
    with pytest.raises(claims.FalseClaim) as caught:
        claims.shows("2r1r1k1/5ppp/8/8/2N5/7P/5PP1/6K1 w - - 0 1", "fork", move="Nd6")
    assert "the pattern is on the board" in caught.value.reason


@pytest.mark.parametrize("given", ["forks", "Fork", " fork ", "double attack", "Double attacks"])
def test_other_names_and_plurals_of_a_motif(given):
    assert claims.shows(FORK, given, move="Nc7+").words == "1. Nc7+ shows a fork"


def test_a_pin_is_an_absolute_or_a_relative_one():
    for kind in ("absolute pin", "relative pin"):
        fen, move = pinning(kind)
        assert claims.shows(fen, kind, move=move).words.endswith(f" {kind}")
        claim = claims.shows(fen, "pin", move=move)
        check(claim.proof)
        assert claim.words == f"1. {move} shows a pin"
    with pytest.raises(claims.FalseClaim) as caught:
        claims.shows(FORK, "pin", move="Nf6+")
    assert caught.value.claim == "1. Nf6+ shows a pin"


def pinning(kind):
    """Return a position and a move of the motif's own examples that shows it."""
    for example in motifs.explain(kind).examples:
        if example.shows and example.moves and not example.led:
            return example.fen, example.moves.split()[0]
    raise AssertionError(kind)


def test_a_motif_that_is_misspelt_is_answered_with_the_nearest_first():
    with pytest.raises(LessonError, match=r"'frok': did you mean fork\?$"):
        claims.shows(FORK, "frok", move="Nc7+")
    with pytest.raises(LessonError, match=r"did you mean absolute pin or relative pin\?$"):
        claims.shows(FORK, "absolut pin", move="Nc7+")
    with pytest.raises(LessonError, match=r"stands for absolute pin and relative pin: name one"):
        motifs.explain("pin")


def test_unknown_motifs_and_missing_moves():
    with pytest.raises(LessonError, match="there is no tactic 'knife'"):
        claims.shows(FORK, "knife", move="Nc7+")
    with pytest.raises(LessonError, match="name a move"):
        claims.shows(FORK, "fork")
