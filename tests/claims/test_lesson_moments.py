"""Claims about positions of a lesson: whose move it is, which side is meant, what was just played."""

import chess
import pytest

from chessnb import claims
from chessnb.claims import ClaimError, FalseClaim
from chessnb.errors import AmbiguousMove, IllegalMove, InputError, MalformedMove
from chessnb.lessons import Lesson

# Composed here: White opens the diagonal, Black mates on h4 (the shortest game that ends in mate).
FOOLS = Lesson.from_text("1. f3 e5 2. g4 Qh4#")
# A rook is put on the open file; the back rank has no air.
BACK_RANK = Lesson.from_text(
    '[FEN "6k1/5ppp/8/8/8/8/r7/4R1K1 w - - 0 20"]\n\n20. Kf1 Ra1 (20... h6 21. Re8+ Kh7) 21. Rxa1'
)


def test_the_side_to_move_is_meant_unless_another_is_named():
    at = FOOLS.after("2. g4")
    assert claims.mates(at, within=1).words == "Black mates in 1"
    assert claims.mates(at, within=1, side="Black").words == "Black mates in 1"
    assert claims.mates(at, within=1, side=chess.BLACK).words == "Black mates in 1"
    assert claims.mates(at, within=1, side=" black ").words == "Black mates in 1"


def test_the_side_that_just_moved_may_claim_too():
    """After a move to which every reply is answered by mate."""
    net = "7k/8/6K1/8/8/8/8/R7 b - - 0 1"
    assert claims.mates(net, within=1, side="White").words == "White mates in 1"


def test_who_just_moved_is_hinted_at_where_no_side_is_named():
    net = "7k/8/6K1/8/8/8/8/R7 b - - 0 1"
    with pytest.raises(FalseClaim) as caught:
        claims.mates(net, within=1)
    assert "White, who just moved, does: if you mean that, add side='White'" in caught.value.reason
    with pytest.raises(FalseClaim) as caught:
        claims.mates(net, within=1, side="Black")
    assert "add side" not in caught.value.reason


def test_no_hint_where_the_other_side_does_not_either():
    with pytest.raises(FalseClaim) as caught:
        claims.mates("6k1/5ppp/8/8/8/8/5PPP/6K1 w - - 0 1", within=1)
    assert "add side" not in caught.value.reason


@pytest.mark.parametrize("side", ["Red", "", "x", 3, None.__class__])
def test_a_side_is_white_or_black(side):
    with pytest.raises(InputError, match="a side is 'White' or 'Black', not"):
        claims.mates(FOOLS.after("2. g4"), within=1, side=side)


def test_the_other_side_s_first_move_cannot_be_claimed():
    with pytest.raises(
        ClaimError, match="it is White's move, so a first move of Black cannot be claimed"
    ):
        claims.mates(FOOLS.after("1... e5"), within=2, side="Black", move="Qh4")


@pytest.mark.parametrize(
    ("move", "error"), [("Qh5", IllegalMove), ("Qz9", MalformedMove), ("Rxa9", MalformedMove)]
)
def test_a_move_that_cannot_be_read_is_said_why(move, error):
    for ask in (claims.mates, claims.wins_material):
        options = {"within": 1} if ask is claims.mates else {"within": 1, "at_least": 1}
        with pytest.raises(error):
            ask(FOOLS.after("2. g4"), move=move, **options)


def test_two_moves_that_fit_are_not_guessed():
    with pytest.raises(AmbiguousMove):
        claims.mates("6k1/8/8/8/8/8/4K3/R6R w - - 0 1", within=1, move="Rd1")


def test_a_moment_in_a_sideline():
    at = BACK_RANK.after("20... h6")
    with pytest.raises(FalseClaim):
        claims.mates(at, within=1)
    assert (
        claims.threatens(BACK_RANK.after("20. Kf1"), "Re8#").words == "White threatens Re8# (mate)"
    )
    assert (
        claims.parries(BACK_RANK.after("20. Kf1"), "h6").words
        == "20... h6 parries the threat of mate"
    )


def test_a_move_that_does_not_parry_is_told_with_the_line():
    with pytest.raises(FalseClaim) as caught:
        claims.parries(BACK_RANK.after("20. Kf1"), "Rb2")
    assert caught.value.reason == "mate remains: 20... Rb2 21. Re8#"
    assert [move.uci() for move in caught.value.moves] == ["a2b2", "e1e8"]


def test_a_mistake_and_what_it_costs():
    claim = claims.loses(BACK_RANK.after("20. Kf1"), "Ra1")
    assert claim.words == "20... Ra1 loses at least 1"
    assert claim.evidence == ("20... Ra1 21. Rxa1: loses a rook (5 points).",)
    with pytest.raises(FalseClaim, match="nothing wrong found in 3 moves"):
        claims.loses(BACK_RANK.after("20. Kf1"), "h6")


def test_nobody_threatens_anything_in_check():
    at = BACK_RANK.after("20... h6 21. Re8+")
    with pytest.raises(FalseClaim, match="Black is in check and cannot pass: there is no threat"):
        claims.threatens(at, "Re1")


def test_after_mate_the_claim_is_checkmate():
    assert claims.checkmate(FOOLS.after("2... Qh4#")).words == "White is checkmated"
    with pytest.raises(FalseClaim, match="the game is over: White is checkmated"):
        claims.mates(FOOLS.after("2... Qh4#"), within=1, side="Black")


def test_the_only_defence():
    """Several pawn moves give the king air; with the bishop on h6 only one of the f-pawn does."""
    defended = "6k1/5pp1/7p/8/8/8/8/R3K3 b - - 0 1"
    with pytest.raises(FalseClaim):
        claims.only_defence(defended, "g6")
    narrow = "6k1/5p1p/6pB/5P2/8/8/8/R3K3 b - - 0 1"
    claim = claims.only_defence(narrow, "f6", mate=1)
    assert claim.words == "1... f6 is the only defence against mate in 1"


def test_numbers_that_have_no_meaning_are_said_by_the_name_they_were_given():
    at = FOOLS.after("2. g4")
    for options, name in [
        ({"within": 0, "at_least": 1}, "within"),
        ({"within": 2, "at_least": 0}, "at_least"),
        ({"within": 2, "at_least": 1, "budget": 0}, "budget"),
    ]:
        with pytest.raises(ValueError, match=f"{name} is a whole number from 1 to"):
            claims.wins_material(at, **options)


def test_no_claim_changes_the_lesson_or_a_board():
    board = chess.Board("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1")
    before = board.fen()
    claims.mates(board, within=1)
    claims.threatens(BACK_RANK.after("20. Kf1"), "Re8#")
    assert board.fen() == before
    assert BACK_RANK.after("20. Kf1").next.san == "Ra1"
