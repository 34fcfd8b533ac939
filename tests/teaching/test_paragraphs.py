"""What findings say on a page, beside one another."""

from pathlib import Path

import pytest

from chessnb import Lesson, claims, motifs
from chessnb.teaching.paragraphs import paragraphs_of, without_less_than_mate

DEMO = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"


@pytest.fixture(scope="module")
def demo():
    return Lesson.read(DEMO)


def said(parts):
    return [
        (paragraph.head, paragraph.text, paragraph.play)
        for part in without_less_than_mate(parts)
        for paragraph in paragraphs_of(part)
    ]


def test_a_tactic_beside_a_proved_mate_by_its_move_tells_no_gain(demo):
    before = demo.before("Black's 20th")
    tags = motifs.tag(before.after("Nf3+"))
    alone = {head: text for head, text, _ in said([tags])}
    assert "It wins 4 points" in alone["Sacrifice."]
    beside = said([claims.mates(before, within=6, move="Nf3+"), tags])
    assert beside[0][1] == "Black mates in 6 with 20... Nf3+."
    for head, text, play in beside[1:]:
        assert "wins" not in text
        assert alone[head].startswith(text)
        assert play.moves, "its line is still played"


def test_a_mate_by_another_move_changes_nothing(demo):
    tags = motifs.tag(demo.after("20... Nf3+"))
    other = claims.mates(demo.before("25... Qg2#"), within=1)
    assert said([other, tags])[1:] == said([tags])
