"""The walks that DEVELOPERS.md writes down: none gets longer unnoticed, the claim's goes straight."""

import tomllib

import pytest
from walks import ROOT, WALKS, a_claim_is_answered, hops

MOST = {"a_game_becomes_cells": 163, "a_claim_is_answered": 12, "a_try_is_answered": 29}


@pytest.mark.thorough
@pytest.mark.parametrize("walk", WALKS, ids=lambda walk: walk.__name__)
def test_a_walk_takes_no_more_hops_than_it_did(walk):
    assert len(hops(walk)) <= MOST[walk.__name__]


def test_a_claim_goes_down_to_its_proof_and_never_climbs():
    settings = tomllib.loads((ROOT.parent / "pyproject.toml").read_text(encoding="utf-8"))
    layers = settings["tool"]["importlinter"]["contracts"][0]["layers"]
    floor = {room.strip(): n for n, layer in enumerate(layers) for room in layer.split("|")}
    made = hops(a_claim_is_answered, kit=True)
    assert len(made) <= 16
    climbs = [hop for hop in made if hop[0] in floor and floor[hop[2]] < floor[hop[0]]]
    assert not climbs
    books = [hop for hop in made if "book" in hop[3].lower()]
    assert not books, "the proof book is opened inside the search alone"
