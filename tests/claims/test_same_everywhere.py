"""A claim says the same, byte for byte: run again, compiled or not, with a proof book or without.

Where there is no compiler, `chessnb/search/core.py` runs as it is.  Python
would take the compiled file beside it first, so each run here is a program of
its own that puts a finder before all others and loads the module from its
source under its usual name; `core.compiled` tells whether that worked.
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from chessnb.search import core
from chessnb.search.proof_book import KEEP

ROOT = Path(__file__).parents[2]
GAME = """[Event "Lantern Street"]
[Result "*"]
[SetUp "1"]
[FEN "r3k3/2p2ppp/5p2/P2N4/8/8/5PPP/4K3 w - - 0 14"]

14. Kd2 f5 15. Nxc7+ *
"""
PROGRAM = """
import importlib.util, json, sys

class FromSource:
    def find_spec(self, name, path=None, target=None):
        if name == "chessnb.search.core":
            return importlib.util.spec_from_file_location(name, {core!r})

if {from_source!r}:
    sys.meta_path.insert(0, FromSource())
from chessnb import Lesson, claims, reply_table
from chessnb.errors import ChessnbError
from chessnb.search import core

lesson = Lesson.read({game!r})
start = lesson.start
asked = [
    lambda: claims.mates("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", within=1),
    lambda: claims.mates("7k/8/8/5K2/8/8/8/R7 w - - 0 1", within=2),
    lambda: claims.fastest_mate("7k/8/8/5K2/8/8/8/R7 w - - 0 1", within=2),
    lambda: claims.mates("7k/8/8/5K2/8/8/8/R7 w - - 0 1", within=2, budget=40),
    lambda: claims.mates("start", within=4, budget=500),
    lambda: claims.wins_material(start, at_least=5, within=2, move="Nxc7+"),
    lambda: claims.wins_material(start, at_least=6, within=2),
    lambda: claims.wins_material(start, at_least=3, within=3, move="h3"),
    lambda: claims.mates_or_wins(start, mate=2, at_least=5, within=2),
    lambda: claims.threatens(lesson.after("14. Kd2"), "Nxc7+", mate=1, within=2),
    lambda: claims.parries(lesson.after("14. Kd2"), "Kd7", mate=1, within=2),
    lambda: claims.loses(lesson.after("14. Kd2"), "f5", mate=1, within=2),
    lambda: claims.zugzwang("8/8/8/3pK3/2kP4/8/8/8 w - - 0 1", mate=1, within=1),
    lambda: claims.forced("r3r1k1/5Npp/8/8/2Q5/8/8/6K1 w - - 0 1", "Nh6+ Kh8 Qg8+ Rxg8 Nf7#"),
    lambda: claims.must_check("6k1/R2p1ppp/8/8/5n2/7q/7P/7K w - - 0 1", mate=1),
    lambda: claims.forces_stalemate("6rk/6R1/8/8/8/1q6/8/K7 w - - 0 1", within=1),
    lambda: claims.perpetual("6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1"),
    lambda: claims.trapped("6k1/5ppp/8/8/8/1P6/bKP5/8 b - - 0 1", "a2", within=1),
    lambda: reply_table("6k1/5ppp/8/8/8/8/8/R3K3 b - - 0 1", mate=1, within=1),
]
said = []
for ask in asked:
    try:
        found = ask()
        said.append([str(found), *found.paragraphs])
    except ChessnbError as error:
        said.append([str(error), *getattr(error, "__notes__", ())])
json.dump([core.compiled, said], sys.stdout)
"""


def run(folder, *, from_source=False, keep=False, seed="0"):
    """Return whether the core was compiled, and what the claims say, in a fresh Python."""
    game = folder / "game.pgn"
    game.write_text(GAME, encoding="utf-8")
    source = str(ROOT / "chessnb" / "search" / "core.py")
    program = PROGRAM.format(core=source, from_source=from_source, game=str(game))
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": seed}
    environment.pop(KEEP, None)
    if keep:
        environment[KEEP] = "1"
    done = subprocess.run(
        [sys.executable, "-c", program],
        env=environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
    )
    return json.loads(done.stdout)


@pytest.fixture(scope="module")
def said(tmp_path_factory):
    return run(tmp_path_factory.mktemp("plain"))[1]


def test_the_claims_are_of_all_three_kinds(said):
    kinds = {one[0].rpartition(" | ")[2] for one in said}
    assert {"proved", "searched", "wrong", "not proved"} <= kinds


def test_run_again_with_another_hash_seed(said, tmp_path):
    assert run(tmp_path, seed="12345")[1] == said


def test_compiled_or_not(said, tmp_path):
    compiled, from_source = run(tmp_path, from_source=True)
    assert not compiled
    assert from_source == said


@pytest.mark.skipif(not core.compiled, reason="no compiler was here: there is only one way to run")
def test_the_other_runs_are_compiled(tmp_path):
    assert run(tmp_path)[0]


@pytest.mark.thorough
def test_with_a_proof_book_and_without(said, tmp_path):
    assert run(tmp_path, keep=True)[1] == said
    book = tmp_path / "game.proofs.json"
    assert '"proof"' in book.read_text(encoding="utf-8")
    assert run(tmp_path)[1] == said
    book.write_text("damaged", encoding="utf-8")
    assert run(tmp_path)[1] == said
