"""A lesson saved through a real Jupyter server: what is live goes, all else stays."""

import json
import os
import shutil
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import nbformat
import pytest

import chessnb.notebooks
from chessnb.notebooks import code_cell, markdown_cell, new_notebook
from chessnb.notebooks.server_extension import strip_before_saving

SHIPPED = Path(chessnb.notebooks.__file__).parent / "etc" / "chessnb.json"
VIEW = "application/vnd.jupyter.widget-view+json"
STATE = "application/vnd.jupyter.widget-state+json"
PICTURE = "<div class='chessnb'><img src='data:image/svg+xml;base64,AA=='><!--/chessnb--></div>"


class Server:
    """A Jupyter server with the shipped settings, as an installed chessnb has them."""

    def __init__(self, folder):
        self.folder = folder / "lessons"
        self.folder.mkdir()
        settings = folder / "settings" / "jupyter_server_config.d"
        settings.mkdir(parents=True)
        shutil.copy(SHIPPED, settings)
        own = {
            name: str(folder / name)
            for name in ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR")
        }
        with (folder / "log").open("wb") as log:
            self.process = subprocess.Popen(
                [
                    sys.executable, "-m", "jupyter_server", "--ServerApp.port=0",
                    "--ServerApp.open_browser=False", "--ServerApp.allow_root=True",
                    f"--ServerApp.root_dir={self.folder}",
                ],
                env=os.environ | own | {"JUPYTER_CONFIG_PATH": str(settings.parent)},
                stdin=subprocess.DEVNULL, stdout=log, stderr=log,
            )  # fmt: skip
        deadline = time.monotonic() + 60
        while not (files := list((folder / "JUPYTER_RUNTIME_DIR").glob("jpserver-*.json"))):
            assert self.process.poll() is None, (folder / "log").read_text()
            assert time.monotonic() < deadline, (folder / "log").read_text()
            time.sleep(0.1)
        time.sleep(0.2)
        self.information = json.loads(files[0].read_text())

    def save(self, name, content):
        """Save a notebook as JupyterLab does, and return what the file then holds."""
        body = json.dumps({"type": "notebook", "format": "json", "content": content})
        request = urllib.request.Request(
            f"{self.information['url']}api/contents/{name}",
            data=body.encode(),
            method="PUT",
            headers={"Authorization": f"token {self.information['token']}"},
        )
        urllib.request.urlopen(request, timeout=30).close()
        return json.loads((self.folder / name).read_text())


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    running = Server(tmp_path_factory.mktemp("server"))
    yield running
    running.process.terminate()
    running.process.wait(30)


def run_lesson():
    """A lesson as JupyterLab holds it after a run: live boards, times, a teacher's own cell."""
    board = code_cell("board", "lesson.after('14. Nd5')")
    board["execution_count"] = 3
    board["metadata"]["execution"] = {"iopub.status.busy": "2024-01-01T00:00:00Z"}
    board["metadata"]["tags"] = ["mine"]
    board["outputs"] = [
        {
            "output_type": "execute_result", "execution_count": 3,
            "data": {"text/plain": "14. Nd5", "text/html": PICTURE,
                     VIEW: {"model_id": "1f", "version_major": 2, "version_minor": 0}},
            "metadata": {"text/html": {"isolated": True}},
        },
        {"output_type": "display_data", "data": {VIEW: {"model_id": "2a"}}, "metadata": {}},
        {"output_type": "stream", "name": "stdout", "text": "printed\n"},
    ]  # fmt: skip
    mine = {"cell_type": "raw", "id": "mine", "metadata": {"format": "text/x"}, "source": "ü <b>"}
    notebook = new_notebook([markdown_cell("t", "# T\n\nwords"), board, mine], notes={"plies": 40})
    notebook["metadata"]["widgets"] = {STATE: {"state": {"1f": {}}, "version_major": 2}}
    notebook["metadata"]["language_info"] = {"name": "python", "version": "3.11.2"}
    notebook["metadata"]["other"] = {"kept": True}
    return json.loads(json.dumps(notebook))


def test_what_is_live_leaves_a_lesson_and_nothing_else_does(server):
    expected = run_lesson()
    del expected["metadata"]["widgets"]
    outputs = expected["cells"][1]["outputs"]
    del outputs[0]["data"][VIEW]
    del outputs[1]
    saved = server.save("lesson.ipynb", run_lesson())
    assert nbformat.v4.to_notebook(saved) == expected


def without_own_boards(notebook):
    """What is saved of a notebook that is no lesson: other widgets and their state stay."""
    expected = json.loads(json.dumps(notebook))
    del expected["cells"][1]["outputs"][0]["data"][VIEW]
    return expected


def test_another_notebook_loses_the_boards_alone_and_keeps_other_widgets(server):
    other = run_lesson()
    del other["metadata"]["chessnb"]
    saved = server.save("other.ipynb", other)
    assert nbformat.v4.to_notebook(saved) == without_own_boards(other)
    assert STATE in saved["metadata"]["widgets"]


def test_a_notebook_without_boards_is_saved_as_it_is(server):
    other = run_lesson()
    del other["metadata"]["chessnb"]
    other["cells"][1]["outputs"][0]["data"]["text/html"] = "<b>mine</b>"
    saved = server.save("mine.ipynb", other)
    assert nbformat.v4.to_notebook(saved) == other


def test_a_save_is_never_stopped(server):
    for number, notes in enumerate([None, [], "yes", 3]):
        strange = run_lesson()
        strange["metadata"]["chessnb"] = notes
        saved = server.save(f"strange{number}.ipynb", strange)
        assert nbformat.v4.to_notebook(saved) == without_own_boards(strange)


@pytest.mark.parametrize(
    "model",
    [
        {},
        {"type": "notebook"},
        {"type": "notebook", "content": None},
        {"type": "notebook", "content": {"metadata": {"chessnb": {}}, "cells": None}},
        {"type": "notebook", "content": {"cells": [None, {"outputs": [None, {"data": []}]}]}},
        {"type": "notebook", "content": {"cells": [{"outputs": [{"data": {"text/html": 3}}]}]}},
        {"type": "file", "content": "words"},
        {"type": "directory", "content": [{"metadata": {"chessnb": {}}}]},
    ],
)
def test_what_is_no_notebook_passes(model):
    before = json.dumps(model)
    strip_before_saving(model=model, path="x", contents_manager=None)
    assert json.dumps(model) == before
