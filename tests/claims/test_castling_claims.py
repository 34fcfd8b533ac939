"""Castling that is lost for good, and castling that is only prevented: two different claims.

The positions and games are made here, and worked out by hand (FIDE Laws, article 3.8.2).
"""

import pytest

from chessnb import Lesson, claims
from chessnb.claims import ClaimError, FalseClaim
from chessnb.findings.record import read_record

# The bishop on c4 looks at f1; the king has not moved.
PREVENTED = "4k3/8/8/8/2b5/8/8/4K2R w K - 0 1"
# White's king goes to e2 and back at moves 2 and 3; Black's h-rook goes and comes at 3 and 4.
KING_MOVED = Lesson.from_text("1. e4 e5 2. Ke2 h6 3. Ke1 Rh7 4. Nf3 Rh8 *")
# The bishop goes round by g7 and takes the rook in its corner with Black's right.
ROOK_TAKEN = Lesson.from_text("1. b3 g6 2. Bb2 Nf6 3. Bxf6 Bg7 4. Bxg7 b6 5. Bxh8 *")
CASTLED = Lesson.from_text("1. e4 e5 2. Nf3 Nf6 3. Be2 Be7 4. O-O *")


@pytest.mark.parametrize(
    ("position", "wing", "side", "reason"),
    [
        (KING_MOVED.end, "kingside", "White", "the king moved at move 2"),
        (KING_MOVED.end, "queenside", "White", "the king moved at move 2"),
        (KING_MOVED.end, "kingside", "Black", "the rook on h8 moved at move 3"),
        (ROOK_TAKEN.end, "kingside", "Black", "the rook on h8 was taken at move 5"),
        (CASTLED.end, "queenside", "White", "White castled at move 4"),
        ("4k3/8/8/8/8/8/8/4K2R w - - 0 1", "kingside", "White",
         "the position was given without it, as if the king or that rook had moved"),
    ],
)  # fmt: skip
def test_a_right_that_has_gone_is_lost_for_good_and_not_only_prevented(
    position, wing, side, reason
):
    claim = claims.cannot_castle(position, wing, side=side, for_good=True)
    assert claim.words == f"{side} has lost the right to castle {wing} for good"
    assert claim.evidence == (f"The right has gone for good: {reason}.",)
    with pytest.raises(FalseClaim) as caught:
        claims.cannot_castle(position, wing, side=side, for_good=False)
    assert caught.value.reason == f"the right has gone for good: {reason}"
    assert caught.value.claim == f"{side} cannot castle {wing} now, but still has the right to"


@pytest.mark.parametrize(
    ("position", "wing", "side", "obstacle", "marked"),
    [
        (PREVENTED, "kingside", "White", "the bishop on c4 attacks f1, which the king would pass", ["f1"]),
        (KING_MOVED.after("2. Ke2"), "kingside", "Black",
         "the bishop on f8 and the knight on g8 are in the way", []),
        (CASTLED.after("3... Be7"), "queenside", "Black",
         "the queen on d8, the bishop on c8 and the knight on b8 are in the way", []),
    ],
)  # fmt: skip
def test_what_is_only_prevented_is_not_lost_for_good(position, wing, side, obstacle, marked):
    claim = claims.cannot_castle(position, wing, side=side, for_good=False)
    assert claim.words == f"{side} cannot castle {wing} now, but still has the right to"
    assert claim.evidence == (f"It is prevented only for now: {obstacle}.",)
    assert [mark.square for mark in claim.marks] == marked
    with pytest.raises(FalseClaim) as caught:
        claims.cannot_castle(position, wing, side=side, for_good=True)
    assert caught.value.reason == f"it is prevented only for now: {obstacle}"
    assert [mark.square for mark in caught.value.marks] == marked


def test_the_record_says_which_where_it_was_claimed():
    """Without the option it is the record of old: lessons that are saved agree with it."""
    records = {
        for_good: str(claims.cannot_castle(PREVENTED, "kingside", for_good=for_good))
        for for_good in (None, False)
    }
    assert records == {
        None: "1. | cannot castle | white | kingside | rules",
        False: "1. | cannot castle | white | kingside | not now | rules",
    }
    with pytest.raises(FalseClaim) as caught:
        claims.cannot_castle(PREVENTED, "kingside", for_good=True)
    assert str(caught.value) == "1. | cannot castle | white | kingside | no more | wrong"
    assert read_record(str(caught.value)) == caught.value.record
    lost = claims.cannot_castle(KING_MOVED.end, "kingside", for_good=True)
    assert str(lost) == "5. | cannot castle | white | kingside | no more | rules"


def test_left_out_it_may_be_either_and_the_card_says_which():
    lost = claims.cannot_castle(KING_MOVED.end, "kingside")
    assert lost.words == "White cannot castle kingside"
    assert lost.evidence == ("The right has gone for good: the king moved at move 2.",)
    prevented = claims.cannot_castle(PREVENTED, "kingside")
    assert prevented.evidence[0].startswith("It is prevented only for now: the bishop on c4")


@pytest.mark.parametrize("for_good", [None, True, False])
def test_who_may_castle_has_lost_nothing(for_good):
    with pytest.raises(FalseClaim, match="cannot castle") as caught:
        claims.cannot_castle("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "kingside", for_good=for_good)
    assert caught.value.reason == "nothing prevents it"


@pytest.mark.parametrize("for_good", ["yes", 1, 0, "", [], "no more"])
def test_for_good_is_true_or_false(for_good):
    with pytest.raises(ClaimError, match="for_good is True or False") as caught:
        claims.cannot_castle(PREVENTED, "kingside", for_good=for_good)
    assert "not " in str(caught.value)
