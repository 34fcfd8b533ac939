"""Lessons of a time before records: the same facts in other words, and other facts."""

import pytest

from chessnb.findings import sealed
from chessnb.findings.record import VERSION
from chessnb.notebooks.verification.earlier_form import (
    is_of_earlier_form,
    is_of_later_form,
    says_the_same,
)


def result(plain, card=""):
    return {
        "output_type": "execute_result", "execution_count": 1, "metadata": {},
        "data": {"text/plain": plain, "text/html": sealed(plain, f"<p>{card or plain}</p>")},
    }  # fmt: skip


def error(name, value, shown=""):
    return {"output_type": "error", "ename": name, "evalue": value, "traceback": [shown or value]}


def printed(text):
    return {"output_type": "stream", "name": "stdout", "text": text}


MATE = ("20... Nf3+ | mates | 6 | proved", "Black mates in six with 20... Nf3+.")
PAWN = ("21. | material | white P | white 1 points | rules", "White is a pawn up.")
EXCHANGE = (
    "21. | material | white R | black B | white 2 points | rules",
    "White has won the exchange (a rook for a bishop).",
)
TWO_FOR_ROOK = ("21. | material | white BN | black R | white 1 points | rules", "Two for a rook.")
LEVEL = ("21. | material | even | rules", "Material is level.")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("claim: Black mates in 6 with 20... Nf3+ (proved)", MATE),
        ("material: White is a pawn ahead", PAWN),
        ("material: White is the exchange ahead (rook for bishop), 2 points", EXCHANGE),
        ("material: level", LEVEL),
        (
            "20. Nxd6: takes the pawn on d6; hits the loose queen on f5; and more",
            ("20. Nxd6 | changes | takes Pd6 | attacks Qf5 | passed Pd5 | rules",
             "20. Nxd6 takes the pawn on d6, and attacks the queen on f5."),
        ),
        ("judgement: easier for White", ('- | judgement | "easier for White" | judgement', "")),
    ],
)  # fmt: skip
def test_the_same_in_other_words(old, new):
    assert says_the_same([result(old)], [result(*new)])


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("claim: Black mates in 5 with 20... Nf3+ (proved)", MATE),
        ("claim: White mates in 6 with 20. Nf3+ (proved)", MATE),
        ("claim: Black mates in 6 with 20... Nd3 (proved)", MATE),
        ("material: Black is a pawn ahead", PAWN),
        ("material: White is two pawns ahead", PAWN),
        ("material: White is a knight ahead, 3 points", PAWN),
        ("material: level", PAWN),
        ("material: White is a pawn ahead", LEVEL),
        ("material: Black is the exchange ahead (rook for bishop), 2 points", EXCHANGE),
        ("material: Black has a bishop and a knight for a rook, 1 point", TWO_FOR_ROOK),
        (
            "after 3... d6, White to move: r1bqkbnr/ppp2ppp/2np4/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4",
            ("3... d6 | position | r1bqkbnr/ppp2ppp/2np4/4p3/1B2P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 0 4 | rules",
             "After 3... d6. White to move."),
        ),
    ],
)  # fmt: skip
def test_other_facts(old, new):
    assert not says_the_same([result(old)], [result(*new)])


def test_a_refused_claim_may_be_told_with_another_line():
    old = error("FalseClaim", "“White mates in 1” is not so: no mate in 1: 21. Kf1 Re1# [8/8]")
    now = error("FalseClaim", "21. | mates | white | 1 | wrong", "“White mates in 1” is not so.")
    assert says_the_same([old], [now])
    assert not says_the_same([{**old, "ename": "UnprovedClaim"}], [now])
    other = error("FalseClaim", "21. | mates | white | 2 | wrong", "“White mates in 2” is not so.")
    assert not says_the_same([old], [other])


def test_what_is_printed_is_carried_over_too():
    assert says_the_same([printed("material: level\n")], [printed(f"{LEVEL[0]}\n")])
    assert not says_the_same([printed("13 legal moves\n")], [printed("11 legal moves\n")])


def test_what_has_a_record_already_is_not_of_an_earlier_form():
    assert not says_the_same([result(LEVEL[0])], [result(*PAWN)])
    assert not says_the_same([result(LEVEL[0])], [result(LEVEL[0])])
    assert not says_the_same([result("material: level")], [])
    assert not says_the_same([result("1")], [result("2")])


@pytest.mark.parametrize(
    ("notes", "earlier", "later"),
    [
        ({}, True, False),
        ({"chessnb": {}}, True, False),
        ({"chessnb": "x"}, True, False),
        ({"chessnb": {"records": "one"}}, True, False),
        ({"chessnb": {"records": VERSION - 1}}, True, False),
        ({"chessnb": {"records": VERSION}}, False, False),
        ({"chessnb": {"records": VERSION + 1}}, False, True),
    ],
)
def test_the_version_that_a_lesson_notes(notes, earlier, later):
    assert is_of_earlier_form({"metadata": notes}) is earlier
    assert is_of_later_form({"metadata": notes}) is later
