"""A real lesson on paper, from its notebook to the PDF."""

import hashlib
import io
import re
import shutil
from pathlib import Path

import pypdf
import pytest
from searching import secrets_of

from chessnb import Lesson
from chessnb.errors import InputError, NotebookError
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, read_notebook, write_notebook
from chessnb.notebooks.student_edition import student_edition
from chessnb.publishing import Paper, lesson_copy, page_copied, print_copy, print_lesson

DEMO = Path(__file__).parents[2] / "notebooks"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("lessons")
    shutil.copytree(DEMO / "games", place / "games")
    shutil.copy(DEMO / "lantern-street.ipynb", place)
    return place


@pytest.fixture(scope="module")
def lesson(folder):
    return folder / "lantern-street.ipynb"


@pytest.fixture(scope="module")
def copy(lesson):
    return lesson_copy(lesson)


def text_of(path):
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(path).pages)


def prints(folder):
    return {
        path: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.mark.thorough
def test_the_sheet_asks_and_names_no_move(lesson, folder):
    before = prints(folder)
    done = print_lesson(lesson, folder / "sheet.pdf", paper=Paper(letters="english"))
    assert done.in_words == "the student's sheet, 2 pages, 6 positions to solve."
    text = text_of(done.path)
    assert "White to move. What would you play?" in text
    assert "Part 2" in text
    for secret in secrets_of(Lesson.read(DEMO / "games" / "lantern-street.pgn"), []):
        assert not secret.in_text(text), secret
    after = prints(folder)
    del after[done.path]
    assert after == before, "printing changes nothing beside the lesson"


def test_no_word_for_those_who_do_not_see_a_diagram_tells_its_answer(copy, folder):
    """The diagrams' descriptions are in the PDF too, as text for screen readers."""
    done = print_copy(copy, folder / "spoken.pdf")
    spoken = alternatives(done.path)
    assert len(spoken) == done.questions
    assert all(text.startswith(("White to move.", "Black to move.")) for text in spoken)
    # That White's knight came to d6 is the answer of another position.
    assert not any("Last move: knight from b5 to d6" in text for text in spoken)


def alternatives(path):
    """The texts for screen readers: the entries /Alt of the structure tree."""
    reader = pypdf.PdfReader(io.BytesIO(path.read_bytes()))
    found, waiting, seen = [], [reader.trailer["/Root"]["/StructTreeRoot"]], set()
    while waiting:
        one = waiting.pop(0)
        one = one.get_object() if hasattr(one, "get_object") else one
        if id(one) in seen:
            continue
        seen.add(id(one))
        if isinstance(one, list):
            waiting += one
        elif isinstance(one, dict):
            if "/Alt" in one:
                found.append(str(one["/Alt"]))
            if "/K" in one:
                waiting.append(one["/K"])
    return found


def test_the_key_tells_everything_with_its_plan(copy, folder):
    done = print_copy(copy, folder / "key.pdf", key=True, paper=Paper(letters="german"))
    text = re.sub(r"\s+", " ", text_of(done.path))
    assert "The plan: 45 minutes" in text
    assert "20... Sf3+!!" in text
    assert "Black mates in 6" in text
    assert "not 20. Sxd6??, which was played" in text
    assert done.in_words.startswith("the teacher's key, ")


def test_what_cannot_be_printed_is_said_and_nothing_is_written(lesson, folder, tmp_path):
    target = tmp_path / "out.pdf"
    with pytest.raises(NotebookError, match="there is no folder"):
        print_lesson(lesson, tmp_path / "none" / "out.pdf")
    with pytest.raises(NotebookError, match="a name that ends in"):
        print_lesson(lesson, lesson)
    with pytest.raises(NotebookError, match="a name that ends in"):
        print_lesson(lesson, tmp_path / "game.pgn")  # a game is not written over
    with pytest.raises(NotebookError, match="this is a folder"):
        print_lesson(lesson, tmp_path)
    with pytest.raises(InputError, match="a4 or letter"):
        Paper(size="a3")
    with pytest.raises(InputError, match="1 column or 2"):
        Paper(columns=3)
    assert not target.exists()


@pytest.mark.thorough
def test_a_student_edition_is_not_printed(lesson, tmp_path):
    student = student_edition(lesson, tmp_path / "student")
    with pytest.raises(NotebookError, match="this is a student edition"):
        print_lesson(student.path, tmp_path / "out.pdf")
    assert not (tmp_path / "out.pdf").exists()


def lesson_with(folder, *sources):
    cells = [markdown_cell("title", "# Ours")]
    cells += [code_cell(f"cell {n}", source) for n, source in enumerate(sources)]
    path = folder / "ours.ipynb"
    write_notebook(new_notebook(cells, notes={"cells": []}), path)
    return path


READ = "from chessnb import Lesson, claims, facts, page\nlesson = Lesson.from_text('1. f3 e5 2. g4 Qh4# *')"


def test_a_lesson_that_does_not_hold_is_not_printed(tmp_path):
    path = lesson_with(tmp_path, READ, "claims.mates(lesson.before('1... e5'), within=1)")
    with pytest.raises(NotebookError, match="cell 3"):
        print_lesson(path, tmp_path / "out.pdf", key=True)
    assert not (tmp_path / "out.pdf").exists()


def test_a_lesson_that_asks_nothing_has_a_key_and_no_sheet(tmp_path):
    path = lesson_with(tmp_path, READ, "facts.material(lesson.end)")
    nothing_asked = lesson_copy(path)
    with pytest.raises(NotebookError, match="asked nothing"):
        print_copy(nothing_asked, tmp_path / "out.pdf")
    done = print_copy(nothing_asked, tmp_path / "key.pdf", key=True)
    assert "material: level" in text_of(done.path)
    assert "The plan" not in text_of(done.path)


@pytest.mark.thorough
def test_what_only_the_teacher_sees_is_in_the_key_alone(tmp_path):
    ask = "with page(lesson.before('2... Qh4#'), ask='find the move') as m:\n    claims.mates(m, within=1)"
    path = lesson_with(
        tmp_path, READ, ask, ask.replace("2... Qh4#", "1... e5").split("\n")[0] + "\n    pass"
    )
    notebook = read_notebook(path)
    notebook["cells"][-1]["metadata"]["tags"] = ["teacher"]
    secret = markdown_cell("mine", "## My own SECRET")
    secret["metadata"]["tags"] = ["answer"]
    notebook["cells"].append(secret)
    write_notebook(notebook, path)
    copy = lesson_copy(path, recorded=True)
    assert len(copy.parts) == 4
    assert len(copy.shared) == 2
    sheet = print_copy(copy, tmp_path / "sheet.pdf")
    assert sheet.questions == 1
    assert "SECRET" not in text_of(sheet.path)
    key = text_of(print_copy(copy, tmp_path / "key.pdf", key=True).path)
    assert "SECRET" in key
    assert page_copied(copy, tmp_path / "page.html").steps == 1


def test_a_copy_has_the_title_page_without_what_gives_a_move_away(copy):
    assert copy.title == "The loose rook"
    assert copy.minutes == 45
    assert len(copy.pages) == 12
    assert copy.is_told_by("the quiet 24... Rg1")
    assert not copy.is_told_by("\n".join(copy.opening))
