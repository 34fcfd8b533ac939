"""Seals: a card that says something else than its record is noticed, another wording is not."""

import pytest

from chessnb import claims
from chessnb.findings.seal import is_sealed, sealed, with_added

BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"


@pytest.fixture(scope="module")
def shown():
    bundle = claims.mates(BACK_RANK, within=1)._repr_mimebundle_()
    return bundle["text/plain"], bundle["text/html"]


def test_a_finding_is_sealed(shown):
    assert is_sealed(*shown)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("mates in 1", "mates in 2"),  # a number
        ("White mates", "Black mates"),  # a side
        ("Ra8#", "Qa8#"),  # a piece
        ("White mates in 1", "White mates in 1 (proved)"),
        ("<p>White mates in 1.</p>", ""),
        ("alt='", "alt='White is mated. "),  # what the picture is called
        ("<p>", "<p hidden>"),
    ],
)
def test_a_card_that_was_changed_is_not(shown, old, new):
    plain, card = shown
    assert old in card
    assert not is_sealed(plain, card.replace(old, new))


def test_a_picture_may_be_drawn_otherwise(shown):
    plain, card = shown
    assert "base64," in card
    assert is_sealed(plain, card.replace("base64,", "base64,AAAA"))


def test_the_card_of_another_record_is_not(shown):
    plain, card = shown
    assert not is_sealed(plain.replace("1 | proved", "2 | proved"), card)


def test_a_card_without_its_seal_is_not(shown):
    plain, card = shown
    before, _, after = card.partition("<!--seal")
    assert not is_sealed(plain, f"{before}{after.partition('-->')[2]}")
    assert not is_sealed(plain, "")
    assert not is_sealed(plain, "<p>White mates in 1.</p>")


def test_a_second_card_beside_it_is_noticed(shown):
    plain, card = shown
    other = "<div class='chessnb'><p>White mates in 1 (proved).</p><!--/chessnb--></div>"
    assert not is_sealed(plain, card + other)
    assert not is_sealed(plain, other + card)
    assert is_sealed(plain, f"<hr>{card}")  # nbval compares what stands outside


def test_any_wording_may_have_a_seal(shown):
    plain, _ = shown
    assert is_sealed(plain, sealed(plain, "<p>Weiß setzt matt.</p>"))


def test_the_sentence_of_an_error_is_sealed_with_the_card():
    card = sealed("21. | mates | white | 1 | wrong", "<p>A diagram.</p>", beside="It is wrong.")
    assert is_sealed("21. | mates | white | 1 | wrong", card, beside="It is wrong.")
    assert not is_sealed("21. | mates | white | 1 | wrong", card, beside="It is so.")
    assert not is_sealed("21. | mates | white | 1 | wrong", card)


def test_what_is_added_is_sealed_with_it(shown):
    plain, card = shown
    more = with_added(plain, card, "<p>Run this cell.</p>")
    assert is_sealed(plain, more)
    assert "<p>Run this cell.</p><!--seal" in more
    assert with_added(plain, "<p>no card</p>", "<p>more</p>") == "<p>no card</p>"
