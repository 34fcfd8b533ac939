"""A UCI engine's opinion: asked of real programs, good and bad ones, and all of them ended."""

import os
import stat
import subprocess
import sys
import time
from pathlib import Path

import chess
import pytest

from chessnb.engine import VARIABLE, EngineError, EngineLine, Opinion, find_engine, opinion
from chessnb.errors import PositionError

BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
SPEAKS = """\
import sys
for line in sys.stdin:
    words = line.split()
    if words[:1] == ["uci"]:
        print("id name Plain\\nuciok", flush=True)
    elif words[:1] == ["isready"]:
        print("readyok", flush=True)
    elif words[:1] == ["go"]:
        {go}
    elif words[:1] == ["quit"]:
        {quit}
"""
ANSWERS = 'print("info depth 1 score cp 35 pv e2e4\\nbestmove e2e4", flush=True)'


def program(folder: Path, body: str, name: str = "engine.py") -> str:
    """Write a program that runs under this Python."""
    path = folder / name
    path.write_text(f"#!{sys.executable}\n{body}", encoding="utf-8")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return str(path)


def alive(number: int) -> bool:
    """Tell whether a process runs; a zombie does not."""
    try:
        state = (
            Path(f"/proc/{number}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()[0]
        )
    except FileNotFoundError:
        return False
    return state not in "ZX"


def ends(number: int, within_s: float = 5.0) -> bool:
    end = time.monotonic() + within_s
    while alive(number):
        if time.monotonic() > end:
            return False
        time.sleep(0.02)
    return True


def children() -> set[int]:
    """Return the processes that this one has started and that still run."""
    listed = subprocess.run(
        ["ps", "-o", "pid=", "--ppid", str(os.getpid())],
        capture_output=True,
        text=True,
        check=False,
    )
    return {int(word) for word in listed.stdout.split() if alive(int(word))}


@pytest.fixture(autouse=True)
def nothing_is_left_running():
    before = children()
    yield
    end = time.monotonic() + 5
    while children() - before and time.monotonic() < end:
        time.sleep(0.02)
    assert not children() - before


# -- a real engine ----------------------------------------------------------------


def test_a_real_engine_has_an_opinion_and_never_a_proof():
    found = opinion(BACK_RANK, positions=2_000)
    assert found.lines[0].mate == 1
    assert [move.uci() for move in found.lines[0].moves] == ["a1a8"]
    assert found.words == "an engine's opinion: not a proof, and not compared"
    assert "White mates in 1: 1. Ra8#." in found.paragraphs[0]
    assert found.paragraphs[-1] == "An opinion after 2,000 positions, not a proof."


def test_scores_are_white_s_whoever_is_to_move():
    """A queen up: plus for White, minus for Black, with either to move."""
    up = "4k3/8/8/8/8/8/8/3QK3 {} - - 0 1"
    for turn in "wb":
        assert opinion(up.format(turn), positions=2_000).lines[0].symbol == "+−"
        swapped = chess.Board(up.format(turn)).mirror()
        assert opinion(swapped, positions=2_000).lines[0].symbol == "−+"


def test_several_lines_best_first():
    found = opinion(chess.STARTING_FEN, positions=5_000, lines=3)
    scores = [line.score for line in found.lines]
    assert len(scores) == 3
    assert scores == sorted(scores, reverse=True)
    assert len({line.moves[0] for line in found.lines}) == 3


def test_the_same_engine_says_the_same_again():
    assert opinion(chess.STARTING_FEN, positions=5_000) == opinion(
        chess.STARTING_FEN, positions=5_000
    )


# -- none, or a bad one --------------------------------------------------------------


def test_no_engine_is_said_with_what_to_do(tmp_path, monkeypatch):
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr("chessnb.engine.FOLDERS", ())
    monkeypatch.delenv(VARIABLE, raising=False)
    with pytest.raises(EngineError, match=f"install one, or name its program in .* {VARIABLE}"):
        opinion(BACK_RANK)


def test_the_environment_names_the_engine(tmp_path, monkeypatch):
    path = program(tmp_path, SPEAKS.format(go=ANSWERS, quit="break"))
    monkeypatch.setenv(VARIABLE, path)
    assert find_engine() == path
    assert opinion(chess.STARTING_FEN).engine == "Plain"


@pytest.mark.parametrize("name", ["missing", ".", "notes.txt"])
def test_what_cannot_be_run_is_no_engine(tmp_path, name):
    (tmp_path / "notes.txt").write_text("no program", encoding="utf-8")
    with pytest.raises(EngineError, match="there is no engine that can be run at"):
        opinion(BACK_RANK, engine=str(tmp_path / name))


def test_a_program_that_is_no_program_is_said_so(tmp_path):
    path = tmp_path / "broken"
    path.write_bytes(b"\x00\x01\x02")
    path.chmod(0o755)
    with pytest.raises(EngineError, match="broken does not work as a UCI engine"):
        opinion(BACK_RANK, engine=str(path))


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ("import sys; sys.exit(3)", "ended before it answered"),
        (SPEAKS.format(go="sys.exit(3)", quit="break"), "ended before it answered"),
        (
            SPEAKS.format(go='print("bestmove e2e5", flush=True)', quit="break"),
            "UCI engine|did not answer",
        ),
        ('print("hello")\ninput()\nprint("goodbye")', "ended before it answered"),
    ],
    ids=["at once", "while thinking", "an illegal move", "another language"],
)
def test_an_engine_that_dies_or_talks_nonsense(tmp_path, body, words):
    with pytest.raises(EngineError, match=words):
        opinion(chess.STARTING_FEN, engine=program(tmp_path, body), patience=2)


# It leaves a child behind that would sleep for ten minutes, and writes both numbers.
HANGS = """\
import os, subprocess, sys, time
child = subprocess.Popen([sys.executable, "-c", "import time; time.sleep(600)"])
with open({file!r} + ".new", "w") as out:
    out.write(f"{{os.getpid()}} {{child.pid}}")
os.rename({file!r} + ".new", {file!r})
{then}
"""
SILENT = "time.sleep(600)"
DEAF = "import signal; signal.signal(signal.SIGTERM, signal.SIG_IGN)\nwhile True: time.sleep(600)"
STUCK = SPEAKS.format(go="time.sleep(600)", quit="time.sleep(600)")


@pytest.mark.parametrize("then", [SILENT, DEAF, STUCK], ids=["silent", "deaf", "while thinking"])
def test_an_engine_that_hangs_is_ended_with_its_children(tmp_path, then):
    numbers = tmp_path / "numbers"
    body = HANGS.format(file=str(numbers), then=then)
    start = time.monotonic()
    with pytest.raises(EngineError, match="did not answer within 1 seconds and was ended"):
        opinion(chess.STARTING_FEN, engine=program(tmp_path, body), patience=1)
    assert time.monotonic() - start < 12
    for number in map(int, numbers.read_text(encoding="utf-8").split()):
        assert ends(number), "a process was left running"


def test_an_engine_that_answers_and_will_not_quit_is_ended(tmp_path):
    numbers = tmp_path / "numbers"
    then = SPEAKS.format(go=ANSWERS, quit="time.sleep(600)")
    body = HANGS.format(file=str(numbers), then=then)
    found = opinion(chess.STARTING_FEN, engine=program(tmp_path, body), patience=2)
    assert found.lines[0].score == 35
    for number in map(int, numbers.read_text(encoding="utf-8").split()):
        assert ends(number), "a process was left running"


# -- what is asked --------------------------------------------------------------------


def test_nothing_is_asked_where_the_game_is_over():
    with pytest.raises(EngineError, match="the game is over here"):
        opinion("R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1")


def test_nothing_is_asked_of_an_impossible_board():
    with pytest.raises(PositionError):
        opinion("8/8/8/8/8/8/8/K7 w - - 0 1")


@pytest.mark.parametrize(
    ("score", "symbol"),
    [(400, "+−"), (150, "±"), (50, "⩲"), (0, "="), (-50, "⩱"), (-150, "∓"), (-400, "−+")],
)
def test_symbols_of_print(tmp_path, score, symbol):
    """Common practice, no source."""
    go = f'print("info depth 1 score cp {score} pv e2e4\\nbestmove e2e4", flush=True)'
    found = opinion(
        chess.STARTING_FEN, engine=program(tmp_path, SPEAKS.format(go=go, quit="break"))
    )
    assert (found.lines[0].score, found.lines[0].symbol) == (score, symbol)


def test_an_opinion_that_sees_nothing_is_put_into_words():
    found = Opinion(
        fen=chess.STARTING_FEN,
        engine="Plain",
        positions=1,
        lines=(EngineLine(symbol="=", score=0, mate=None, moves=()),),
    )
    assert "Plain thinks = (+0.0)" in found.paragraphs[0]


def test_a_name_with_markup_is_escaped(tmp_path):
    body = SPEAKS.replace("Plain", "<b>Bold</b>").format(go=ANSWERS, quit="break")
    found = opinion(chess.STARTING_FEN, engine=program(tmp_path, body))
    assert "<b>" not in found._repr_html_().split("</svg>")[-1]
    assert "&lt;b&gt;Bold" in found._repr_html_()
