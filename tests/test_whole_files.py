"""Whole or not at all: writers killed at any moment, and what they leave is taken away."""

import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from chessnb.lessons import Lesson
from chessnb.notebooks import markdown_cell, new_notebook, write_notebook
from chessnb.proof import Mate
from chessnb.search.proof_book import ProofBook
from chessnb.search.prover import prove
from chessnb.whole_files import scratch_folder, write_whole

WRITER = """
import sys
from chessnb.whole_files import write_whole
both = [letter * 3_000_000 for letter in "AB"]
print("ready", flush=True)
while True:
    for text in both:
        write_whole(sys.argv[1], text)
"""


def writer(path):
    """A program that writes a file over and over; it has begun when this returns."""
    process = subprocess.Popen([sys.executable, "-c", WRITER, path], stdout=subprocess.PIPE)
    assert process.stdout.readline() == b"ready\n"
    return process


def temporaries(folder):
    return sorted(folder.glob(".chessnb-*.tmp"))


def grown_old(folder):
    """Make what lies in a folder look as if nobody had touched it for an hour."""
    for path in temporaries(folder):
        os.utime(path, (time.time() - 3600,) * 2)


def wait_for(what, *, seconds=60):
    deadline = time.monotonic() + seconds
    while not (found := what()):
        assert time.monotonic() < deadline, "it did not come to that"
    return found


def killed_while_writing(path):
    """Kill a writer while half a file is known to lie there."""
    process = writer(path)
    wait_for(path.exists)
    before = set(temporaries(path.parent))
    wait_for(lambda: set(temporaries(path.parent)) - before)
    process.send_signal(signal.SIGKILL)
    process.communicate()


@pytest.mark.thorough
def test_killed_writers_leave_a_whole_file_and_the_next_writer_clears_up(tmp_path):
    path = tmp_path / "lesson.ipynb"
    for _ in range(12):
        killed_while_writing(path)
        assert path.read_text() in ("A" * 3_000_000, "B" * 3_000_000)
    assert temporaries(tmp_path), "no kill fell into the middle of writing"
    grown_old(tmp_path)
    write_whole(path, "C")
    assert [entry.name for entry in tmp_path.iterdir()] == ["lesson.ipynb"]


@pytest.mark.skipif(os.name != "posix", reason="a program is held with a signal")
def test_what_a_living_program_has_in_hand_is_left_to_it(tmp_path):
    path = tmp_path / "lesson.ipynb"
    process = writer(path)
    try:
        while True:
            wait_for(lambda: temporaries(tmp_path))
            process.send_signal(signal.SIGSTOP)
            if [one for one in temporaries(tmp_path) if one.stat().st_size]:  # so it has its lock
                break
            process.send_signal(signal.SIGCONT)
        grown_old(tmp_path)
        in_hand = temporaries(tmp_path)
        write_whole(tmp_path / "other.pgn", "1. e4 *")
        assert temporaries(tmp_path) == in_hand
        held = path.stat().st_ino if path.exists() else None
        process.send_signal(signal.SIGCONT)
        wait_for(lambda: path.exists() and path.stat().st_ino != held)
        assert process.poll() is None
    finally:
        process.kill()
        process.communicate()


def test_only_what_is_ours_and_old_is_taken_away(tmp_path):
    others = [".chessnb-notes.tmp", ".chessnb-0123456789abcdef.tmp.txt", "0123456789abcdef.tmp"]
    fresh, old = ".chessnb-00000000000000aa.tmp", ".chessnb-00000000000000bb.tmp"
    for name in (*others, fresh, old):
        (tmp_path / name).write_text("x")
    os.utime(tmp_path / old, (time.time() - 3600,) * 2)
    (tmp_path / ".chessnb-00000000000000cc.tmp").mkdir()
    write_whole(tmp_path / "x", b"y")
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {*others, fresh, "x", ".chessnb-00000000000000cc.tmp"}


def a_book(path):
    book = ProofBook(path)
    assert prove("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", Mate(within=1), book=book)
    book.save()


WRITERS = {
    "lesson.ipynb": lambda path: write_notebook(
        new_notebook([markdown_cell("t", "T")], notes={}), path
    ),
    "game.pgn": lambda path: Lesson.from_text("1. e4 *").save(path),
    "game.proofs.json": a_book,
}


@pytest.mark.parametrize("name", WRITERS)
def test_every_file_of_the_package_is_forced_to_the_disk_and_clears_up(name, tmp_path, monkeypatch):
    (tmp_path / ".chessnb-00000000000000bb.tmp").write_text("half")
    grown_old(tmp_path)
    forced, force = [], os.fsync

    def note(handle):
        forced.append(os.fstat(handle).st_ino)
        force(handle)

    monkeypatch.setattr(os, "fsync", note)
    path = tmp_path / name
    WRITERS[name](path)
    assert path.stat().st_ino in forced
    assert tmp_path.stat().st_ino in forced
    assert [entry.name for entry in tmp_path.iterdir()] == [name]


@pytest.mark.parametrize("name", WRITERS)
def test_every_file_of_the_package_stays_what_it_was_when_the_disk_is_full(
    name, tmp_path, monkeypatch
):
    path = tmp_path / name
    WRITERS[name](path)
    before = path.read_bytes()

    def full(handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises((OSError, ValueError), match="No space left"):
        WRITERS[name](path)
    assert path.read_bytes() == before
    assert [entry.name for entry in tmp_path.iterdir()] == [name]


def test_permissions_and_links_are_kept(tmp_path):
    real, link = tmp_path / "real", tmp_path / "link"
    write_whole(real, "one")
    (tmp_path / "usual").write_text("")
    assert real.stat().st_mode == (tmp_path / "usual").stat().st_mode
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(link, "two")
    assert link.is_symlink()
    assert (real.read_text(), real.stat().st_mode & 0o777) == ("two", 0o640)


HOLDER = """
import time
from chessnb.whole_files import scratch_folder
with scratch_folder() as folder:
    (folder / "log").write_text("x")
    print(folder, flush=True)
    time.sleep(600)
"""


@pytest.mark.thorough
@pytest.mark.skipif(os.name != "posix", reason="Windows has no locks to tell the living by")
def test_scratch_folders_of_killed_programs_go_and_those_of_living_ones_stay(tmp_path, monkeypatch):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    own = {**os.environ, "TMPDIR": str(tmp_path)}
    started = [
        subprocess.Popen([sys.executable, "-c", HOLDER], env=own, stdout=subprocess.PIPE, text=True)
        for _ in range(2)
    ]
    try:
        dead, living = (Path(process.stdout.readline().strip()) for process in started)
        started[0].kill()
        started[0].wait()
        (tmp_path / "chessnb-of-a-teacher").mkdir()
        for path in tmp_path.iterdir():
            os.utime(path, (time.time() - 3600,) * 2)
        with scratch_folder() as mine:
            left = {path.name for path in tmp_path.iterdir()}
            assert left == {living.name, mine.name, "chessnb-of-a-teacher"}
            assert dead != living
        assert not mine.exists()
        assert (living / "log").exists()
    finally:
        for process in started:
            process.kill()
            process.communicate()
