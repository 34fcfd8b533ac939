"""A student edition: a folder that holds nothing that can be read before it is asked for."""

import json
from pathlib import Path

import pytest
from nbclient import NotebookClient
from searching import found_in, secrets_of, way_to

from chessnb import Lesson
from chessnb.errors import NotebookError
from chessnb.notebooks import (
    code_cell,
    markdown_cell,
    new_notebook,
    read_notebook,
    write_notebook,
)
from chessnb.notebooks.student_edition import student_edition
from chessnb.teaching.sealed_lesson import read_sealed

DEMO = Path(__file__).parents[2] / "notebooks"
GAME = (
    '[Event "Club"]\n\n1. e4 e5 2. Nf3 Nc6 {Developing.} (2... Qe7 {The Snail} 3. Nc3) 3. Bc4 *\n'
)
READ = "from chessnb import Lesson, facts, page\nlesson = Lesson.read('secret-fork.pgn')"
ASK = (
    "with page(lesson.before('2... Nc6'), ask='find the move') as m:\n    m.after('Nc6').changes()"
)


def tagged(cell, tag):
    cell["metadata"]["tags"] = [tag]
    return cell


def cells():
    return [
        markdown_cell("title", "# A lesson"),
        markdown_cell("introduction", "Watch the pawns.\n\nBlack will play Nc6.\n\nThen stop."),
        markdown_cell("how to use", "*Run `chessnb verify` on it.*"),
        code_cell("lesson", READ),
        markdown_cell("stop", "## Black's 2nd move"),
        code_cell("page", ASK),
        markdown_cell("mine", "## The knight came to c6"),
        code_cell("finding", "facts.material(lesson.end)"),
        tagged(markdown_cell("hint", "The secret is Bc4."), "answer"),
        markdown_cell("recap", "## What to remember"),
    ]


@pytest.fixture
def lesson(tmp_path):
    folder = tmp_path / "lesson"
    folder.mkdir()
    (folder / "secret-fork.pgn").write_text(GAME, encoding="utf-8")
    write_notebook(new_notebook(cells(), notes={"cells": []}), folder / "l.ipynb")
    return folder / "l.ipynb"


def sources(path):
    return [str(cell["source"]) for cell in read_notebook(path)["cells"]]


def test_the_notebook_is_a_title_page_and_a_cell_a_step(lesson):
    done = student_edition(lesson, lesson.parent / "given")
    assert sorted(path.name for path in done.folder.iterdir()) == ["l.ipynb", "l.sealed"]
    title, introduction, how, *code = sources(done.path)
    assert title == "# A lesson"
    assert introduction == "Watch the pawns.\n\nThen stop."
    assert "next step opens by itself" in how
    assert code == [
        "from chessnb import student_lesson\n\nlesson = student_lesson('l.sealed')",
        "lesson.step(1)",
        "lesson.step(2)",
    ]
    assert done.in_words == (
        "2 steps, each sealed until it is asked for; 1 cell marked as answers left out."
    )


def test_words_that_tell_wait_for_the_first_step_and_answers_are_left_out(lesson):
    sealed = read_sealed(student_edition(lesson, lesson.parent / "given").folder / "l.sealed")
    first, second = sealed.steps
    assert [cell.source for cell in first.cells] == [
        "Black will play Nc6.",
        "## Black's 2nd move",
        ASK,
    ]
    assert [cell.source for cell in second.cells] == [
        "## The knight came to c6",
        "facts.material(lesson.end)",
        "## What to remember",
    ]
    assert [cell.source for cell in sealed.first.cells] == [READ]
    assert sealed.files["secret-fork.pgn"].games == GAME


def test_no_name_of_a_file_sideline_or_heading_can_be_read(lesson):
    done = student_edition(lesson, lesson.parent / "given")
    for path in done.folder.iterdir():
        text = path.read_text(encoding="utf-8").casefold()
        for word in ("secret", "snail", "2nd move", "remember", "claims", "developing"):
            assert word not in text


def test_it_is_replaced_and_nothing_else_is(lesson, tmp_path):
    done = student_edition(lesson, tmp_path / "given")
    assert student_edition(lesson, tmp_path / "given") == done
    (tmp_path / "mixed").mkdir()
    (tmp_path / "mixed" / "l.sealed").write_text("a letter", encoding="utf-8")
    for source, target, words in (
        (lesson, lesson.parent, "no student edition"),
        (lesson, tmp_path / "mixed", "no sealed lesson"),
        (lesson, tmp_path / "l-student.ipynb", "folder of its own"),
        (lesson, tmp_path / "no" / "such", "cannot be made"),
        (done.path, tmp_path / "again", "name the lesson itself"),
    ):
        before = lesson.read_bytes()
        with pytest.raises(NotebookError, match=words):
            student_edition(source, target)
        assert lesson.read_bytes() == before
    assert (tmp_path / "mixed" / "l.sealed").read_text(encoding="utf-8") == "a letter"


# -- the demo ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "given"
    return student_edition(DEMO / "lantern-street.ipynb", folder)


@pytest.fixture(scope="module")
def game():
    return Lesson.read(DEMO / "games" / "lantern-street.pgn")


def test_thirty_moves_can_be_found_in_the_lesson_and_in_no_file_of_the_edition(demo, game):
    secrets = secrets_of(game, way_to(game.before("8. Nd5")))
    assert len(secrets) >= 30
    readable = (DEMO / "games" / "lantern-street.pgn").read_bytes()
    assert len(found_in(readable, secrets)) == len(secrets)  # the search does find
    for path in demo.folder.iterdir():
        assert found_in(path.read_bytes(), secrets) == set()
        assert found_in(path.name.encode(), secrets) == set()


@pytest.mark.thorough
def test_it_runs_alone_and_the_kernel_gives_only_what_was_asked_for(demo, game, tmp_path):
    alone = tmp_path / "alone"
    alone.mkdir()
    for path in demo.folder.iterdir():
        (alone / path.name).write_bytes(path.read_bytes())
    notebook = read_notebook(alone / "lantern-street.ipynb")
    client = NotebookClient(notebook, timeout=120, resources={"metadata": {"path": str(alone)}})
    client.execute()
    secrets = secrets_of(game, way_to(game.before("8. Nd5")))
    held = {"notebook": notebook, "state": client.widget_state}
    assert len(secrets) >= 30
    assert client.widget_state
    for name, value in held.items():
        # The bundles of JavaScript and the drawings of boards name squares, not moves.
        assert found_in(json.dumps(value, default=dict).encode(), secrets) == set(), name
    shown = ["\n".join(map(str, cell.get("outputs", ()))) for cell in notebook["cells"]]
    assert sum("question before it has been answered" in one for one in shown) == 10
    assert "Find the move" in shown[5]
    assert sorted(path.name for path in alone.iterdir()) == [
        "lantern-street.ipynb",
        "lantern-street.sealed",
    ]
