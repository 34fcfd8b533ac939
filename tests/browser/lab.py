"""JupyterLab as a reader uses it: open a notebook, run it, look at it."""

from __future__ import annotations

import json
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import nbformat
from nbformat.v4 import new_code_cell, new_notebook
from playwright.sync_api import Locator, Page

_SHOWN = "() => !!window.jupyterapp?.shell?.currentWidget?.sessionContext"
_OPEN = """
async (path) => {
  await window.jupyterapp.commands.execute("docmanager:open", { path, factory: "Notebook" });
}
"""
_READY = """
async () => {
  const panel = window.jupyterapp.shell.currentWidget;
  const within = (promise, what) => Promise.race([promise, new Promise((_, reject) =>
    setTimeout(() => reject(new Error(`${what} took more than 40 s`)), 40_000))]);
  await within(panel.context.ready, "the notebook");
  await within(panel.sessionContext.ready, "the session");
  await within(panel.sessionContext.session.kernel.info, "the kernel");
}
"""


_CLOSE = """
() => {
  const shell = window.jupyterapp?.shell;
  for (const panel of [...(shell?.widgets("main") ?? [])]) {
    if (panel.context) panel.context.model.dirty = false;
    panel.dispose();
  }
  localStorage.clear();
  return shell?.leftCollapsed === false && !document.querySelector(".jp-Dialog");
}
"""


BUSY = """\
import time
from pathlib import Path
Path("waiting").touch()
while Path("busy").exists():
    time.sleep(0.02)
Path("waiting").unlink()
print("rested")
"""
"""A cell that keeps the kernel busy as long as a test wants it, see :meth:`Lab.busy`."""


@dataclass(frozen=True, kw_only=True)
class Lab:
    """A page of JupyterLab.

    Parameters
    ----------
    page : Page
        The browser page.
    address : str
        The server.
    folder : Path
        The server's notebooks.
    """

    page: Page
    address: str
    folder: Path

    def open(self, name: str, *cells: str, at: str = "lab/tree") -> None:
        """Write a notebook of these code cells, open it and wait for its kernel."""
        notebook = new_notebook(cells=[new_code_cell(cell) for cell in cells])
        notebook.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3"}
        nbformat.write(notebook, self.folder / name)
        if at != "lab/tree" or not self.page.url.startswith(f"{self.address}/lab"):
            self.show(name, at=at)
            return
        self.page.evaluate(_OPEN, name)
        self.page.wait_for_function(_SHOWN)
        self.page.evaluate(_READY)

    def show(self, name: str, *, at: str = "lab/tree") -> None:
        """Load the page again with a notebook that is there; ``at="notebooks"`` in Notebook 7."""
        self.page.goto(f"{self.address}/{at}/{name}?reset", timeout=60_000)
        self.page.wait_for_function(_SHOWN, timeout=60_000)
        self.page.evaluate(_READY)

    def leave(self) -> None:
        """Close what is open and end its kernels; leave the page, if it is not as it was loaded."""
        as_loaded = self.page.evaluate(_CLOSE)
        if not as_loaded:
            self.page.goto("about:blank")
        self.shut_down_kernels()

    def run_all(self) -> None:
        """Start all cells; what they show is to be waited for by what it is."""
        self.page.evaluate(
            "() => void window.jupyterapp.commands.execute('notebook:run-all-cells')"
        )

    def run_cell(self, index: int) -> None:
        """Start one cell, and do not wait for it."""
        self.page.evaluate(
            """(index) => {
              const { content } = window.jupyterapp.shell.currentWidget;
              content.deselectAll();
              content.activeCellIndex = index;
              void window.jupyterapp.commands.execute("notebook:run-cell");
            }""",
            index,
        )

    @contextmanager
    def busy(self, index: int) -> Iterator[None]:
        """Keep the kernel busy meanwhile, by a cell of `BUSY` that runs already."""
        busy = self.folder / "busy"
        busy.touch()
        try:
            self.run_cell(index)
            eventually((self.folder / "waiting").exists, True)
            yield
            assert (self.folder / "waiting").exists(), "the kernel was not busy: the test is void"
        finally:
            busy.unlink()

    @property
    def board(self) -> Locator:
        """The first live board."""
        return self.page.locator(".chessnb-live").first

    def theme(self, name: str) -> None:
        """Change the theme, ``"JupyterLab Dark"`` or ``"JupyterLab Light"``, and wait for it."""
        self.page.evaluate(
            "(theme) => void jupyterapp.commands.execute('apputils:change-theme', { theme })",
            name,
        )
        self.page.wait_for_selector(f'body[data-jp-theme-name="{name}"]', state="attached")

    def shut_down_kernels(self) -> None:
        """End the sessions that this test began."""
        with urllib.request.urlopen(f"{self.address}/api/sessions", timeout=20) as answer:
            sessions = json.load(answer)
        for session in sessions:
            request = urllib.request.Request(
                f"{self.address}/api/sessions/{session['id']}", method="DELETE"
            )
            request.add_header("Cookie", "_xsrf=test")
            request.add_header("X-XSRFToken", "test")
            urllib.request.urlopen(request, timeout=20).close()


def eventually(look: Callable[[], object], expected: object, *, seconds: float = 15) -> None:
    """Wait until a look gives what is expected; fail with the last look."""
    deadline = time.monotonic() + seconds
    while (seen := look()) != expected:
        assert time.monotonic() < deadline, f"expected {expected!r}, still {seen!r}"
        time.sleep(0.05)
