"""The student edition holds no claim, no answer, and nothing that they found."""

import json

import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook
from chessnb.notebooks.student_edition import student_edition, without_answers


def output(text):
    return {
        "output_type": "execute_result",
        "execution_count": 1,
        "metadata": {},
        "data": {"text/plain": text, "text/html": f"<p>{text}</p>"},
    }


def lesson():
    def run(cell, text):
        cell["outputs"] = [output(text)]
        cell["execution_count"] = 1
        return cell

    answer = markdown_cell("mine", "The secret is 14. Nd5.")
    answer["metadata"]["tags"] = ["answer"]
    return new_notebook(
        [
            markdown_cell("title", "# A lesson"),
            run(code_cell("board", "lesson.after('13. Re1')"), "after 13. Re1"),
            markdown_cell(
                "stop 13. Re1",
                "## After 13. Re1\n\n**13. Re1**\n\n*Why stop here: White mates in 3 by force.*",
            ),
            run(code_cell("claim", "claims.mates(m, within=3, move='Nd5')"), "SECRET claim"),
            run(code_cell("replies", "reply_table(m)"), "SECRET table"),
            run(code_cell("opinion", "claims.judgement('SECRET')"), "SECRET opinion"),
            answer,
            markdown_cell("recap", "## Recap\n\n- SECRET"),
            markdown_cell("more", "Black thinks."),
        ],
        notes={"cells": ["claim SECRET"]},
    )


def test_nothing_of_the_answers_is_left():
    edition = without_answers(lesson())
    text = json.dumps(edition)
    assert "SECRET" not in text
    assert "secret" not in text
    assert "mates in 3" not in text
    assert [cell["source"] for cell in edition["cells"] if cell["cell_type"] == "markdown"] == [
        "# A lesson",
        "## After 13. Re1\n\n**13. Re1**",
        "Black thinks.",
    ]


def test_what_is_left_keeps_its_outputs_and_the_lesson_is_not_changed():
    whole = lesson()
    before = json.dumps(whole)
    edition = without_answers(whole)
    assert edition["cells"][1]["outputs"]
    assert json.dumps(whole) == before


def test_it_is_written_beside_the_lesson_and_replaced(tmp_path):
    path = tmp_path / "l.ipynb"
    write_notebook(lesson(), path)
    done = student_edition(path, tmp_path / "l-student.ipynb")
    assert (done.kept, done.removed) == (4, 5)
    assert student_edition(path, tmp_path / "l-student.ipynb") == done


def test_no_lesson_is_overwritten_and_no_other_folder_written(tmp_path):
    path = tmp_path / "l.ipynb"
    write_notebook(lesson(), path)
    (tmp_path / "other").mkdir()
    for target, words in (
        (path, "no student edition"),
        (tmp_path / "other" / "l.ipynb", "beside its lesson"),
        (tmp_path / "l.txt", "ends in .ipynb"),
    ):
        with pytest.raises(NotebookError, match=words):
            student_edition(path, target)


def test_a_page_keeps_its_board_and_its_question_without_what_it_finds():
    page = code_cell(
        "page 14. Nd5",
        "with page(lesson.before('14. Nd5'), ask='find the move') as m:\n"
        "    claims.mates(m, within=3, move='SECRET')",
    )
    page["outputs"] = [output("SECRET")]
    edition = without_answers(new_notebook([page], notes={}))
    assert [cell["source"] for cell in edition["cells"]] == [
        "with page(lesson.before('14. Nd5'), ask='find the move') as m:\n    pass"
    ]
    assert "SECRET" not in json.dumps(edition)
