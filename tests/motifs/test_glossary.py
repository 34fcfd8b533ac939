"""Looking motifs up: by their names, and by what teachers also say."""

import pytest

from chessnb import motifs
from chessnb.errors import LessonError
from chessnb.motifs.glossary import named


def test_names_and_explanations():
    names = motifs.names()
    assert len(names) == len(set(names)) == len(motifs.MOTIFS)
    for name in names:
        assert motifs.explain(name.upper()).name == name
        assert motifs.explain(name).definition.endswith(".")


def test_every_other_name_leads_to_its_motifs():
    for motif in motifs.MOTIFS:
        for word in motif.also:
            assert motif in named(f"{word.title()}s")
            assert set(named(word)) == {one for one in motifs.MOTIFS if word in one.also}


def test_a_word_is_a_name_or_another_name_and_never_both():
    assert not {word for motif in motifs.MOTIFS for word in motif.also} & set(motifs.names())


def test_a_name_that_is_none_is_refused():
    with pytest.raises(LessonError, match="there is no tactic"):
        motifs.explain("no such thing")
    with pytest.raises(LessonError, match="did you mean zugzwang"):
        motifs.explain("zugzwnag")


def test_a_word_that_stands_for_several_is_refused_where_one_is_wanted():
    with pytest.raises(LessonError, match="stands for absolute pin and relative pin"):
        motifs.explain("pins")
