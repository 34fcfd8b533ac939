"""An adviser: a real engine, and programs that are none."""

import sys

import chess
import pytest

from chessnb.engine import EngineError
from chessnb.teaching.adviser import MATED, Adviser

SILENT = """#!{python}
import sys, time
for line in sys.stdin:
    if line.strip() == "uci":
        print("id name silent\\nuciok", flush=True)
    elif line.strip() == "isready":
        print("readyok", flush=True)
    elif line.startswith("go"):
        time.sleep(3600)
"""


def program(folder, text):
    path = folder / "engine"
    path.write_text(text.format(python=sys.executable), encoding="utf-8")
    path.chmod(0o755)
    return str(path)


def test_it_names_a_move_and_says_the_same_again():
    board = chess.Board("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1")
    found = []
    for _ in range(2):
        with Adviser(positions=20_000) as adviser:
            found.append([adviser.ask(board), adviser.ask(chess.Board())])
    assert found[0] == found[1]
    mate = found[0][0]
    assert (mate.score, mate.best) == (MATED - 1, chess.Move.from_uci("a1a8"))
    assert not mate.is_open
    assert found[0][1].is_open


def test_where_the_game_is_over_nobody_is_asked():
    with Adviser(positions=1_000) as adviser:
        mated = chess.Board("R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1")
        stalemated = chess.Board("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1")
        assert adviser.ask(mated).score == -MATED
        assert adviser.ask(stalemated).score == 0


def test_a_program_that_is_no_engine_is_refused(tmp_path):
    with pytest.raises(EngineError, match="does not work as a UCI engine"):
        Adviser(program(tmp_path, "#!/bin/sh\nexit 0\n"))


def test_one_that_falls_silent_is_given_up(tmp_path):
    silent = program(tmp_path, SILENT)
    with (
        Adviser(silent, patience=1.0) as adviser,
        pytest.raises(EngineError, match="does not answer any more"),
    ):
        adviser.ask(chess.Board())
