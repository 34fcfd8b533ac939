"""Gathering: an open page gets findings and errors, each once, and the block goes on."""

import pytest

from chessnb import Lesson, claims, facts, motifs, questions, reply_table
from chessnb.errors import AddressError, LessonError
from chessnb.findings.gathering import NOTHING, PageError, close_page, open_page

GAME = "1. f3 e5 2. g4 Qh4#"


@pytest.fixture
def lesson():
    return Lesson.from_text(GAME)


@pytest.fixture
def gathering():
    yield open_page()
    close_page()


def test_outside_a_page_a_finding_is_its_own_and_an_error_ends_the_cell(lesson):
    assert str(claims.mates(lesson.before("2... Qh4#"), within=1)).endswith("| proved")
    with pytest.raises(claims.FalseClaim):
        claims.checkmate(lesson.start)
    with pytest.raises(AddressError):
        lesson.after("9. Qa1")


def test_every_sort_of_finding_is_taken_once_in_order(lesson, gathering):
    m = lesson.before("2... Qh4#")
    found = [
        claims.mates(m, within=1),
        facts.material(m),
        facts.structure(m),
        facts.ending(m),
        m.changes(),
        m.purpose(),
        motifs.tag(m, "Qh4#"),
        motifs.tags(m),
        reply_table(m),
        claims.judgement("White has been careless"),
        questions.find_move(m),
        questions.collect(lesson),
    ]
    assert list(gathering.findings) == found
    assert gathering.errors == ()


def test_what_a_claim_asks_other_functions_for_is_not_taken(lesson, gathering):
    claims.material(lesson.start, "even")  # asks for the facts
    assert len(gathering.parts) == 1


def test_a_block_goes_on_behind_what_is_wrong(lesson, gathering):
    m = lesson.before("2... Qh4#")
    assert claims.checkmate(m) is NOTHING
    assert claims.mates(m, within=2, move="Qh5") is NOTHING
    assert m.after("Qh9").changes() is NOTHING
    assert reply_table(lesson.after("9. Qa1")) is NOTHING
    claims.mates(m, within=1)
    assert [type(error).__name__ for error in gathering.errors] == [
        "FalseClaim",
        "IllegalMove",
        "AddressError",
        "AddressError",
    ]
    assert len(gathering.findings) == 1


def test_one_error_says_all_of_it(lesson, gathering):
    m = lesson.before("2... Qh4#")
    claims.checkmate(m)
    lesson.after("9. Qa1")
    error = PageError(gathering.errors)
    assert str(error).splitlines()[0] == "2... | checkmate | wrong"
    assert [line.partition(":")[0] for line in error.shown.splitlines()] == [
        "“Black is checkmated” is wrong",
        "'9. Qa1'",
    ]


def test_pages_do_not_stand_within_each_other(gathering):
    with pytest.raises(LessonError, match="a page is open already"):
        open_page()
