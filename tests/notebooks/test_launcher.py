"""A lesson opens in a real JupyterLab, protected, quiet, and it ends in good order."""

import importlib.util
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path
from urllib.parse import quote, urlsplit

import pytest
from thoroughness import some

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook
from chessnb.notebooks.launcher import launch

RUN = (
    "import sys\n"
    "from chessnb.errors import NotebookError\n"
    "from chessnb.notebooks.launcher import launch\n"
    "try:\n"
    "    launch(sys.argv[1], browser=sys.argv[2] == 'browser', port=int(sys.argv[3]) or None)\n"
    "except NotebookError as error:\n"
    "    sys.exit(f'said: {error}')\n"
)


def lesson_in(folder):
    """A lesson in a folder of its own, under a name that addresses must quote."""
    path = folder / "my lessons" / "round [1] größe.ipynb"
    path.parent.mkdir()
    write_notebook(
        new_notebook([markdown_cell("t", "# T"), code_cell("c", "1 + 1")], notes={}), path
    )
    return path


@pytest.fixture
def lesson(tmp_path):
    return lesson_in(tmp_path)


def settings_in(folder):
    """Settings of a teacher's own: their folder, and the environment that names it."""
    folder = folder / "home"
    for name in ("config", "data", "ipython"):
        (folder / name).mkdir(parents=True)
    return folder, os.environ | {
        "HOME": str(folder),
        "JUPYTER_CONFIG_DIR": str(folder / "config"),
        "JUPYTER_DATA_DIR": str(folder / "data"),
        "IPYTHONDIR": str(folder / "ipython"),
    }


@pytest.fixture
def own_settings(tmp_path):
    return settings_in(tmp_path)


class Launched:
    """A program that launches a lesson, read by its lines."""

    def __init__(self, path, environment, *, browser="none", port=0):
        self.lesson = path
        self.process = subprocess.Popen(
            [sys.executable, "-c", RUN, path, browser, str(port)],
            env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        )  # fmt: skip
        self.line = self.process.stdout.readline().strip()
        self.hint = self.process.stdout.readline().strip()
        self.url = self.line.removeprefix("JupyterLab: ")
        self.origin = "{0.scheme}://{0.netloc}/".format(urlsplit(self.url))
        self.token = urlsplit(self.url).query.removeprefix("token=")

    def ask(self, address, *, token=True, method="GET", body=None):
        """Return the answer's status and text."""
        headers = {"Authorization": f"token {self.token}"} if token else {}
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(
            self.origin + address, method=method, data=data, headers=headers
        )
        try:
            with urllib.request.urlopen(request, timeout=30) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as error:
            with error:
                return error.code, error.read().decode()

    def end(self, how=signal.SIGINT):
        """Send a signal; return the exit code, the lines that followed, and stderr."""
        self.process.send_signal(how)
        lines, errors = self.process.communicate(timeout=60)
        return self.process.returncode, lines.splitlines(), errors


def children(pid):
    """The processes whose parent is a process."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(fields[1]) == pid and fields[0] != "Z":
            found.append(int(stat.parent.name))
    return found


NOTE_NAMES = """
import os, socket
look_up = socket.getaddrinfo
def noted(host, *rest, **options):
    with open(os.environ["NAMES_LOOKED_UP"], "a") as file:
        print(host, file=file)
    return look_up(host, *rest, **options)
socket.getaddrinfo = noted
"""


def test_a_lesson_is_served_protected_and_ends_with_ctrl_c(lesson, own_settings):
    folder, environment = own_settings
    launched = Launched(lesson, environment)
    try:
        assert launched.hint == "Ctrl-C ends it."
        assert re.fullmatch(
            r"http://127\.0\.0\.1:\d+/lab/tree/round%20%5B1%5D%20gr%C3%B6%C3%9Fe\.ipynb"
            r"\?token=[0-9a-f]{40,}",
            launched.url,
        )
        assert launched.ask("api/contents", token=False)[0] == 403
        status, listing = launched.ask("api/contents")
        assert status == 200
        assert [entry["name"] for entry in json.loads(listing)["content"]] == [lesson.name]
        status, kernel = launched.ask("api/kernels", method="POST", body={"name": "python3"})
        assert status == 201
        assert json.loads(kernel)["name"] == "python3"
        (server,) = children(launched.process.pid)
        kernel_processes = children(server)
        assert kernel_processes
    finally:
        ended = launched.end()
    assert ended == (0, ["JupyterLab ends."], "")
    for process in (server, *kernel_processes):
        assert not Path(f"/proc/{process}").exists()
    assert list((folder / "config").rglob("*.py")) == []
    assert [path.name for path in lesson.parent.glob("*.ipynb")] == [lesson.name]


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    """A lesson that was launched at a port of one's own, with a browser.

    Which page the browser was given, and which names were looked up, is noted.
    """
    folder = tmp_path_factory.mktemp("running")
    (folder / "sitecustomize.py").write_text(NOTE_NAMES)
    path = os.pathsep.join([str(folder), os.environ.get("PYTHONPATH", "")])
    opener = folder / "browser.sh"
    opener.write_text(
        f'#!/bin/sh\necho "$1" > "{folder}/part"\nmv "{folder}/part" "{folder}/seen"\n'
    )
    opener.chmod(0o755)
    noting = {"PYTHONPATH": path, "NAMES_LOOKED_UP": f"{folder}/names", "BROWSER": f"{opener} %s"}
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    launched = Launched(
        lesson_in(folder), settings_in(folder)[1] | noting, browser="browser", port=port
    )
    launched.notes, launched.port = folder, port
    yield launched
    assert launched.end()[0] == 0
    names = set((folder / "names").read_text().split())
    assert names <= {"127.0.0.1", "localhost"}, "something was looked up in the network"


@pytest.mark.thorough
def test_a_page_that_asks_for_news_is_told_nothing_from_the_network(running):
    page = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
    with page.open(running.url, timeout=30) as answer:
        assert '"news": {"disabled": true}' in answer.read().decode()
    for address in ("lab/api/news", "lab/api/update"):  # what the page asks for at its start
        assert running.ask(address)[0] == 200
    assert (running.notes / "names").exists(), "what is looked up is not noted"


@pytest.mark.thorough
def test_the_library_of_the_teaching_view_adds_nothing_to_jupyterlab(running):
    page = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
    with page.open(running.url, timeout=30) as answer:
        held = answer.read().decode()
    off = re.search(r'"disabledExtensions": (\[[^\]]*\])', held)[1]
    assert "@voila-dashboards/jupyterlab-preview" in json.loads(off)
    assert running.ask("voila")[0] == 404


@pytest.mark.thorough
def test_a_lesson_saved_there_keeps_its_still_pictures(running):
    lesson = running.lesson
    view = {"application/vnd.jupyter.widget-view+json": {"model_id": "1f"}}
    content = json.loads(lesson.read_text())
    content["cells"][1]["outputs"] = [
        {"output_type": "display_data", "data": {"text/plain": "14. Nd5"} | view, "metadata": {}}
    ]
    status, _ = running.ask(
        "api/contents/lesson.ipynb",
        method="PUT",
        body={"type": "notebook", "format": "json", "content": content},
    )
    assert status == 201
    saved = json.loads((lesson.parent / "lesson.ipynb").read_text())
    assert saved["cells"][1]["outputs"][0]["data"] == {"text/plain": ["14. Nd5"]}


@pytest.mark.thorough
@pytest.mark.parametrize("how", some([signal.SIGTERM, signal.SIGHUP]))
def test_other_ways_to_end_leave_no_server(lesson, own_settings, how):
    launched = Launched(lesson, own_settings[1])
    (server,) = children(launched.process.pid)
    assert launched.end(how)[:2] == (0, ["JupyterLab ends."])
    assert not Path(f"/proc/{server}").exists()


@pytest.mark.thorough
def test_it_ends_when_jupyterlab_is_shut_down(lesson, own_settings):
    launched = Launched(lesson, own_settings[1])
    assert launched.ask("api/shutdown", method="POST")[0] == 200
    lines, errors = launched.process.communicate(timeout=60)
    assert (launched.process.returncode, lines, errors) == (0, "", "")


def test_the_browser_is_opened_at_the_lesson(running):
    seen = running.notes / "seen"
    deadline = time.monotonic() + 30
    while not seen.exists():
        assert time.monotonic() < deadline, "no browser was opened"
        time.sleep(0.1)
    # The server hands the browser a private page that leads to the lesson,
    # so that the token is not seen in the list of processes.
    page = Path(seen.read_text().strip().removeprefix("file://")).read_text()
    assert urlsplit(running.url).path in page
    assert running.token in page


@pytest.mark.thorough
@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_a_byte_order_mark_goes_since_jupyterlab_cannot_read_it(lesson, own_settings, encoding):
    content = lesson.read_text(encoding="utf-8")
    lesson.write_bytes(content.encode(encoding))
    launched = Launched(lesson, own_settings[1])
    try:
        status, answer = launched.ask(f"api/contents/{quote(lesson.name)}")
        assert (status, json.loads(answer)["type"]) == (200, "notebook")
    finally:
        launched.end()
    assert json.loads(lesson.read_text(encoding="utf-8")) == json.loads(content)


def test_a_taken_port_is_said(lesson):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(NotebookError, match=f"port {port} is taken by another program"):
            launch(lesson, browser=False, port=port)


def test_a_port_of_ones_own(running):
    assert urlsplit(running.url).port == running.port


@pytest.mark.parametrize("port", [-1, 65536])
def test_a_port_that_is_none(lesson, port):
    with pytest.raises(NotebookError, match=f"there is no port {port}"):
        launch(lesson, browser=False, port=port)


@pytest.mark.thorough
def test_a_switched_off_token_is_refused(lesson, own_settings):
    folder, environment = own_settings
    settings = folder / "config" / "jupyter_server_config.py"
    settings.write_text("c.IdentityProvider.token = ''\n")
    launched = Launched(lesson, environment)
    errors = launched.process.communicate(timeout=60)[1]
    assert launched.line == ""
    assert "switch the server's token off" in errors
    assert settings.read_text() == "c.IdentityProvider.token = ''\n"


@pytest.mark.thorough
def test_a_jupyterlab_that_does_not_start_is_said(lesson, own_settings, tmp_path):
    broken = tmp_path / "broken"
    broken.mkdir()
    (broken / "jupyterlab.py").write_text("raise SystemExit('a broken JupyterLab')")
    path = os.pathsep.join([str(broken), os.environ.get("PYTHONPATH", "")])
    launched = Launched(lesson, own_settings[1] | {"PYTHONPATH": path})
    errors = launched.process.communicate(timeout=60)[1]
    assert "did not start. It said: a broken JupyterLab" in errors
    assert launched.process.returncode == 1


def test_a_missing_jupyterlab_is_said(lesson, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    with pytest.raises(NotebookError, match=r"JupyterLab is not installed .* -m pip install"):
        launch(lesson, browser=False)


def test_what_is_no_notebook_is_not_opened(tmp_path):
    with pytest.raises(NotebookError, match="no such file"):
        launch(tmp_path / "none.ipynb", browser=False)
    with pytest.raises(NotebookError, match="this is a folder"):
        launch(tmp_path, browser=False)
