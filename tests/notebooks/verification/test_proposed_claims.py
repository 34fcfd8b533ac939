"""Claims are put into the page of their section; nothing else in the lesson changes."""

import json

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, notebook_bytes, write_notebook
from chessnb.notebooks.verification import Complaint, verify
from chessnb.notebooks.verification.proposed_claims import with_claims

READ = """from chessnb import Lesson, claims, facts, page

lesson = Lesson.from_text('1. e4 e5 2. Nf3 Nc6 3. Bb5 d6 4. d4')"""
PAGE = "with page(lesson.after('3... d6')) as m:\n    facts.material(m)"
CLAIM = "claims.pinned(lesson.after('3... d6'), 'c6')"


def lesson(*cells):
    return new_notebook([code_cell("reading", READ), *cells], notes={})


def note(cell, code=CLAIM):
    return Complaint(kind="unproved", message="…", cell=cell, code=code)


def test_a_claim_goes_to_the_end_of_the_page_of_its_section():
    book = lesson(markdown_cell("t", "## Pin\n\nThe knight is pinned."), code_cell("p", PAGE))
    made, told = with_claims(book, [note(2)])
    assert made["cells"][2]["source"] == f"{PAGE}\n    {CLAIM}"
    assert [(one.kind, one.cell, one.message) for one in told] == [
        ("put-in", 3, f"put in: {CLAIM}")
    ]
    assert made["cells"][:2] == book["cells"][:2]
    assert book["cells"][2]["source"] == PAGE


def test_where_there_is_no_page_it_gets_a_cell_of_its_own_behind_the_sentence():
    book = lesson(
        markdown_cell("t", "## Pin\n\nThe knight is pinned."), markdown_cell("u", "## On")
    )
    made, told = with_claims(book, [note(2)])
    assert [cell["source"] for cell in made["cells"]][2] == CLAIM
    assert "chessnb" not in made["cells"][2]["metadata"]  # the teacher's own: no redraft removes it
    assert [one.cell for one in told] == [3]
    notebook_bytes(made)  # a notebook that Jupyter can open


@pytest.mark.parametrize(
    ("notes", "put_in"),
    [
        ([note(2), note(2)], 1),
        ([note(2, f"{CLAIM}\nclaims.attacked(\n    lesson.after('3... d6'), 'c6')")], 2),
        ([note(2, "motifs.tag(lesson.after('3... d6'))")], 0),  # the lesson does not import it
        ([note(2, "")], 0),
    ],
)
def test_each_claim_is_put_in_once_and_only_what_can_run(notes, put_in):
    book = lesson(markdown_cell("t", "## Pin\n\nThe knight is pinned."), code_cell("p", PAGE))
    made, told = with_claims(book, notes)
    assert len(told) == put_in
    again, more = with_claims(made, notes)
    assert again == made
    assert not more


def test_update_and_propose_are_two_steps(tmp_path):
    with pytest.raises(NotebookError, match="first update"):
        verify([tmp_path / "a.ipynb"], update=True, propose=True)


@pytest.mark.thorough
def test_a_lesson_is_proposed_for_run_saved_and_then_left_alone(tmp_path):
    path = tmp_path / "lesson.ipynb"
    words = markdown_cell(
        "t", "## Pin\n\nThe knight on c6 is pinned. The bishop is a *fine* piece."
    )
    write_notebook(lesson(words, code_cell("p", PAGE), markdown_cell("u", "## On\n\nSo.")), path)
    verify([path], update=True)
    before = json.loads(path.read_text())
    report = verify([path], propose=True).lessons[0]
    assert (report.exit_code, len(report.changes), report.notes) == (0, 1, ())
    after = json.loads(path.read_text())
    assert "1 claim put in" in report.summary
    changed = [
        index
        for index, (old, new) in enumerate(zip(before["cells"], after["cells"], strict=True))
        if old != new
    ]
    assert changed == [2]
    assert before["metadata"] == after["metadata"]
    whole = path.read_bytes()
    report = verify([path], propose=True).lessons[0]
    assert (report.exit_code, report.changes, report.notes) == (0, (), ())
    assert path.read_bytes() == whole
