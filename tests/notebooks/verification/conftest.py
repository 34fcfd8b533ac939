"""Lessons to check: the small ones in tests/lessons, and others made on the spot."""

import shutil
from pathlib import Path

import pytest

from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook

LESSONS = Path(__file__).parents[2] / "lessons"


@pytest.fixture
def lesson_file(tmp_path):
    """Copy one of the small lessons to a folder of its own."""

    def copied(name, to="lesson.ipynb"):
        target = tmp_path / to
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(LESSONS / f"{name}.ipynb", target)
        return target

    return copied


@pytest.fixture
def made_lesson(tmp_path):
    """Write a lesson of (source, saved text or None) pairs, as if it had been run and saved."""

    def made(*cells, name="lesson.ipynb"):
        notebook = new_notebook(
            [markdown_cell("title", "# Made"), *(code_cell(source, source) for source, _ in cells)],
            notes={},
        )
        for number, (cell, (_, text)) in enumerate(
            zip(notebook["cells"][1:], cells, strict=True), start=1
        ):
            cell["execution_count"] = number
            if text is not None:
                cell["outputs"] = [
                    {
                        "output_type": "execute_result",
                        "execution_count": number,
                        "data": {"text/plain": text},
                        "metadata": {},
                    }
                ]
        path = tmp_path / name
        write_notebook(notebook, path)
        return path

    return made
