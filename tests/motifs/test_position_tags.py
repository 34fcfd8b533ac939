"""Asking for the patterns of a position."""

from chessnb import motifs
from chessnb.proof import check


def test_static_tags_are_sound_where_the_side_to_move_wins_by_them():
    position = "4k3/8/2n5/1B6/8/8/8/4K3 {} - - 0 1"
    (tag,) = (one for one in motifs.tags(position.format("w")) if one.motif == "absolute pin")
    check(tag.proof)
    assert motifs.tags(position.format("b")) == ()


def test_a_rook_that_can_take_the_rook_before_it_is_not_pinned():
    rooks = "2rq2k1/3r4/8/8/8/8/3R4/3Q2K1 {} - - 0 1"
    for side in "wb":
        named = {tag.motif for tag in motifs.tags(rooks.format(side), geometric=True)}
        assert "battery" in named
        assert "relative pin" not in named
