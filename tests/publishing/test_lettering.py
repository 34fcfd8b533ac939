"""How moves are written on paper, and what stays on one line."""

import pytest

from chessnb.notation.letters import UnknownLanguage
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.prose import Run


def said(text, letters):
    return "".join(
        one.get("text", f"<{one.get('piece')}>") for one in Lettering(letters).text(text)
    )


@pytest.mark.parametrize(
    ("letters", "written"),
    [
        ("figurine", "<N>f3 <R>xe8=<Q>"), ("german", "Sf3 Txe8=D"), ("de", "Sf3 Txe8=D"), ("english", "Nf3 Rxe8=Q"),
    ],
)  # fmt: skip
def test_moves_are_written_in_figurines_or_letters(letters, written):
    assert said("Nf3 Rxe8=Q", letters) == written


def test_names_and_words_keep_their_letters():
    text = "N. Rook (Queen) and K. Bishop: Black. R"
    assert said(text, "figurine").replace("\u00a0", " ") == text
    assert said(text, "german").replace("\u00a0", " ") == text


def test_a_move_stays_with_its_number_a_diagonal_and_a_short_last_word_on_one_line():
    assert said("On 20... a5 the h3-c8 diagonal, in 6.", "english") == (
        "On 20...\u00a0a5 the h3\u2011c8 diagonal, in\u00a06."
    )


def test_literal_text_is_left_alone():
    runs = (Run(text="White's 20. Nf3 a", literal=True),)
    assert Lettering("figurine").runs(runs) == [{"text": "White's 20. Nf3 a", "literal": True}]


def test_every_letter_of_a_figurine_has_its_picture():
    assert sorted(Lettering("figurine").figurines()) == sorted("NBRQK")
    assert Lettering("german").figurines() == {}


def test_an_unknown_language_is_refused():
    with pytest.raises(UnknownLanguage, match="figurine"):
        Lettering("klingon")
