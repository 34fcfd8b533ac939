"""Every motif's own examples: where it is, and where it is not."""

import pytest

from chessnb import motifs
from motifs.scoring import UNPROVED

EXAMPLES = [(motif, example) for motif in motifs.MOTIFS for example in motif.examples]


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("motif", "example"), EXAMPLES, ids=[f"{motif.name}: {one.why}" for motif, one in EXAMPLES]
)
def test_example(motif, example):
    unproved = motif.name in UNPROVED
    tags = motifs.tag(example.board, line=example.moves, geometric=unproved)
    found = tags.named(motif.name)
    assert bool(found) == example.shows
    for tag in found:
        assert bool(tag.gain) != unproved
        assert tag.sentence[0].isupper()
        assert not tag.sentence.endswith(".")
        assert "<svg" in tag.picture.svg()


def test_the_sentence_that_a_teacher_would_say():
    found = motifs.tags("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1", geometric=True)[0]
    assert found.sentence == (
        "The bishop on b5 pins the knight on c6 to the king on e8: it may not move"
    )
