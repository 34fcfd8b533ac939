"""Every motif's own examples: where it is, and where it is not."""

import pytest

from chessnb import motifs

EXAMPLES = [(motif, example) for motif in motifs.MOTIFS for example in motif.examples]


@pytest.mark.parametrize(
    ("motif", "example"), EXAMPLES, ids=[f"{motif.name}: {one.why}" for motif, one in EXAMPLES]
)
def test_example(motif, example):
    is_threat = motif.name == "threat"  # what it would win, it has not won
    tags = motifs.tag(example.board, line=example.moves, geometric=is_threat)
    found = tags.named(motif.name)
    assert bool(found) == example.shows
    for tag in found:
        assert bool(tag.gain) != is_threat
        assert tag.sentence[0].isupper()
        assert not tag.sentence.endswith(".")
        assert "<svg" in tag.picture.svg()


def test_names_and_explanations():
    names = motifs.names()
    assert len(names) == len(set(names)) == len(motifs.MOTIFS)
    for name in names:
        assert motifs.explain(name.upper()).name == name
        assert motifs.explain(name).definition.endswith(".")


def test_the_sentence_that_a_teacher_would_say():
    found = motifs.tags("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1", geometric=True)[0]
    assert found.sentence == (
        "The bishop on b5 pins the knight on c6 to the king on e8: it may not move"
    )
