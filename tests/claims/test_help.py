"""What ``help(claims)`` begins with: a table of one line a claim, and it is true."""

import inspect
import io
import pydoc
import re

import pytest

from chessnb import claims

LINE = re.compile(r"^(?P<name>\w+)  +(?P<says>\S.*?)  +(?P<example>\w+\(.*\))$", re.MULTILINE)
TABLE = {
    line["name"]: (line["says"], line["example"]) for line in LINE.finditer(claims.__doc__ or "")
}
FUNCTIONS = [name for name in claims.__all__ if inspect.isfunction(getattr(claims, name))]

BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 {} - - 0 1"
ROOK = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"
ATTACKED = "3qk3/6p1/5n2/3N2B1/8/8/8/4KR2 w - - 0 1"
IN_CHECK = "4k3/8/8/8/8/8/4q3/4K3 w - - 0 1"
HOLDS = {
    "attacked": ATTACKED,
    "can_castle": "4k2r/8/8/8/8/8/8/4K3 w k - 0 1",
    "cannot_castle": "start",
    "checkmate": "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1",
    "defended": ATTACKED,
    "drawn": "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1",
    "fastest_mate": ROOK,
    "forced": "r4rk1/5Npp/8/8/2Q5/8/8/6K1 w - - 0 1",
    "forces_stalemate": "6rk/6R1/8/8/8/1q6/8/K7 w - - 0 1",
    "illegal": IN_CHECK,
    "judgement": "start",
    "legal": "start",
    "loses": "4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1",
    "material": "start",
    "mates": ROOK,
    "mates_or_wins": ROOK,
    "must_check": "6k1/6p1/8/7Q/8/2q5/1r6/7K w - - 0 1",
    "only_defence": "8/4Q3/8/k4K2/8/1R6/r1p5/8 b - - 0 1",
    "only_legal_reply": "7k/8/8/8/8/8/6r1/7K w - - 0 1",
    "parries": BACK_RANK.format("b"),
    "pawn": "4k3/8/8/3P4/8/8/8/4K3 w - - 0 1",
    "perpetual": "6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1",
    "pinned": "4k3/8/2n5/1B6/8/8/8/4K3 b - - 0 1",
    "refuted": "6k1/5ppp/8/8/8/8/5PPP/R3K3 b - - 0 1",
    "shows": "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1",
    "threatens": BACK_RANK.format("b"),
    "trapped": "6k1/5ppp/8/8/8/1P6/bKP5/8 b - - 0 1",
    "wins_material": "4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1",
    "zugzwang": "8/8/8/3pK3/2kP4/8/8/8 w - - 0 1",
}
"""Positions of which the examples are true."""


def test_the_table_has_every_claim_once_and_in_order():
    assert list(TABLE) == FUNCTIONS == sorted(HOLDS)


def test_the_table_is_what_help_begins_with():
    told = io.StringIO()
    pydoc.doc(claims, output=told)
    shown = [line.strip() for line in pydoc.plain(told.getvalue()).splitlines()]
    places = [
        next(n for n, line in enumerate(shown) if line.startswith(f"{name} ")) for name in TABLE
    ]
    assert places == list(range(places[0], places[0] + len(TABLE)))
    assert places[0] < 15


@pytest.mark.parametrize("name", FUNCTIONS)
def test_the_example_is_a_claim_of_that_name_and_holds(name):
    _, example = TABLE[name]
    assert example.startswith(f"{name}(")
    made = eval(f"claims.{example}", {"claims": claims, "m": HOLDS[name]})
    assert isinstance(made, claims.Claim | claims.Judgement)


def test_what_it_says_is_short_and_said_of_one_claim_alone():
    said = [says for says, _ in TABLE.values()]
    assert len(set(said)) == len(said)
    assert all(len(says) <= 34 and not says.endswith(".") for says in said)
