"""Drafted cells are known again: untouched, edited, copied, or the teacher's own."""

import copy

import nbformat
import pytest

from chessnb.notebooks import (
    cell_id,
    cell_key,
    code_cell,
    drafted_cells,
    is_edited,
    markdown_cell,
    new_notebook,
    place,
    section_of,
)


def teacher_cell(source):
    return nbformat.from_dict(
        {"cell_type": "markdown", "id": "mine", "metadata": {}, "source": source}
    )


def test_a_lesson_of_these_cells_is_a_valid_notebook():
    notebook = new_notebook(
        [markdown_cell("title", "# The loose rook"), code_cell("fork", "1 + 1")], notes={"moves": 3}
    )
    nbformat.validate(notebook)
    assert notebook.metadata.chessnb == {"moves": 3}
    assert notebook.cells[1].metadata.jupyter == {"source_hidden": True}
    assert "jupyter" not in code_cell("fork", "1 + 1", collapsed=False).metadata


def test_the_same_key_gives_the_same_id_and_another_key_another():
    keys = ["after 14. Nd5", "after 14 Nd5", "After 14. Nd5", "", "馬", "馬馬", "a" * 90, "a" * 91]
    ids = [cell_id(key) for key in keys]
    assert ids == [cell_id(key) for key in keys]
    assert len(set(ids)) == len(keys)
    notebook = new_notebook([markdown_cell(key, "") for key in keys], notes={})
    nbformat.validate(notebook)  # the format allows letters, digits, "-" and "_", 1 to 64


def test_a_drafted_cell_is_edited_once_its_text_changes():
    cell = code_cell("fork", "lesson.after('14. Nd5')")
    assert cell_key(cell) == "fork"
    assert not is_edited(cell)
    cell["outputs"] = [{"output_type": "stream", "name": "stdout", "text": "run"}]
    cell["execution_count"] = 9
    assert not is_edited(cell)
    cell["source"] += "  # look here"
    assert is_edited(cell)


def test_a_teachers_cell_is_not_drafted():
    mine = teacher_cell("my own words")
    assert cell_key(mine) is None
    assert is_edited(mine)
    notebook = new_notebook([mine, markdown_cell("title", "# T")], notes={})
    assert list(drafted_cells(notebook)) == ["title"]


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_of_a_cell_and_its_copy_the_draft_is_the_one_with_its_id(order):
    original = markdown_cell("title", "# T")
    duplicate = copy.deepcopy(original)
    duplicate["id"] = "b71c"  # JupyterLab copies the metadata and gives a new id
    pair = [original, duplicate]
    notebook = new_notebook([pair[order[0]], pair[order[1]]], notes={})
    assert drafted_cells(notebook) == {"title": original}


def test_a_drafted_cell_whose_id_was_lost_is_still_known():
    moved = markdown_cell("title", "# T")
    moved["id"] = "b71c"
    assert drafted_cells(new_notebook([moved], notes={})) == {"title": moved}


@pytest.mark.parametrize("notes", [None, [], "x", {"cell": 3}])
def test_strange_notes_of_another_program_do_no_harm(notes):
    cell = teacher_cell("words")
    cell["metadata"] = {"chessnb": notes}
    assert cell_key(cell) is None


@pytest.mark.parametrize(
    ("source", "heading"),
    [
        ("## After 14. Nd5", "After 14. Nd5"),
        ("# Part\n\nwords\n\n### 14\\. Nd5 \\*wins\\* ##", "14. Nd5 *wins*"),
        ("no heading", "The game"),
        ("```\n# a comment in code\n```", "The game"),
        ("```python\n# a comment\n```\n## Real", "Real"),
        ("#1 is not a heading", "The game"),
        ("####### seven are too many", "The game"),
    ],
)
def test_the_section_of_a_cell(source, heading):
    cells = [markdown_cell("a", "# The game"), markdown_cell("b", source), code_cell("c", "# no")]
    assert section_of(cells, 2) == heading
    assert place(cells, 2) == f"cell 3 (section “{heading}”)"


def test_a_cell_above_all_headings_has_no_section():
    cells = [code_cell("c", "1"), markdown_cell("a", "# Later")]
    assert section_of(cells, 0) is None
    assert place(cells, 0) == "cell 1"
