"""Compute lessons again: one pytest with nbval, in a process of its own.

Nothing of the teacher's own pytest takes part: no configuration, no
``conftest.py`` of the lesson's folder, no other plugin.
"""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from chessnb.findings.announcing import VARIABLE
from chessnb.notebooks.kernels import kernel_environment
from chessnb.notebooks.verification.output_difference import SANITIZE_FILE
from chessnb.startup import undisturbed
from chessnb.whole_files import scratch_folder

LIST_SUFFIX = ".lessons-to-verify"
"""How the file ends that tells the plugin which notebooks to check."""

_LOOK_EVERY_SECONDS = 0.1
_UNDERSTOOD = (0, 1, 5)  # pytest: all passed, some failed, there was nothing to run

CellResult = dict[str, Any]
"""What became of one cell: its notebook's ``path``, its ``index``, a ``kind``, and details."""


class ComputingFailed(Exception):  # noqa: N818
    """pytest or nbval itself did not work; the message is the end of what it said."""


def compute_again(
    paths: Sequence[Path],
    *,
    on_result: Callable[[CellResult], None],
    seconds_a_cell: int,
) -> None:
    """Run notebooks under nbval, and hand over what became of each cell as it is known.

    Parameters
    ----------
    paths : sequence of Path
        Absolute paths of notebooks that can be read.
    on_result : callable
        Called with the result of each code cell, in order.
    seconds_a_cell : int
        How long one cell may take.

    Raises
    ------
    ComputingFailed
        If the check itself did not work.

    Notes
    -----
    About three seconds, one more for each notebook, and what the cells take.
    """
    with scratch_folder() as scratch:
        (scratch / "pytest.ini").write_text("[pytest]\n")
        (scratch / f"all{LIST_SUFFIX}").write_text(json.dumps([str(path) for path in paths]))
        results = scratch / "results"
        results.touch()
        process = None
        try:
            with (scratch / "log").open("wb") as log, undisturbed():
                process = _start(scratch, log, seconds_a_cell)
            _follow(process, results, on_result)
        except BaseException:
            if process is not None:
                _stop(process)
            raise
        if process.returncode not in _UNDERSTOOD:
            raise ComputingFailed(_last_lines(scratch / "log"))


def _start(scratch: Path, log: Any, seconds_a_cell: int) -> subprocess.Popen[bytes]:
    arguments = [
        *("-c", scratch / "pytest.ini", "--rootdir", scratch, "--noconftest", "--color=no", "-q"),
        *("-p", "no:cacheprovider", "-p", "chessnb.notebooks.verification.pytest_plugin"),
        *("-p", "nbval.plugin"),
        *("--continue-on-collection-errors", "--nbval", "--nbval-current-env"),
        *("--nbval-sanitize-with", SANITIZE_FILE, f"--nbval-cell-timeout={seconds_a_cell}"),
        *("--chessnb-results", scratch / "results", scratch / f"all{LIST_SUFFIX}"),
    ]
    environment = kernel_environment(scratch / "ipython")
    for name in ("PYTEST_ADDOPTS", "PYTEST_PLUGINS"):
        environment.pop(name, None)
    environment["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    environment[VARIABLE] = str(scratch / "announced")
    return subprocess.Popen(
        [sys.executable, "-m", "pytest", *map(str, arguments)],
        cwd=scratch,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=log,
        stderr=subprocess.STDOUT,
        start_new_session=True,  # Ctrl-C comes to us, and we end it in good order
    )


def _follow(
    process: subprocess.Popen[bytes], results: Path, on_result: Callable[[CellResult], None]
) -> None:
    with results.open(encoding="utf-8") as file:
        ended, begun = False, ""
        while not ended:
            with contextlib.suppress(subprocess.TimeoutExpired):
                process.wait(_LOOK_EVERY_SECONDS)
            ended = process.returncode is not None
            *lines, begun = (begun + file.read()).split("\n")
            for line in lines:
                on_result(json.loads(line))


def _stop(process: subprocess.Popen[bytes]) -> None:
    """End pytest so that it can end its kernel; a kernel left alone ends by itself."""
    process.send_signal(signal.SIGINT if os.name == "posix" else signal.SIGTERM)
    try:
        process.wait(10)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


def _last_lines(log: Path) -> str:
    lines = log.read_text(encoding="utf-8", errors="replace").strip().splitlines()
    return " / ".join(line.strip() for line in lines[-5:] if line.strip())
