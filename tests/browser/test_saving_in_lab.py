"""A notebook run and saved in JupyterLab, and opened again when its kernel is gone."""

from __future__ import annotations

import json

import pytest
from browser.lab import Lab, eventually

pytestmark = pytest.mark.thorough

CELLS = (
    "from chessnb import Lesson, LiveBoard",
    "LiveBoard('8/8/8/4k3/8/8/4P3/4K3 w - - 0 1')",
    "Lesson.from_text('1. e4 e5 2. Nf3 *').after('2. Nf3')",
)
SAVE = """
async () => {
  const panel = window.jupyterapp.shell.currentWidget;
  await panel.sessionContext.session.kernel.restart();
  await panel.context.save();
}
"""


@pytest.mark.parametrize("drafted", [False, True])
def test_boards_are_diagrams_when_the_notebook_is_opened_again(lab: Lab, drafted: bool) -> None:
    name = f"kept-{drafted}.ipynb"
    lab.open(name, *CELLS)
    path = lab.folder / name
    if drafted:  # what a draft notes of its lesson
        content = json.loads(path.read_text("utf-8"))
        content["metadata"]["chessnb"] = {}
        path.write_text(json.dumps(content), "utf-8")
        lab.show(name)
    lab.run_all()
    eventually(lambda: lab.page.locator(".chessnb-live").count(), 2)
    lab.page.evaluate(SAVE)
    lab.show(name)
    eventually(lambda: lab.page.locator(".jp-OutputArea-output img").count(), 2)
    shown = lab.page.locator(".jp-Notebook").inner_text()
    assert "model not found" not in shown.lower()
    assert "Error displaying widget" not in shown
    assert lab.page.locator(".jupyter-widgets-view, .jp-mod-brokenWidget").count() == 0
    assert "widget-view" not in path.read_text("utf-8")
