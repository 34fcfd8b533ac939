"""Players' names cut to initials, wherever they stand."""

import pytest

from chessnb.publishing.initials import Initials


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("Orsolya Pellwick – Tobin Dunmarrow", "O. P. – T. D."),
        ("Pellwick, Orsolya", "O. P."),
        ("Pellwick's plan", "P.'s plan"),
        ("Pellwicks are others", "Pellwicks are others"),
        ("the pellwick", "the pellwick"),
        ("20... Nf3+", "20... Nf3+"),
    ],
)
def test_names_are_cut(text, cut):
    assert Initials(["Orsolya Pellwick", "Dunmarrow, Tobin", "Pellwick, Orsolya"]).text(text) == cut


def test_a_short_name_does_not_cut_other_words():
    assert Initials(["Bo Li"]).text("Bo Li went to Bo") == "B. L. went to Bo"


def test_without_names_nothing_changes():
    assert Initials([]).text("Anna") == "Anna"
    assert Initials(["?", "..."]).text("Why?") == "Why?"


def test_texts_are_cut_however_deep_they_lie_and_keys_stay():
    assert Initials(["Anna"]).everywhere({"Anna": ["by Anna", 3, None, ("Anna",)]}) == {
        "Anna": ["by A.", 3, None, ["A."]]
    }
