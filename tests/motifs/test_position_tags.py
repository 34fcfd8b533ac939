"""Asking for the patterns of a position."""

from chessnb import motifs
from chessnb.proof import check


def test_static_tags_are_sound_where_the_side_to_move_wins_by_them():
    position = "4k3/8/2n5/1B6/8/8/8/4K3 {} - - 0 1"
    (tag,) = (one for one in motifs.tags(position.format("w")) if one.motif == "absolute pin")
    check(tag.proof)
    assert motifs.tags(position.format("b")) == ()
