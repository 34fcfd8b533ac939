"""The part that works inside pytest: it gives nbval the lessons, and writes down what it found.

Loaded with ``-p chessnb.notebooks.verification.pytest_plugin``.  One file, named on the command
line, lists the notebooks; so a path may hold anything a file name can (pytest
reads ``[`` and ``::`` in its arguments as its own).  For each cell one line of
JSON is written as soon as it is known.

Three things that nbval does are mended here.  It does not read a notebook
that begins with a byte order mark, as some editors write it.  It waits for its whole timeout
(half an hour) when a kernel dies in the middle of a cell; and it builds a
comparison of long texts for developers, which takes minutes and which nobody
would read.
"""

from __future__ import annotations

import json
import os
import time
from collections.abc import Generator, Iterator
from dataclasses import asdict
from pathlib import Path
from queue import Empty
from typing import Any

import pytest

from chessnb.findings.announcing import VARIABLE
from chessnb.findings.record import read_records
from chessnb.notebooks import read_notebook
from chessnb.notebooks.cell_errors import ALL_OF_A_PAGE, error_sentence, name_that_is_missing
from chessnb.notebooks.quick_loading import without_address_grammars
from chessnb.notebooks.verification.earlier_form import is_of_earlier_form
from chessnb.notebooks.verification.output_difference import difference
from chessnb.notebooks.verification.rerun import LIST_SUFFIX

with without_address_grammars():
    import nbval.plugin
    from nbval.plugin import IPyNbCell, IPyNbFile

_LOOK_EVERY_SECONDS = 1.0


class KernelDiedError(Exception):
    """The kernel ended while a cell was running."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that names the file of results."""
    parser.addoption("--chessnb-results", help="write one line of JSON for each cell there")


def pytest_collect_file(file_path: Path, parent: pytest.Collector) -> pytest.Collector | None:
    """Collect the file that lists the notebooks."""
    if file_path.suffix != LIST_SUFFIX:
        return None
    collector: pytest.Collector = LessonList.from_parent(parent, path=file_path)
    return collector


class _Format:
    """What nbval takes of nbformat, with this package's own reading."""

    from_dict = staticmethod(nbval.plugin.nbformat.from_dict)

    @staticmethod
    def read(path: str, as_version: int) -> Any:
        return read_notebook(path)


nbval.plugin.nbformat = _Format


class LessonList(pytest.File):
    """The notebooks of one check."""

    def collect(self) -> Iterator[pytest.Collector]:
        """Yield a collector of nbval's for each notebook."""
        for path in json.loads(self.path.read_text(encoding="utf-8")):
            yield IPyNbFile.from_parent(self, path=Path(path))


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_call(item: pytest.Item) -> None:
    """Prepare a cell and its kernel before nbval runs it."""
    if isinstance(item, IPyNbCell):
        item.format_output_compare = lambda *_: None
        item.announced_from = len(_announced())
        _watch(item.parent.kernel)


def _watch(kernel: Any) -> None:
    """Make waiting for a kernel's message end soon after the kernel has died."""
    if getattr(kernel, "is_watched", False):
        return
    ask = kernel.get_message

    def get_message(stream: str, timeout: float | None = None) -> Any:
        end = None if timeout is None else time.monotonic() + timeout
        while True:
            left = _LOOK_EVERY_SECONDS if end is None else end - time.monotonic()
            try:
                return ask(stream, timeout=max(0.0, min(left, _LOOK_EVERY_SECONDS)))
            except Empty:
                if not kernel.is_alive():
                    raise KernelDiedError from None
                if end is not None and time.monotonic() >= end:
                    raise

    kernel.get_message = get_message
    kernel.is_watched = True


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Write down what became of a cell."""
    report = yield
    if isinstance(item, IPyNbCell) and (result := _result(item, call, report)):
        announced = [json.loads(line) for line in _announced()[_begun(item) :]]
        result |= {"path": str(item.parent.path), "index": _index(item), "announced": announced}
        with open(item.config.getoption("--chessnb-results"), "a", encoding="utf-8") as file:
            file.write(json.dumps(result) + "\n")
    return report


def _announced() -> list[str]:
    """Return what the library has told of so far, line by line."""
    path = Path(os.environ[VARIABLE])
    return path.read_text(encoding="utf-8").splitlines() if path.exists() else []


def _begun(item: Any) -> int:
    """Return how much had been told when a cell began; one that never ran told nothing."""
    begun = getattr(item, "announced_from", None)
    return len(_announced()) if begun is None else int(begun)


def _index(item: Any) -> int:
    """Return the place of a cell among all cells, counted from 0."""
    cells = item.parent.nb.cells
    return next(index for index, cell in enumerate(cells) if cell is item.cell)


def _result(
    item: Any, call: pytest.CallInfo[None], report: pytest.TestReport
) -> dict[str, Any] | None:
    if call.when == "setup" and report.failed:
        return {"kind": "unusable", "message": str(call.excinfo.value if call.excinfo else "")}
    if item.options["skip"] or not item.options["check"]:
        # Told once, whatever came of the cell.
        return {"kind": "switched-off"} if call.when == "setup" else None
    if call.when != "call":
        return None
    if hasattr(report, "wasxfail"):
        return {"kind": "not-reached"}
    if report.passed:
        return {"kind": "agrees", "compared": _count(item.cell.outputs)}
    return _failure(item, call)


def _failure(item: Any, call: pytest.CallInfo[None]) -> dict[str, Any]:
    error = call.excinfo.value if call.excinfo is not None else None
    if isinstance(error, KernelDiedError):
        return {"kind": "kernel-died"}
    if item.parent.timed_out:
        return {"kind": "timeout"}
    if not item.parent.kernel.is_alive():
        return {"kind": "not-reached"}
    now = item.test_outputs or []
    errors = [output for output in now if output["output_type"] == "error"]
    if errors and not item.options["check_exception"]:
        name, value, shown = (errors[0][key] for key in ("ename", "evalue", "traceback"))
        return {
            "kind": "error",
            "message": _told(name, value, shown),
            "lacks": name_that_is_missing(name, value),
        }
    earlier = is_of_earlier_form(item.parent.nb)
    found = difference(item.cell.outputs, now, earlier_form=earlier)
    if found is None:
        return {"kind": "changed", "message": str(error)}
    return asdict(found)


def _count(outputs: list[dict[str, Any]]) -> int:
    """Return how many findings a cell holds: a page has several."""
    texts = (output.get("data", {}).get("text/plain", "") for output in outputs)
    return max(sum(len(read_records(str(text))) for text in texts), bool(outputs))


def _told(name: str, value: str, shown: list[str]) -> str:
    """Return an error in a sentence; of a page all that is wrong, and the records of it."""
    sentence = error_sentence(name, value, shown)
    if name != ALL_OF_A_PAGE:
        return sentence
    records = [line for line in value.splitlines() if line not in sentence]
    return f"{sentence} [{'; '.join(records)}]" if records else sentence
