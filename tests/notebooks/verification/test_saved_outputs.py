"""What a lesson's file must hold before anything can be compared."""

import pytest

from chessnb.notebooks import code_cell, markdown_cell, new_notebook
from chessnb.notebooks.verification.saved_outputs import check_saved

OUTPUT = {"output_type": "stream", "name": "stdout", "text": "x"}


def cell(source, count, outputs=()):
    made = code_cell(source, source)
    made["execution_count"], made["outputs"] = count, list(outputs)
    return made


def kinds(*cells):
    notebook = new_notebook([markdown_cell("t", "# T"), *cells], notes={})
    return [(complaint.kind, complaint.cell) for complaint in check_saved(notebook)]


def test_a_lesson_that_was_run():
    assert kinds(cell("print('x')", 1, [OUTPUT]), cell("y = 1", 2)) == []


@pytest.mark.parametrize("source", ["", "  \n", "# only a remark", "'''a text'''[:0] if 0 else 0"])
def test_no_outputs_at_all(source):
    assert kinds(cell(source, None), cell("y = 1", 1)) == [("nothing-saved", None)]


def test_no_code_at_all():
    assert kinds() == [("nothing-saved", None)]
    assert kinds(cell("# a remark", None)) == [("nothing-saved", None)]


@pytest.mark.parametrize(
    ("source", "complains"),
    [
        ("y = 1", True),
        ("%time 1", True),
        ("!ls", True),
        ("(", True),
        ("# remark", False),
        ("", False),
    ],
)
def test_a_cell_that_was_not_run(source, complains):
    found = kinds(cell("print('x')", 1, [OUTPUT]), cell(source, None))
    assert found == ([("not-run", 3)] if complains else [])


def test_outputs_without_a_run_are_not_trusted():
    assert kinds(cell("print('x')", None, [OUTPUT])) == [("not-run", 2)]
