"""Refutations by hand: every move of the attacker is answered, and the answer holds."""

from dataclasses import replace

import chess
import pytest

from chessnb.proof import BrokenProof, Mate, Refutation, Tries, check_refutation

# Composed: White's only move is Ka2, and no mate is near.
NARROW = "8/8/8/8/8/1k6/8/K7 w - - 0 1"
(ONLY,) = [move.uci() for move in chess.Board(NARROW).legal_moves]
HELD = Refutation(
    fen=NARROW,
    attacker=chess.WHITE,
    goal=Mate(within=2),
    tries=Tries(answers=((ONLY, "b3c3", Tries()),)),
)


def test_one_answer_to_the_only_move_is_enough():
    check_refutation(HELD)
    assert HELD.size == 1


@pytest.mark.parametrize(
    "answers",
    [
        (),
        ((ONLY, "b3c3", Tries()), (ONLY, "b3c3", Tries())),
        (("a1a2", "b3c3", Tries()), ("a1b2", "b3c3", Tries())),
        (("a1b2", "b3c3", Tries()),),
        ((ONLY, "", Tries()),),
        ((ONLY, "b3b2", Tries()),),
        ((ONLY, "0000", Tries()),),
        ((ONLY, "b3c3", Tries(answers=((ONLY, "c3c4", Tries()),))),),
    ],
)
def test_what_is_missing_doubled_or_not_legal_is_refused(answers):
    if answers == HELD.tries.answers:
        pytest.fail("this one holds")
    with pytest.raises(BrokenProof):
        check_refutation(replace(HELD, tries=Tries(answers=answers)))


def test_a_mate_that_is_there_is_not_refuted():
    mate = Refutation(
        fen="7k/8/5K2/8/8/8/8/R7 w - - 0 1", attacker=chess.WHITE, goal=Mate(within=1)
    )
    check_refutation(mate)  # none in one
    with pytest.raises(BrokenProof, match="mates"):
        check_refutation(replace(mate, fen="6k1/8/6K1/8/8/8/8/R7 w - - 0 1"))


@pytest.mark.parametrize("within", [1, 3])
def test_more_or_fewer_moves_need_other_answers(within):
    with pytest.raises(BrokenProof):
        check_refutation(replace(HELD, goal=Mate(within=within)))


def test_the_defender_s_first_move_belongs_to_it_only_where_the_defender_moves():
    with pytest.raises(BrokenProof, match="wrong side"):
        check_refutation(replace(HELD, first="b3c3"))
    with pytest.raises(BrokenProof, match="wrong side"):
        check_refutation(replace(HELD, attacker=chess.BLACK))
