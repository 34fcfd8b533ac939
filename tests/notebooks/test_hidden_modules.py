"""A file beside a lesson that hides a module is named before anything is run."""

import subprocess
import sys

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, new_notebook, read_notebook, run_notebook, write_notebook
from chessnb.notebooks.drafting import draft
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.launcher import launch
from chessnb.notebooks.verification import verify

HIDING = {
    "chess.py": "chess.py beside the lesson hides the module “chess”",
    "random.py": "random.py beside the lesson hides the module “random”",
    "chessnb/__init__.py": "the folder chessnb beside the lesson hides the module “chessnb”",
    "traitlets/__init__.py": "the folder traitlets beside the lesson hides",
}


@pytest.mark.thorough
@pytest.mark.parametrize("name", HIDING)
def test_what_hides_a_module_is_named_by_all_that_run_a_lesson(name, tmp_path):
    lesson = tmp_path / "lesson.ipynb"
    write_notebook(
        run_notebook(new_notebook([code_cell("c", "1")], notes={}), folder=tmp_path), lesson
    )
    (tmp_path / "game.pgn").write_text("1. f3 e5 2. g4 Qh4# 0-1")
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_text("")
    said = f"{HIDING[name]}.*Give it another name"
    with pytest.raises(NotebookError, match=said):
        run_notebook(read_notebook(lesson), folder=tmp_path)
    with pytest.raises(NotebookError, match=said):
        draft(tmp_path / "game.pgn", tmp_path / "new.ipynb")
    with pytest.raises(NotebookError, match=said):
        launch(lesson, browser=False)
    for update in (False, True):
        report = verify([lesson], update=update)
        assert report.exit_code == 2
        assert HIDING[name] in " ".join(report.lines())


@pytest.mark.parametrize(
    "name", ["fork.py", "turtle.py", "nbval.py", "pytest.py", "chess", "chess.txt", "random.ipynb"]
)
def test_what_a_lesson_does_not_need_may_have_any_name(name, tmp_path):
    if "." in name:
        (tmp_path / name).write_text("")
    else:
        (tmp_path / name).mkdir()  # a folder alone hides no module
    check_hiding(tmp_path, shown="lesson.ipynb")


def test_the_folder_of_the_package_itself_may_hold_lessons():
    from pathlib import Path

    import chessnb

    check_hiding(Path(chessnb.__file__).parents[1], shown="lesson.ipynb")


def test_where_nobody_looked_before_the_package_says_it(tmp_path):
    (tmp_path / "chess.py").write_text("PIECES = 32")
    done = subprocess.run(
        [sys.executable, "-c", "import chessnb"], cwd=tmp_path, capture_output=True, text=True
    )
    last = done.stderr.splitlines()[-1]
    assert "chess.py hides the module “chess”, which chessnb needs" in last
