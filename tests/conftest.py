"""What every test may use."""

from __future__ import annotations

import signal
from typing import Any

import pytest
from thoroughness import (  # noqa: F401
    pytest_collection_modifyitems,
    pytest_make_collect_report,
    pytest_runtest_makereport,
    pytest_terminal_summary,
    pytest_testnodedown,
)


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup() -> None:
    """Switch Ctrl-C on: programs that a test starts inherit it switched off.

    A shell does so to what it starts in the background, and a command of
    chessnb that is run inside a test does so when its work is done.
    """
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Give each process whole files, and all of a group: they share what is dear to make."""
    from xdist.scheduler import LoadGroupScheduling

    class ByFile(LoadGroupScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return str(super()._split_scope(nodeid).split("::")[0])

    return ByFile(config, log) if config.getvalue("dist") == "loadgroup" else None
