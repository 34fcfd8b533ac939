"""Sentences that claim something are listed where nothing proves them."""

import pytest

from chessnb.notebooks import code_cell, markdown_cell, new_notebook
from chessnb.notebooks.verification.prose_claims import unproved_sentences


def notebook(*cells):
    return new_notebook(list(cells), notes={})


def listed(*cells):
    return [found.text for found in unproved_sentences(notebook(*cells))]


@pytest.mark.parametrize(
    "sentence",
    [
        "The reply is forced.",
        "Now the knight on c6 is pinned to the king.",
        "14. Nd5 is mate in three.",
        "It is the only move.",
        "This wins a rook.",
        "White threatens 15. Qh7 and mate.",
        "It cannot move.",
    ],
)
def test_a_claim_without_a_claim_cell_is_listed(sentence):
    assert listed(markdown_cell("a", f"## After 14. Nd5\n\nQuiet words. {sentence} More.")) == [
        sentence
    ]


@pytest.mark.parametrize(
    "sentence",
    [
        "White castles.",
        "What is threatened?",
        "The pinnacle of the game.",
        "See `claims.mates` for a line, in code `is pinned`.",
        "Winston has a choice.",
    ],
)
def test_what_claims_nothing_is_not(sentence):
    assert listed(markdown_cell("a", f"## Here\n\n{sentence}")) == []


def test_a_claim_cell_in_the_section_is_enough():
    text = markdown_cell("a", "## After 14. Nd5\n\nThe reply is forced.")
    for source in (
        "claims.mates(lesson.after('14. Nd5'), within=3)",
        "reply_table(m)",
        "motifs.tag(m)",
    ):
        assert listed(text, code_cell("b", source)) == []


def test_a_judgement_proves_nothing():
    text = markdown_cell("a", "## Here\n\nWhite is winning.")
    assert listed(text, code_cell("b", "claims.judgement('easier')")) == ["White is winning."]


def test_a_claim_of_another_section_does_not_count():
    one = markdown_cell("a", "## One\n\nIt is forced.")
    two = markdown_cell("c", "## Two\n\nNothing here.")
    assert listed(one, two, code_cell("b", "claims.mates(m, within=2)")) == ["It is forced."]


def test_the_cell_and_the_word_are_told():
    [found] = unproved_sentences(
        notebook(markdown_cell("a", "# T"), markdown_cell("b", "It wins."))
    )
    assert (found.cell, found.word) == (2, "wins")
