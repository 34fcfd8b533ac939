"""Looking for the tactics of a whole lesson."""

from dataclasses import replace
from pathlib import Path

import pytest

from chessnb import Lesson, motifs
from chessnb.motifs.lesson_scan import weight

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"


@pytest.mark.thorough
def test_a_game_is_scanned_with_its_sidelines_the_most_telling_first():
    ranked = motifs.scan(Lesson.read(GAME))
    assert ranked == tuple(sorted(ranked, key=lambda one: -one.weight))
    assert any(not one.moment.is_main_line for one in ranked)
    assert all(one.tags and all(tag.sound for tag in one.tags) for one in ranked)


def test_only_the_most_telling_are_returned():
    lesson = Lesson.from_text("1. e4 c5 2. d4 cxd4 3. Nf3 e5 4. Nxe5 Qa5+ 5. Nc3 Qxe5")
    ranked = motifs.scan(lesson)
    assert [one.moment.address for one in ranked][:1] == ["4... Qa5+"]
    assert motifs.scan(lesson, most=1) == ranked[:1]
    assert motifs.scan(lesson, most=0) == ()


def test_among_equal_gains_the_motif_that_is_harder_to_see_tells_more():
    (fork,) = motifs.tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")
    assert weight(replace(fork, motif="decoy")) > weight(fork)
    assert weight(fork) > weight(replace(fork, motif="hanging piece"))
    assert weight(replace(fork, motif="decoy", proof=None)) == 1
