"""A redraft beside cells of the teacher's that fail: the lesson stands, and each is named."""

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, new_notebook, read_notebook, write_notebook
from chessnb.notebooks.drafting import draft
from chessnb.notebooks.runner import run_through

GAME = '[Event "Club"]\n[Result "0-1"]\n\n1. f3 e5 2. g4 Qh4# 0-1\n'


@pytest.mark.thorough
def test_a_redraft_names_every_cell_that_fails_and_writes_the_lesson(tmp_path):
    (tmp_path / "game.pgn").write_text(GAME, encoding="utf-8")
    target = tmp_path / "lesson.ipynb"
    assert draft(tmp_path / "game.pgn", target).failures == ()
    lesson = read_notebook(target)
    lesson["cells"] += [
        code_cell("", "other = lesson.after('9. Qa1')"),
        code_cell("", "other.changes()"),
        code_cell("", "claims.mates(lesson.start, within=1)"),
        code_cell("", "'goes on'"),
    ]
    for number, cell in enumerate(lesson["cells"][-4:]):
        cell["metadata"] = {}
        cell["id"] = f"mine{number}"
    write_notebook(lesson, target)
    done = draft(tmp_path / "game.pgn", target, force=True)
    first, second = map(str, done.failures)
    assert "9. Qa1" in first
    assert "mate in 1" in second
    written = read_notebook(target)["cells"]
    assert [cell["source"] for cell in written[-4:]] == [
        "other = lesson.after('9. Qa1')", "other.changes()",
        "claims.mates(lesson.start, within=1)", "'goes on'",
    ]  # fmt: skip
    assert written[-1]["outputs"][0]["data"]["text/plain"] == "'goes on'"
    assert written[-2]["outputs"][-1]["output_type"] == "error"


def test_what_stops_the_kernel_still_stops_the_run(tmp_path):
    notebook = new_notebook([code_cell("one", "import os; os._exit(1)")], notes={})
    with pytest.raises(NotebookError, match="the kernel stopped"):
        run_through(notebook, folder=tmp_path)
