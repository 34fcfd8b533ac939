"""A student's way through a sealed lesson in JupyterLab, and what the page holds meanwhile."""

from functools import partial
from pathlib import Path

import pytest
from browser.lab import Lab, eventually
from playwright.sync_api import Locator, expect
from searching import found_in, secrets_of, way_to

from chessnb import Lesson
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook
from chessnb.notebooks.student_edition import student_edition

DEMO = Path(__file__).parents[2] / "notebooks"
GAME = """\
[Event "Club evening"]
[Result "*"]

1. e4 e5 2. Nf3 Nc6 {Developing.} (2... Qe7 3. Nc3) 3. Bc4 Bc5 4. O-O Nf6 5. d3 d6 *
"""
READ = "from chessnb import Lesson, facts, page\nlesson = Lesson.read('game.pgn', title='Italian')"
ASK = (
    "with page(lesson.before('{0}'), ask='find the move') as m:\n"
    "    facts.material(m.after('{1}'))\n"
)
WAITS = "This opens when the question before it has been answered."
HELD = """
async () => {
  const live = [...document.querySelectorAll(".chessnb-live")];
  const roots = live.map((one) => one.shadowRoot.innerHTML);
  const notebook = window.jupyterapp.shell.currentWidget.content;
  const outputs = notebook.widgets.map((cell) => cell.model.sharedModel.toJSON());
  return JSON.stringify([document.body.outerHTML, roots, outputs]);
}
"""
SAVE = "async () => await window.jupyterapp.shell.currentWidget.context.save()"


@pytest.fixture
def student(lab: Lab) -> Lab:
    """JupyterLab with a student edition of a small lesson, all of it run."""
    teacher = lab.folder.parent / "teachers-own"
    teacher.mkdir(exist_ok=True)
    (teacher / "game.pgn").write_text(GAME, encoding="utf-8")
    cells = [
        markdown_cell("title", "# Italian"),
        code_cell("lesson", READ),
        markdown_cell("one", "## Black's 2nd move"),
        code_cell("page one", ASK.format("2... Nc6", "Nc6")),
        markdown_cell("two", "## The knight stands on c6"),
        code_cell("finding", "facts.material(lesson.after('2... Nc6'))"),
        code_cell("page two", ASK.format("3... Bc5", "Bc5")),
        markdown_cell("recap", "## What to remember: castle early"),
    ]
    write_notebook(new_notebook(cells, notes={}), teacher / "student.ipynb")
    student_edition(teacher / "student.ipynb", lab.folder)
    lab.page.set_viewport_size({"width": 1400, "height": 900})
    lab.show("student.ipynb")
    lab.run_all()
    expect(lab.page.locator(".gate")).to_have_count(2, timeout=40_000)
    expect(spread(lab).locator("[data-square=e4]")).to_be_visible(timeout=40_000)
    return lab


def spread(lab: Lab, number: int = 0) -> Locator:
    return lab.page.locator(".spread").nth(number)


def play(page: Locator, text: str) -> None:
    field = page.locator("figure .controls input")
    field.fill(text)
    field.press("Enter")


def note(page: Locator) -> str:
    return page.locator("figcaption > .note").first.text_content() or ""


def words(lab: Lab) -> str:
    return lab.page.locator(".jp-Notebook").inner_text()


def test_a_wrong_try_opens_nothing_and_the_right_move_opens_the_next_step(student: Lab) -> None:
    assert "The knight stands on c6" not in student.page.evaluate(HELD)
    play(spread(student), "f6")
    eventually(lambda: note(spread(student)) != "", True)
    spread(student).locator("button.main").click()
    assert student.page.locator(".gate").count() == 2
    play(spread(student), "Nc6")
    eventually(lambda: note(spread(student)), "That is the lesson's move.")
    expect(spread(student, 1).locator("[data-square=e4]")).to_be_visible(timeout=20_000)
    assert "The knight stands on c6" in words(student)
    assert "Black to move. Find the move." in spread(student, 1).inner_text()
    assert student.page.locator(".gate").count() == 1
    assert "castle early" not in student.page.evaluate(HELD)
    spread(student, 1).locator("button.main").click()
    expect(student.page.locator(".gate")).to_have_count(0)
    eventually(lambda: "castle early" in words(student), True)


@pytest.mark.thorough
def test_a_step_is_opened_all_the_same(student: Lab) -> None:
    student.page.locator(".gate button").last.click()
    eventually(lambda: "castle early" in words(student), True)
    assert student.page.locator(".gate").count() == 1
    assert "The knight stands on c6" not in student.page.evaluate(HELD)


@pytest.mark.thorough
def test_saved_and_opened_again_it_holds_what_was_asked_for_and_runs_again(student: Lab) -> None:
    student.page.evaluate(SAVE)
    text = (student.folder / "student.ipynb").read_text("utf-8")
    assert "Find the move" in text
    assert "widget-view" not in text
    for secret in ("Nc6", "b8c6", "stands on c6", "Developing", "castle early", "Qe7", "game.pgn"):
        assert secret not in text
    student.shut_down_kernels()
    student.show("student.ipynb")
    assert words(student).count(WAITS) == 2
    student.run_all()
    expect(student.page.locator(".gate")).to_have_count(2, timeout=40_000)


@pytest.mark.thorough
def test_thirty_moves_of_the_demo_are_nowhere_in_the_page(lab: Lab) -> None:
    heard: list[bytes] = []
    lab.page.on("websocket", lambda socket: socket.on("framereceived", partial(keep, heard)))
    student_edition(DEMO / "lantern-street.ipynb", lab.folder)
    lab.show("lantern-street.ipynb")
    lab.run_all()
    expect(lab.page.locator(".gate")).to_have_count(10, timeout=60_000)
    expect(spread(lab, 2).locator("[data-square=e4]")).to_be_visible(timeout=40_000)
    game = Lesson.read(DEMO / "games" / "lantern-street.pgn")
    secrets = secrets_of(game, way_to(game.before("8. Nd5")))
    assert len(secrets) >= 30
    assert found_in(lab.page.evaluate(HELD).encode(), secrets) == set()
    assert "Find the move" in b"".join(heard).decode("utf-8", "replace")
    assert found_in(b"\n".join(heard), secrets) == set()


def keep(heard: list[bytes], frame: bytes | str) -> None:
    """Keep what the kernel sent: all that the widgets' state is made of."""
    heard.append(frame.encode() if isinstance(frame, str) else frame)
