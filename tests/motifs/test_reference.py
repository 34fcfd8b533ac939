"""The reference notebook is what the examples of the modules make of it."""

import json

import pytest

from chessnb import motifs
from chessnb.notebooks.verification import verify
from motifs.reference import PLACE, fresh


def test_the_saved_notebook_has_the_cells_of_a_fresh_one():
    saved = json.loads(PLACE.read_text(encoding="utf-8"))
    told = [("".join(cell["source"]), cell["metadata"].get("tags")) for cell in saved["cells"]]
    assert told == [(cell["source"], cell["metadata"].get("tags")) for cell in fresh()["cells"]]


def test_every_motif_has_an_example_and_a_near_miss():
    for motif in motifs.MOTIFS:
        assert {example.shows for example in motif.examples} == {True, False}, motif.name


@pytest.mark.thorough
def test_it_passes_its_check():
    report = verify([PLACE])
    assert report.ok, report.lines()
