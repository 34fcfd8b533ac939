"""How much a test run looks at: decided here, and nowhere else.

A daily run looks at a slice: of random positions the first tenth, of a list
every tenth.  It is the same slice in every run, so that a failure comes back.
With ``CHESSNB_TESTS=thorough`` a run looks at everything, as CI does; then
nothing may be skipped either.

A test that makes no sense on a slice is marked ``thorough``: a daily run
leaves it out, and says how many it has left out.
"""

from __future__ import annotations

import os
from collections.abc import Generator, Iterable
from typing import TypeVar

import pytest
from hypothesis import settings

Thing = TypeVar("Thing")
Report = TypeVar("Report", pytest.TestReport, pytest.CollectReport)

VARIABLE = "CHESSNB_TESTS"
DAILY, THOROUGH = "daily", "thorough"

_asked = os.environ.get(VARIABLE) or DAILY
if _asked not in (DAILY, THOROUGH):
    raise pytest.UsageError(f"{VARIABLE} is {DAILY!r} or {THOROUGH!r}, not {_asked!r}")
is_thorough = _asked == THOROUGH
"""Whether this run looks at everything."""

_PARTS = 1 if is_thorough else 10

settings.register_profile(DAILY, derandomize=True)  # the same examples in every run
settings.register_profile(THOROUGH, derandomize=False)
settings.load_profile(_asked)


def scaled(count: int, *, least: int = 1) -> int:
    """Return how many of so many this run looks at, but never fewer than `least`."""
    return max(min(least, count), count // _PARTS)


def some(things: Iterable[Thing], *, least: int = 1) -> list[Thing]:
    """Return the things that this run looks at, evenly spread, the first among them."""
    everything = list(things)
    wanted = scaled(len(everything), least=least)
    return [everything[number * len(everything) // wanted] for number in range(wanted)]


# -- what pytest does with it ----------------------------------------------------

_left_out = pytest.StashKey[int]()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out the tests that a daily run does not look at."""
    if is_thorough:
        return
    left_out = [item for item in items if item.get_closest_marker("thorough")]
    items[:] = [item for item in items if not item.get_closest_marker("thorough")]
    config.hook.pytest_deselected(items=left_out)
    _count(config, len(left_out))


def _count(config: pytest.Config, left_out: int) -> None:
    config.stash[_left_out] = left_out
    if hasattr(config, "workeroutput"):  # a worker of xdist's, who tells no one
        config.workeroutput["left out"] = left_out


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: object) -> None:
    """Hear from a worker how many tests it left out: all leave out the same."""
    output = getattr(node, "workeroutput", {})
    node.config.stash[_left_out] = output.get("left out", 0)  # type: ignore[attr-defined]


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    """Say what kind of run this was, and how many tests it left out."""
    if is_thorough:
        terminalreporter.write_line("A thorough run: nothing is left out.")
    else:
        count = config.stash.get(_left_out, 0)
        terminalreporter.write_line(
            f"A daily run: slices, and {count} test{'s' * (count != 1)} left out; "
            f"{VARIABLE}={THOROUGH} runs all."
        )


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Let a skip fail in a thorough run."""
    return _without_skips((yield))


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Let a skipped file fail in a thorough run."""
    return _without_skips((yield))


def _without_skips(report: Report) -> Report:
    if is_thorough and report.outcome == "skipped" and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        _, _, reason = report.longrepr
        report.longrepr = f"A thorough run skips nothing: {reason.removeprefix('Skipped: ')}"
    return report
