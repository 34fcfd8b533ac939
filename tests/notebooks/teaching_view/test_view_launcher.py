"""What the teaching view refuses, each in a sentence that says what to do."""

import importlib.util
import socket

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, new_notebook, write_notebook
from chessnb.notebooks.teaching_view import teach
from chessnb.notebooks.teaching_view.view_launcher import port_of


@pytest.fixture
def lesson(tmp_path):
    path = tmp_path / "lesson.ipynb"
    write_notebook(new_notebook([code_cell("c", "1 + 1")], notes={}), path)
    return path


def test_a_notebook_that_is_no_lesson(lesson):
    content = new_notebook([code_cell("c", "import math")], notes={})
    del content.metadata["chessnb"]
    write_notebook(content, lesson)
    with pytest.raises(NotebookError, match=r"is no lesson: .* with “chessnb draft GAME\.pgn”"):
        teach(lesson, browser=False)


def test_no_notebook_at_all(tmp_path):
    with pytest.raises(NotebookError, match="no such file"):
        teach(tmp_path / "none.ipynb", browser=False)
    with pytest.raises(NotebookError, match="this is a folder"):
        teach(tmp_path, browser=False)


def test_a_taken_port(lesson):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(NotebookError, match=f"port {port} is taken by another program"):
            teach(lesson, browser=False, port=port)


def test_a_missing_library(lesson, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    with pytest.raises(NotebookError, match=r"voila, .* is not installed .* -m pip install"):
        teach(lesson, browser=False)


def test_a_lesson_has_the_same_port_every_time_as_long_as_it_is_free(lesson):
    port = port_of(lesson)
    assert port is not None
    assert port == port_of(lesson)
    assert port_of(lesson.with_name("another.ipynb")) not in (port, None)
    with socket.create_server(("127.0.0.1", port)):
        assert port_of(lesson) is None
    assert port_of(lesson) == port
