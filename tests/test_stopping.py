"""Ctrl-C, with real processes and real signals: one line, 130, nothing half-written or left."""

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from thoroughness import some

ROOT = Path(__file__).parents[1]
GAMES = ROOT / "notebooks" / "games"
GAME = "lantern-street"

pytestmark = pytest.mark.skipif(os.name != "posix", reason="the signals of POSIX systems")

AT_IMPORT = """
import importlib.abc, os, signal, sys

class Interrupting(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name == os.environ.get("INTERRUPTED_AT"):
            del os.environ["INTERRUPTED_AT"]
            os.kill(os.getpid(), signal.SIGINT)

sys.meta_path.insert(0, Interrupting())
"""

COMMANDS = {
    "draft": ["draft", f"games/{GAME}.pgn", "-o", "new.ipynb"],
    "verify": ["verify", "lesson.ipynb"],
    "update": ["verify", "--update", "lesson.ipynb"],
    "student": ["student", "lesson.ipynb"],
    "open": ["open", "lesson.ipynb", "--no-browser"],
}


class Running:
    """A command in a folder of its own, with its own folder for what is temporary."""

    def __init__(self, folder, command, *, as_module=True, interrupted_at=""):
        self.folder, self.scratch = folder / "lessons", folder / "scratch"
        (folder / "site").mkdir()
        (folder / "site" / "sitecustomize.py").write_text(AT_IMPORT)
        shutil.copytree(GAMES, self.folder / "games")
        shutil.copy(ROOT / "notebooks" / f"{GAME}.ipynb", self.folder / "lesson.ipynb")
        if command in ("draft", "update"):  # so that there are proofs to be searched and kept
            (self.folder / "games" / f"{GAME}.proofs.json").unlink()
        self.scratch.mkdir()
        self.before = (self.folder / "lesson.ipynb").read_bytes()
        program = (
            [sys.executable, "-m", "chessnb"]
            if as_module
            else [str(Path(sys.executable).with_name("chessnb"))]
        )
        self.process = subprocess.Popen(
            program + COMMANDS[command],
            cwd=self.folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
            start_new_session=True,
            env={
                **os.environ, "TMPDIR": str(self.scratch), "INTERRUPTED_AT": interrupted_at,
                "JUPYTER_RUNTIME_DIR": str(folder / "runtime"),
                "PYTHONPATH": os.pathsep.join([str(folder / "site"), str(ROOT)]),
            },
        )  # fmt: skip

    def wait_until(self, come):
        deadline = time.monotonic() + 120
        while not come():
            assert self.process.poll() is None, self.process.communicate()
            assert time.monotonic() < deadline, "it did not come to that"
            time.sleep(0.005)

    def interrupt(self, *, times=1):
        """Press Ctrl-C: every process of the group is told."""
        for _ in range(times):
            os.killpg(self.process.pid, signal.SIGINT)
            time.sleep(0.05)

    def has_written(self, pattern):
        return any(path.stat().st_size for path in self.scratch.glob(pattern))

    def ended(self):
        """Check what is left, and return what was printed."""
        out, err = self.process.communicate(timeout=60)
        assert self.process.returncode == 130, (self.process.returncode, out, err)
        assert [path.name for path in self.scratch.iterdir()] == []
        assert list(self.folder.rglob(".chessnb-*")) == []
        assert (self.folder / "lesson.ipynb").read_bytes() == self.before
        assert not (self.folder / "new.ipynb").exists()
        for path in self.folder.rglob("*.json"):
            json.loads(path.read_text(encoding="utf-8"))
        deadline = time.monotonic() + 20
        while still_there := self.processes():
            assert time.monotonic() < deadline, still_there
            time.sleep(0.1)
        return out, err

    def processes(self):
        """What still runs of what this command has started."""
        mine = f"TMPDIR={self.scratch}".encode()
        found = []
        for environment in Path("/proc").glob("[0-9]*/environ"):
            try:
                if mine in environment.read_bytes().split(b"\0"):
                    found.append((environment.parent / "cmdline").read_text())
            except OSError:
                continue
        return found


LOADED = [(module, way) for module in ("chess", "chessnb.errors", "rich", "typer")
          for way in ("python -m chessnb", "chessnb")]  # fmt: skip


@pytest.mark.parametrize(("module", "way"), some(LOADED, least=3))
def test_while_the_package_is_loaded(module, way, tmp_path):
    as_module = way.startswith("python")
    running = Running(tmp_path, "draft", as_module=as_module, interrupted_at=module)
    assert running.ended() == ("", "chessnb: stopped.\n")


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("command", "module"),
    some(
        [
            ("draft", "rich.console"),
            ("draft", "chessnb.notebooks.drafting.drafter"),
            ("draft", "chessnb.motifs"),
            ("draft", "nbclient"),
            ("draft", "zmq"),
            ("draft", "ipykernel.kernelspec"),
            ("verify", "chessnb.notebooks.verification.lesson_check"),
            ("verify", "nbformat"),
            ("update", "nbclient"),
            ("student", "nbformat"),
            ("open", "chessnb.notebooks.launcher"),
            ("open", "nbformat"),
        ],
        least=4,
    ),
)
def test_while_a_command_loads_what_it_needs(command, module, tmp_path):
    running = Running(tmp_path, command, interrupted_at=module)
    assert running.ended() == ("", "chessnb: stopped.\n")


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("command", "times"), some([("draft", 1), ("update", 4), ("draft", 4), ("update", 1)], least=2)
)
def test_while_the_lesson_runs_and_proofs_are_kept(command, times, tmp_path):
    running = Running(tmp_path, command)
    proofs = running.folder / "games" / f"{GAME}.proofs.json"
    running.wait_until(proofs.exists)
    running.interrupt(times=times)
    assert running.ended() == ("", "chessnb: stopped.\n")


@pytest.mark.thorough
@pytest.mark.parametrize("pattern", ["chessnb-*/kernel.log", "chessnb-*/*profile*"])
def test_while_the_kernel_starts(pattern, tmp_path):
    running = Running(tmp_path, "update")
    running.wait_until(lambda: list(running.scratch.glob(pattern)))
    running.interrupt()
    assert running.ended() == ("", "chessnb: stopped.\n")


@pytest.mark.thorough
@pytest.mark.parametrize("pattern", ["chessnb-*/log", "chessnb-*/results"])
def test_while_a_lesson_is_checked(pattern, tmp_path):
    running = Running(tmp_path, "verify")
    if pattern.endswith("results"):
        running.wait_until(lambda: running.has_written(pattern))
    else:
        running.wait_until(lambda: list(running.scratch.glob(pattern)))
    running.interrupt()
    assert running.ended() == ("", "chessnb: stopped.\n")


@pytest.mark.thorough
def test_while_jupyterlab_starts_and_while_it_runs(tmp_path):
    (tmp_path / "starts").mkdir()
    running = Running(tmp_path / "starts", "open")
    running.wait_until(lambda: list(running.scratch.glob("chessnb-*/log")))
    running.interrupt()
    assert running.ended() == ("JupyterLab ends.\n", "")

    (tmp_path / "runs").mkdir()
    running = Running(tmp_path / "runs", "open")
    assert running.process.stdout.readline().startswith("JupyterLab: http://127.0.0.1:")
    assert running.process.stdout.readline() == "Ctrl-C ends it.\n"
    running.interrupt(times=2)
    assert running.ended() == ("JupyterLab ends.\n", "")


DROPPED = """
import time
from chessnb import startup
startup.listen()

class Dropping:
    def __del__(self):
        import signal
        signal.raise_signal(signal.SIGINT)

try:
    Dropping()
    time.sleep(60)
    print("not interrupted")
except KeyboardInterrupt:
    print("interrupted")
"""


def test_an_interrupt_that_falls_into_a_destructor_is_not_lost():
    done = subprocess.run(
        [sys.executable, "-c", DROPPED], capture_output=True, text=True, check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert (done.stdout, done.stderr) == ("interrupted\n", "")
