"""Running a lesson: a fresh kernel of this Python, and errors that name the cell."""

import json
import os
import re
import signal
import subprocess
import sys
import time

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import (
    code_cell,
    markdown_cell,
    new_notebook,
    notebook_bytes,
    run_notebook,
    write_notebook,
)


def a_lesson(*sources, tags=()):
    cells = [code_cell(f"code {number}", source) for number, source in enumerate(sources)]
    for cell in cells:
        cell["metadata"]["tags"] = list(tags)
    return new_notebook([markdown_cell("title", "## The loose rook"), *cells], notes={})


def lines(notebook):
    """The text of every output, in order."""
    return [
        output.get("text") or output["data"]["text/plain"]
        for cell in notebook["cells"]
        for output in cell.get("outputs", ())
    ]


@pytest.mark.thorough
def test_a_lesson_is_run_by_this_python_in_its_folder_and_again_gives_the_same(tmp_path, capfd):
    (tmp_path / "game.pgn").write_text("1. e4")
    lesson = a_lesson(
        "import sys; sys.executable", "open('game.pgn').read()", "print('one')\nprint('two')"
    )
    before = json.dumps(lesson)
    told = []
    run = run_notebook(
        lesson, folder=tmp_path, on_cell=lambda number, count: told.append((number, count))
    )
    assert lines(run) == [repr(sys.executable), "'1. e4'", "one\ntwo\n"]
    assert [cell["execution_count"] for cell in run["cells"][1:]] == [1, 2, 3]
    assert json.dumps(lesson) == before
    assert told == [(1, 4), (2, 4), (3, 4), (4, 4)]
    assert notebook_bytes(run_notebook(run, folder=tmp_path)) == notebook_bytes(run)
    assert capfd.readouterr() == ("", "")  # no debugger's warnings, no log
    assert [entry.name for entry in tmp_path.iterdir()] == ["game.pgn"]


def test_another_python_under_the_name_of_the_kernel_is_not_used(tmp_path, monkeypatch):
    spec = tmp_path / "kernels" / "python3"
    spec.mkdir(parents=True)
    (spec / "kernel.json").write_text(
        json.dumps({"argv": ["/bin/false"], "display_name": "Other", "language": "python"})
    )
    monkeypatch.setenv("JUPYTER_PATH", str(tmp_path))
    assert lines(run_notebook(a_lesson("1 + 1"), folder=tmp_path)) == ["2"]


def test_the_teachers_own_startup_files_stay_out(tmp_path, monkeypatch):
    startup = tmp_path / "ipython" / "profile_default" / "startup"
    startup.mkdir(parents=True)
    (startup / "00.py").write_text("mine = 1; print('hello')")
    monkeypatch.setenv("IPYTHONDIR", str(tmp_path / "ipython"))
    assert lines(run_notebook(a_lesson("'mine' in globals()"), folder=tmp_path)) == ["False"]


def test_a_live_board_leaves_only_its_still_side(tmp_path):
    source = (
        "import ipywidgets\n"
        "class Board(ipywidgets.IntSlider):\n"
        "    def __repr__(self):\n"
        "        return 'after 14. Nd5'\n"
        "Board()"
    )
    run = run_notebook(a_lesson(source), folder=tmp_path)
    assert lines(run) == ["after 14. Nd5"]
    text = notebook_bytes(run).decode()
    assert "widget" not in text.replace("ipywidgets", "")
    assert not re.search(r"\d{4}-\d\d-\d\d", text)  # no date, no time
    assert f"{sys.version_info.major}.{sys.version_info.minor}." not in text


@pytest.mark.thorough
def test_an_error_names_the_cell_its_section_and_its_sentence(tmp_path):
    lesson = a_lesson("import chess", "chess.Board().push_san('Nd5')", "1 + 1")
    with pytest.raises(NotebookError) as caught:
        run_notebook(lesson, folder=tmp_path, name="fork.ipynb")
    assert str(caught.value) == (
        "fork.ipynb: cell 3 (section “The loose rook”): IllegalMoveError: illegal san: 'Nd5' "
        "in rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
    )


def test_an_error_shown_on_purpose_is_kept_as_its_sentence(tmp_path):
    lesson = a_lesson("raise ValueError('no such square')", tags=["raises-exception"])
    run = run_notebook(lesson, folder=tmp_path)
    assert run["cells"][1]["outputs"][0]["traceback"] == ["ValueError: no such square"]


def test_a_cell_tagged_to_be_skipped_is_run(tmp_path):
    lesson = a_lesson("1 + 1", tags=["skip-execution"])
    assert lines(run_notebook(lesson, folder=tmp_path)) == ["2"]


def test_old_outputs_do_not_survive_a_run(tmp_path):
    lesson = a_lesson("", "None")
    for cell in lesson["cells"][1:]:
        cell["outputs"] = [{"output_type": "stream", "name": "stdout", "text": "stale"}]
        cell["execution_count"] = 7
    run = run_notebook(lesson, folder=tmp_path)
    assert lines(run) == []
    assert [cell["execution_count"] for cell in run["cells"][1:]] == [None, 1]


@pytest.mark.parametrize("how", ["SIGKILL", "SIGTERM"])
def test_a_kernel_that_is_ended_is_said_with_its_cell(tmp_path, how):
    lesson = a_lesson("1 + 1", f"import os, signal; os.kill(os.getpid(), signal.{how})")
    with pytest.raises(NotebookError) as caught:
        run_notebook(lesson, folder=tmp_path)
    assert "cell 3 (section “The loose rook”): the kernel stopped" in str(caught.value)


def test_a_cell_that_does_not_end_is_said(tmp_path):
    with pytest.raises(NotebookError, match=r"cell 2 .*not ready after 1 seconds"):
        run_notebook(a_lesson("while True: pass"), folder=tmp_path, seconds_a_cell=1)


@pytest.mark.thorough
def test_a_kernel_that_cannot_start_is_said(tmp_path, monkeypatch, capfd):
    (tmp_path / "ipykernel_launcher.py").write_text("raise SystemExit(3)")
    monkeypatch.setenv(
        "PYTHONPATH", os.pathsep.join([str(tmp_path), os.environ.get("PYTHONPATH", "")])
    )
    with pytest.raises(NotebookError, match="no kernel could be started"):
        run_notebook(a_lesson("1"), folder=tmp_path)
    assert capfd.readouterr() == ("", "")


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(NotebookError, match="there is no folder"):
        run_notebook(a_lesson("1"), folder=tmp_path / "nowhere")


@pytest.mark.thorough
def test_it_runs_inside_a_running_notebook_too(tmp_path):
    inner = (
        "from chessnb.notebooks import *\n"
        "inner = new_notebook([code_cell('x', '6 * 7')], notes={})\n"
        "run_notebook(inner, folder='.')['cells'][0]['outputs'][0]['data']['text/plain']"
    )
    assert lines(run_notebook(a_lesson(inner), folder=tmp_path)) == ["'42'"]


INTERRUPTED = """
import sys
from chessnb.notebooks import read_notebook, run_notebook
try:
    run_notebook(read_notebook(sys.argv[1]), folder=sys.argv[2])
except KeyboardInterrupt:
    print("interrupted")
"""


@pytest.mark.thorough
def test_ctrl_c_ends_the_run_and_its_kernel(tmp_path):
    source = "import os, time; open('pid', 'w').write(str(os.getpid())); time.sleep(60)"
    path = tmp_path / "lesson.ipynb"
    write_notebook(a_lesson(source), path)
    runner = subprocess.Popen(
        [sys.executable, "-c", INTERRUPTED, path, tmp_path], stdout=subprocess.PIPE, text=True
    )
    written = tmp_path / "pid"
    while not (written.exists() and written.read_text()):
        assert runner.poll() is None
        time.sleep(0.1)
    runner.send_signal(signal.SIGINT)
    assert runner.communicate(timeout=120)[0] == "interrupted\n"
    for _ in range(100):
        if not os.path.exists(f"/proc/{written.read_text()}"):
            break
        time.sleep(0.1)
    else:
        pytest.fail("the kernel still runs")
