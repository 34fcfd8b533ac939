"""A lesson with questions passes the real nbval, and fails it where a stated answer is wrong."""

import json

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from chessnb.notebooks.verification import verify

PINNED = "4k3/8/2n5/1B6/8/8/8/4K3 b - - 0 9"
FREE = "4k3/8/2n5/2B5/8/8/8/4K3 b - - 0 9"


def lesson(path, fen):
    cells = [
        new_markdown_cell("# Pins"),
        new_code_cell(f"from chessnb import questions\n\nposition = {fen!r}"),
        new_code_cell("questions.pinned(position, right='c6')"),
        new_code_cell("questions.checks(position)"),
    ]
    notebook = new_notebook(
        cells=cells,
        metadata={"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
    )  # fmt: skip
    nbformat.write(notebook, path)
    return path


@pytest.mark.thorough
def test_a_question_whose_stated_answer_is_wrong_fails_its_lesson(tmp_path):
    path = lesson(tmp_path / "pins.ipynb", PINNED)
    verify([path], update=True)
    saved = path.read_text(encoding="utf-8")
    assert "9... | question | which piece is pinned | answers 1 | 1 points | rules" in saved
    assert "The bishop on b5 pins" not in json.dumps(
        [cell.get("outputs") for cell in json.loads(saved)["cells"]]
    )
    assert verify([path]).exit_code == 0

    path.write_text(saved.replace(PINNED, FREE), encoding="utf-8")
    report = verify([path])
    assert report.exit_code == 1
    told = "\n".join(report.lines())
    assert "the knight on c6 is not one: no line of an enemy piece through it" in told
