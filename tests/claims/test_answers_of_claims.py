"""What a claim says where it fails: each part of it counts, and the reason is the true one."""

import chess
import pytest

from chessnb import claims
from chessnb.claims import FalseClaim
from chessnb.claims.asked import best
from chessnb.proof import Mate
from chessnb.search.prover import Outcome

ATTACKED = "4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1"  # composed: d5 is attacked by 2, defended by 1
PAWNS = "4k3/8/8/3P4/8/8/8/4K3 w - - 0 1"  # composed: a pawn that is passed and isolated


@pytest.mark.parametrize(("by", "defended_by"), [(2, 2), (1, 1), (2, 0), (3, 1)])
def test_both_numbers_of_an_attack_count(by, defended_by):
    claims.attacked(ATTACKED, "d5", by=2, defended_by=1)
    with pytest.raises(FalseClaim, match=r"attacks with 2 .* defends with 1"):
        claims.attacked(ATTACKED, "d5", by=by, defended_by=defended_by)


def test_what_a_pawn_is_instead_is_told():
    with pytest.raises(FalseClaim, match="it is isolated and passed"):
        claims.pawn(PAWNS, "d5", is_="doubled")
    with pytest.raises(FalseClaim, match="none of the named kinds"):
        claims.pawn("4k3/8/4p3/3p4/3P4/4P3/8/4K3 w - - 0 1", "d4", is_="doubled")


def test_a_denial_says_whether_rules_or_a_search_make_it():
    rules = claims.refuted("7k/8/5K2/8/8/8/8/R7 w - - 0 1", "mates", within=1)
    assert rules.said.status == "rules"
    searched = claims.refuted(chess.STARTING_FEN, "wins_material", at_least=3, within=2)
    assert searched.said.status == "searched"
    with pytest.raises(FalseClaim):
        claims.refuted("7k/8/5K2/8/8/8/8/R7 w - - 0 1", "mates", within=2)


def outcome(status):
    return Outcome(fen=chess.STARTING_FEN, attacker=True, goal=Mate(within=1), status=status)


@pytest.mark.parametrize(
    ("statuses", "told"),
    [
        (["false", "not settled", "false"], 1),
        (["not settled", "false"], 0),
        (["false", "false"], 1),
        (["not settled", "not settled"], 1),
    ],
)
def test_of_several_answers_the_last_open_one_is_told_else_the_last(statuses, told):
    outcomes = [outcome(status) for status in statuses]
    assert best(outcomes) is outcomes[told]


def test_where_nothing_was_asked_there_is_the_answer_that_was_given():
    none = outcome("false")
    assert best([], none) is none
