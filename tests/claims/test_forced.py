"""A run of forced moves as one statement.

The positions are made here, and worked out by hand, but where a source is named.
"""

import chess
import pytest
from boards import few_pieces
from thoroughness import scaled

from chessnb import Lesson, claims
from chessnb.claims import ClaimError, FalseClaim, UnprovedClaim
from chessnb.errors import NotationError
from chessnb.findings.record import read_record
from chessnb.proof import Mate, check
from chessnb.search import prove

# The smothered mate.  The rook on f8 takes the king's square: each reply is the only one.
SMOTHERED = "r4rk1/5Npp/8/8/2Q5/8/8/6K1 w - - 0 1"
# With the rook on e8 there is 1... Kf8 too, and 2. Qf7 is mate then.
AND_F8 = "r3r1k1/5Npp/8/8/2Q5/8/8/6K1 w - - 0 1"
TO_MATE = "1. Nh6+ Kh8 2. Qg8+ Rxg8 3. Nf7#"
# A move earlier the rook may take the knight.
ROOK_TAKES = "r4r1k/6pp/8/4N3/2Q5/8/8/6K1 w - - 0 1"
# White goes to g6, and the king in the corner has one square.
QUIET = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"
# Ed. Lasker - Thomas, London 1912, from memory: the king is driven over the board.
DRIVEN = "rn3rk1/pbppq1pp/1p2pb2/4N2Q/3PN3/3B4/PPP2PPP/R3K2R w KQ - 0 11"
KING_HUNT = (
    "11. Qxh7+ Kxh7 12. Nxf6+ Kh6 13. Neg4+ Kg5 14. h4+ Kf4 15. g3+ Kf3 16. Be2+ Kg2"
    " 17. Rh2+ Kg1 18. Kd2#"
)


def after(fen: str, line: str) -> chess.Board:
    board = chess.Board(fen)
    for san in line.split():
        board.push_san(san)
    return board


# -- what holds ------------------------------------------------------------------------------


def test_each_move_is_the_only_legal_one():
    claim = claims.forced(SMOTHERED, TO_MATE)
    assert claim.words == (
        "from 1. Nh6+ to 3. Nf7# both moves of Black are forced: each is the only legal one;"
        " White mates in 3"
    )
    assert str(claim) == f"1. | forced | black | {TO_MATE} | mate 3 | only moves 2 | rules"
    assert claim.evidence == (f"{TO_MATE}.",)


def test_one_is_the_only_one_and_in_place_of_the_other_all_is_mated():
    claim = claims.forced(AND_F8, TO_MATE)
    assert claim.words == (
        "from 1. Nh6+ to 3. Nf7# both moves of Black are forced: one is the only legal one, and"
        " with anything else in place of the other Black is mated no later; White mates in 3"
    )
    assert str(claim) == (
        f"1. | forced | black | {TO_MATE} | mate 3 | only moves 1 | others mated 1 | proved"
    )
    assert claim.evidence == (f"{TO_MATE}.", "Instead of 1... Kh8: 1... Kf8 2. Qf7#.")


def test_a_king_hunt():
    claim = claims.forced(DRIVEN, KING_HUNT)
    assert claim.words == (
        "from 11. Qxh7+ to 18. Kd2# all seven moves of Black are forced: six are the only legal"
        " ones, and with anything else in place of the other Black is mated no later;"
        " White mates in 8"
    )
    assert claim.evidence[1:] == ("Instead of 12... Kh6: 12... Kh8 13. Ng6#.",)
    assert claim.record.status == "proved"


@pytest.mark.parametrize(
    ("fen", "line", "moves"),
    [(SMOTHERED, TO_MATE, 3), (AND_F8, TO_MATE, 3), (DRIVEN, KING_HUNT, 8)],
)
def test_the_whole_is_one_proof_that_the_checker_accepts(fen, line, moves):
    proof = claims.forced(fen, line).proof
    check(proof)
    assert proof.goal == Mate(within=moves)
    assert proof.fen == fen
    assert proof.attacker == chess.WHITE
    assert len(proof.main_line) == 2 * moves - 1


def test_it_may_begin_with_the_side_that_is_hunted():
    board = after(AND_F8, "Nh6+")
    claim = claims.forced(board, "Kh8 Qg8+ Rxg8 Nf7#")
    assert claim.words.startswith("from 1... Kh8 to 3. Nf7# both moves of Black are forced: ")
    assert claim.words.endswith("; White mates in 2")
    check(claim.proof)
    assert claim.proof.key is None


def test_for_black_it_is_the_same():
    board = chess.Board(AND_F8).mirror()
    claim = claims.forced(board, "Nh3+ Kh1 Qg1+ Rxg1 Nf2#")
    assert claim.words.startswith("from 1... Nh3+ to 3... Nf2# both moves of White are forced: ")
    assert claim.words.endswith("White is mated no later; Black mates in 3")


def test_a_quiet_move_may_force_too():
    claim = claims.forced(QUIET, "Kg6 Kg8 Ra8#")
    assert claim.words == "1... Kg8 is forced: it is the only legal move; White mates in 2"
    assert str(claim) == "1. | forced | black | 1. Kg6 Kg8 2. Ra8# | mate 2 | only moves 1 | rules"


def test_a_line_that_stops_before_the_mate():
    """Beside 1... Kh8 there is 1... Kf8, mated at once; after 1... Kh8 no mate is as near."""
    claim = claims.forced(AND_F8, "Nh6+ Kh8", mate=1)
    assert claim.words == "1... Kh8 is forced: with anything else Black is mated within 1 move"
    assert str(claim) == (
        "1. | forced | black | 1. Nh6+ Kh8 | within 1 | others mated 1 | searched"
    )
    assert "is searched, not replayed" in claim.caution
    both = claims.forced(AND_F8, "Nh6+ Kh8 Qg8+ Rxg8", mate=1)
    assert both.words == (
        "from 1. Nh6+ to 2... Rxg8 both moves of Black are forced: one is the only legal one, and"
        " with anything else in place of the other Black is mated within 1 move"
    )


def test_only_moves_that_lead_to_no_mate_follow_from_the_rules():
    claim = claims.forced(SMOTHERED, "Nh6+ Kh8 Qg8+ Rxg8")
    assert str(claim) == ("1. | forced | black | 1. Nh6+ Kh8 2. Qg8+ Rxg8 | only moves 2 | rules")
    assert claim.proof is None
    assert claim.caution == ""


def test_the_longest_resistance_to_a_mate_is_forced():
    """By its definition: whatever else the defender plays, it is mated no later."""
    wanted = scaled(200, least=20)
    held = {"rules": 0, "proved": 0}
    for board in few_pieces("KQRknrp", seed=1):
        found = prove(board, Mate(within=3)).proof
        if found is None or len(found.main_line) < 3:
            continue
        claim = claims.forced(board, found.main_line)
        assert claim.proof.moves == found.moves
        held[claim.record.status] += 1
        if sum(held.values()) == wanted:
            break
    assert min(held.values()) >= 5


# -- which moves, which side -----------------------------------------------------------------

GAME = Lesson.from_text(
    f'[FEN "{AND_F8}"]\n\n1. Nh6+ Kh8 (1... Kf8 2. Qf7#) 2. Qg8+ Rxg8 3. Nf7# 1-0'
)


def test_left_out_the_line_is_the_lesson_s_own():
    assert str(claims.forced(GAME.start)) == str(claims.forced(AND_F8, TO_MATE))
    assert claims.forced(GAME.after("1. Nh6+")).words.startswith("from 1... Kh8 to 3. Nf7# ")
    assert str(claims.forced(GAME.start.node)) == str(claims.forced(GAME.start))


def test_left_out_in_a_sideline_it_is_the_sideline_s():
    with pytest.raises(ClaimError, match=r"Black has no move in 2\. Qf7#"):
        claims.forced(GAME.after("1... Kf8"))


@pytest.mark.parametrize(
    ("fen", "line", "hunted"),
    [
        (AND_F8, TO_MATE, "black"),  # it is mated in the end
        (SMOTHERED, "Nh6+ Kh8 Qg8+", "black"),  # the first check is given to it
        # White stands in check, and its one answer gives check.
        ("8/1b6/8/8/8/6R1/k5q1/7K w - - 0 1", "Rxg2+", "white"),
        # No check anywhere: the side that answers, and a move alone is its own side's.
        ("7k/8/6K1/8/8/8/8/1R6 w - - 0 1", "Rb2 Kg8", "black"),
        ("7k/8/6K1/8/8/8/8/1R6 b - - 0 1", "Kg8", "black"),
    ],
)  # fmt: skip
def test_which_side_is_hunted_where_none_is_named(fen, line, hunted):
    assert claims.forced(fen, line, mate=1).record.fields[0] == hunted


def test_the_other_side_may_be_meant():
    """White's own moves are not forced: it has many others, and none of them is mated."""
    with pytest.raises(FalseClaim) as caught:
        claims.forced(SMOTHERED, TO_MATE, side="White")
    assert caught.value.reason.startswith("1. Nh6+ is not forced: after 1. ")
    assert caught.value.reason.endswith("there is no mate in 3 (searched)")


# -- what does not hold ------------------------------------------------------------------------


def test_the_first_move_that_is_not_forced_is_named_and_what_else_there_was():
    line = "1. Nf7+ Kg8 2. Nh6+ Kh8 3. Qg8+ Rxg8 4. Nf7#"
    with pytest.raises(FalseClaim) as caught:
        claims.forced(ROOK_TAKES, line)
    error = caught.value
    assert error.reason == (
        "1... Kg8 is not forced: after 1... Rxf7 there is no mate in 3 (searched)"
    )
    assert str(error) == f"1. | forced | black | {line} | mate 4 | wrong"
    assert error.claim == (
        "from 1. Nf7+ to 4. Nf7# every move of Black is forced: nothing else is legal, or with"
        " anything else Black is mated no later; White mates in 4"
    )
    assert [move.uci() for move in error.moves] == ["e5f7", "f8f7"]
    assert read_record(str(error)) == error.record


def test_a_move_that_is_mated_sooner_than_another_is_not_forced():
    with pytest.raises(FalseClaim) as caught:
        claims.forced(AND_F8, "Nh6+ Kf8 Qf7#")
    assert caught.value.reason == (
        "1... Kf8 is not forced: after 1... Kh8 there is no mate in 1 (searched)"
    )


def test_a_move_that_is_mated_as_the_others_is_not_forced():
    """Within three moves Black is mated after 1... Kh8 as well."""
    with pytest.raises(FalseClaim) as caught:
        claims.forced(AND_F8, "Nh6+ Kh8", mate=3)
    assert caught.value.reason == (
        "1... Kh8 is not forced: Black is mated after it too, 1... Kh8 2. Qg8+ Rxg8 3. Nf7#"
    )
    assert str(caught.value) == "1. | forced | black | 1. Nh6+ Kh8 | within 3 | wrong"


def test_a_spent_budget_proves_nothing():
    with pytest.raises(UnprovedClaim) as caught:
        claims.forced(ROOK_TAKES, "Nf7+ Kg8 Nh6+ Kh8 Qg8+ Rxg8 Nf7#", budget=20)
    assert caught.value.reason.startswith("1... Rxf7: ")
    assert str(caught.value).endswith(" | mate 4 | not proved")


def test_what_is_plainly_wrong_is_wrong_though_an_earlier_move_is_open():
    """Black may take the knight; later it may give check, and few positions show that it helps."""
    line = "Nf7+ Kg8 Nh6+ Kh8 Qf7 Rab8 Qg8+ Rxg8 Nf7#"
    with pytest.raises(FalseClaim) as caught:
        claims.forced(ROOK_TAKES, line, budget=1_000)
    assert caught.value.reason == (
        "3... Rab8 is not forced: after 3... Ra1+ there is no mate in 2 (searched)"
    )
    with pytest.raises(FalseClaim) as caught:
        claims.forced(ROOK_TAKES, "Nf7+ Kg8 Nh6+ Kh8", mate=3)
    assert caught.value.reason.startswith("1... Kg8 is not forced: after 1... Rxf7 ")


# -- what is no line ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ask", "told"),
    [
        (lambda: claims.forced(SMOTHERED), "give the moves as line=…"),
        (lambda: claims.forced(SMOTHERED, ""), "there is no move in the line"),
        (lambda: claims.forced(GAME.end), "the lesson has no move after this position"),
        (lambda: claims.forced(SMOTHERED, "Nh6+"), "Black has no move in 1. Nh6+"),
        (lambda: claims.forced(SMOTHERED, [chess.Move.null()]), "a pass stands in the line"),
    ],
)  # fmt: skip
def test_what_is_no_line_of_forced_moves_is_told(ask, told):
    with pytest.raises(ClaimError) as caught:
        ask()
    assert told in str(caught.value)


def test_a_line_with_an_illegal_move_is_told_as_such():
    with pytest.raises(NotationError):
        claims.forced(SMOTHERED, "Nh6+ Kf8")


def test_a_mate_that_is_too_long_is_told():
    line = [*["Nf3", "Nf6", "Ng1", "Ng8"] * 20, "f3", "e5", "g4", "Qh4#"]
    with pytest.raises(ClaimError, match="a mate in 42 is longer than the 40 moves"):
        claims.forced("start", line)


@pytest.mark.parametrize("mate", [0, -1, 1.5, "soon", None, True, 41])
def test_mate_is_a_number_of_moves(mate):
    with pytest.raises(ValueError, match="mate is a whole number from 1 to"):
        claims.forced(SMOTHERED, TO_MATE, mate=mate)


def test_nothing_that_is_handed_in_is_changed():
    board, moves = chess.Board(AND_F8), ["Nh6+", "Kh8", "Qg8+"]
    claims.forced(board, iter(moves), mate=1)
    assert board == chess.Board(AND_F8)
    assert not board.move_stack
