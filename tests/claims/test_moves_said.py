"""A claim about a move that is not the next one is told which position is meant."""

import chess
import pytest

from chessnb import Lesson, claims
from chessnb.errors import IllegalMove, MalformedMove, NotationError

LESSON = Lesson.from_text(
    "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 (3... g6 4. Qf3 Nf6) 4. Qxf7# 1-0", title="Four moves"
)
LATE = LESSON.after("3. Qh5")

TOO_LATE = [
    lambda: claims.mates(LATE, within=1, move="Qh5"),
    lambda: claims.wins_material(LATE, at_least=1, within=1, move="3. Qh5"),
    lambda: claims.loses(LATE, "Qh5"),
    lambda: claims.only_legal_reply(LATE, "Qh5"),
    lambda: claims.only_defence(LATE, "Qh5"),
    lambda: claims.parries(LATE, "Qh5"),
    lambda: claims.shows(LATE, "fork", move="Qh5"),
    lambda: claims.perpetual(LATE, move="Qh5"),
]


@pytest.mark.parametrize("call", TOO_LATE, ids=range(len(TOO_LATE)))
def test_a_move_that_has_just_been_played_is_told_to_come_before(call):
    with pytest.raises(IllegalMove) as caught:
        call()
    assert caught.value.reason == "Qh5 has just been played here: use lesson.before('3. Qh5')"
    assert caught.value.fen == LATE.fen
    LESSON.before("3. Qh5")  # what it says to write is there


def test_legal_too_says_so():
    with pytest.raises(claims.FalseClaim, match="Qh5 has just been played here"):
        claims.legal(LATE, "Qh5")


def test_that_a_move_is_illegal_is_claimed_with_the_rules_own_reason():
    assert "just been played" not in claims.illegal(LATE, "Qh5").words


def test_another_move_of_the_side_that_has_just_moved():
    with pytest.raises(IllegalMove) as caught:
        claims.mates(LATE, within=2, move="Qf3")
    assert caught.value.reason == (
        "it is a move of White, and White has just played 3. Qh5: use lesson.before('3. Qh5')"
    )


def test_in_a_sideline_the_address_leads_there():
    late = LESSON.after("3... g6 4. Qf3")
    with pytest.raises(IllegalMove) as caught:
        claims.loses(late, "Qf3")
    assert caught.value.reason.endswith(f"use lesson.before({late.address!r})")
    assert LESSON.at(late.address) == late


def test_a_board_knows_its_moves_but_no_lesson():
    board = LATE.board
    with pytest.raises(IllegalMove) as caught:
        claims.loses(board, "Qh5")
    assert caught.value.reason == ("Qh5 has just been played here: use the position before 3. Qh5")
    with pytest.raises(IllegalMove) as caught:
        claims.loses(board.fen(), "Qh5")
    assert "just" not in caught.value.reason


def test_a_move_that_neither_side_has_keeps_its_reason():
    with pytest.raises(IllegalMove, match="a knight moves two squares"):
        claims.loses(LATE, "Nd3")
    with pytest.raises(MalformedMove):
        claims.loses(LATE, "Qh9")


def test_a_threat_of_the_side_to_move_is_told_to_wait():
    early = LESSON.before("3. Qh5")
    with pytest.raises(IllegalMove) as caught:
        claims.threatens(early, "Qf3")
    assert caught.value.reason == (
        "it is a move of White, and it is White's move here: a threat is what the side that is"
        " not to move would play; use lesson.after('3. Qh5')"
    )
    assert caught.value.fen == early.fen
    with pytest.raises(IllegalMove, match="use a position after it"):
        claims.threatens(chess.Board(), "e4")
    with pytest.raises(IllegalMove, match="a threat is what"):
        claims.parries(LESSON.after("3. Qh5"), "g6", threat="Nf6")


def test_a_threat_and_a_move_that_fit_are_read():
    assert claims.threatens(LATE, "Qxf7#").words.startswith("White threatens Qxf7")
    assert claims.mates(LESSON.before("4. Qxf7#"), within=1, move="Qxf7#").proof is not None


QUIET_ROOK = "6k1/5ppp/8/8/1r6/8/5PPP/1R4K1 b - - 0 1"
"""White threatens to take a rook, with no check."""
BACK_RANK = "6k1/5ppp/8/8/8/8/5PPP/1R4K1 w - - 0 1"

LUFT = "6k1/5pp1/7p/8/8/8/5PPP/1R4K1 w - - 0 1"

WRONG_SIGNS = [
    (lambda: claims.threatens(QUIET_ROOK, "Rxb4#"), "mate, but Rxb4 is no mate, and not even a"),
    (lambda: claims.threatens(QUIET_ROOK, "Rxb4+"), "check, but Rxb4 gives no check: write Rxb4"),
    (lambda: claims.threatens(QUIET_ROOK, "rook takes b4 mate"), "Rxb4 is no mate"),
    (lambda: claims.mates(BACK_RANK, within=1, move="Rb7#"), "Rb7 is no mate"),
    (lambda: claims.wins_material(BACK_RANK, at_least=1, within=1, move="Rb7+"), "gives no check"),
    (lambda: claims.loses(BACK_RANK, "Rb7+"), "gives no check"),
    (lambda: claims.only_defence(QUIET_ROOK, "h6#"), "h6 is no mate, and not even a check"),
    (lambda: claims.parries(QUIET_ROOK, "g5+"), "g5 gives no check"),
    (lambda: claims.loses(LUFT, "Rb8#"), "Rb8\\+ is a check, and no mate"),
    (lambda: claims.parries(QUIET_ROOK, "h6", threat="Rxb4#"), "Rxb4 is no mate"),
    (lambda: claims.legal(BACK_RANK, "Rb7#"), "Rb7 is no mate"),
    (lambda: claims.shows(BACK_RANK, "fork", move="Rb7#"), "Rb7 is no mate"),
    (lambda: claims.shows(BACK_RANK, "fork", line="Rb7 h6+"), "h6 gives no check"),
    (lambda: claims.shows(BACK_RANK, "fork", move="Rb7", line="h6+"), "h6 gives no check"),
]


@pytest.mark.parametrize(("call", "reason"), WRONG_SIGNS, ids=range(len(WRONG_SIGNS)))
def test_a_sign_that_is_not_true_is_refused(call, reason):
    with pytest.raises(NotationError, match=reason):
        call()


def test_a_sign_that_is_left_out_or_too_small_is_no_falsehood():
    for text in ("Rb8#", "Rb8+", "Rb8", "Rb8++", "rook to b8 mate"):
        assert claims.mates(BACK_RANK, within=1, move=text).proof is not None
    assert claims.threatens(QUIET_ROOK, "Rxb4").proof is not None
