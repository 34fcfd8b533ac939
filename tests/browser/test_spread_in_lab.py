"""A page in JupyterLab with a real kernel: asked, answered, shown, and what is saved of it."""

import json

import pytest
from browser.lab import BUSY, Lab, eventually
from playwright.sync_api import Locator, expect

GAME = """\
[Event "Club evening"]
[Result "*"]

1. e4 e5 2. Nf3 Nc6 {Developing.} (2... Qe7 3. Nc3) 3. Bc4 Bc5 4. O-O Nf6 5. d3 d6 *
"""
LESSON = """\
from chessnb import Lesson, facts, page
lesson = Lesson.read("game.pgn", title="Italian")
"""
PAGE = """\
with page(lesson.before("2... Nc6"), ask="find the move") as m:
    m.after("Nc6").changes()
    facts.material(m)
"""


def opened(lab: Lab, name: str, *more: str) -> None:
    (lab.folder / "game.pgn").write_text(GAME, encoding="utf-8")
    lab.page.set_viewport_size({"width": 1400, "height": 900})
    lab.open(name, LESSON, PAGE, *more)
    lab.run_cell(0)
    lab.run_cell(1)
    expect(room(lab).locator("[data-square=e4]")).to_be_visible(timeout=40_000)


def room(lab: Lab, number: int = 0) -> Locator:
    return lab.page.locator(".spread").nth(number)


def play(spread: Locator, text: str) -> None:
    field = spread.locator("figure .controls input")
    field.fill(text)
    field.press("Enter")


def note(spread: Locator) -> str:
    return spread.locator("figcaption > .note").first.text_content() or ""


def state(lab: Lab) -> str:
    """Return all that the page's widgets hold in the browser."""
    return json.dumps(
        lab.page.evaluate(
            """async () => {
              const roots = [...document.querySelectorAll(".chessnb-live")];
              return roots.map((one) => one.shadowRoot.innerHTML);
            }"""
        )
    )


def test_the_class_finds_the_move_and_next_tells_the_rest(lab: Lab) -> None:
    opened(lab, "page.ipynb")
    spread = room(lab)
    assert "Nc6" not in state(lab)
    assert "Developing" not in state(lab)
    play(spread, "f6")
    eventually(lambda: note(spread) != "", True)
    main = spread.locator("button.main")
    main.click()
    play(spread, "Nc6")
    eventually(lambda: note(spread), "That is the lesson's move.")
    assert main.inner_text() == "next"
    main.click()
    expect(spread.locator(".of-move")).to_contain_text("Developing.")
    assert spread.locator(".where span").inner_text() == "After 2... Nc6. White to move."
    assert main.inner_text() == "play on"
    main.click()
    eventually(spread.locator(".where span").inner_text, "After 3. Bc4. Black to move.")


@pytest.mark.thorough
def test_what_is_found_on_one_page_is_not_shown_on_another_of_the_same_position(lab: Lab) -> None:
    opened(lab, "pages.ipynb", PAGE)
    lab.run_cell(2)
    expect(room(lab, 1).locator("[data-square=e4]")).to_be_visible()
    play(room(lab), "Nc6")
    eventually(lambda: note(room(lab)), "That is the lesson's move.")
    room(lab).locator("button.main").click()
    expect(room(lab).locator(".of-move")).to_be_visible()
    assert room(lab, 1).locator(".where span").inner_text() == "After 2. Nf3. Black to move."
    expect(room(lab, 1).locator(".of-move")).to_have_count(0)
    assert room(lab).locator(".where span").inner_text() == "After 2... Nc6. White to move."


@pytest.mark.thorough
def test_a_busy_kernel_tells_when_it_is_free(lab: Lab) -> None:
    opened(lab, "busy-page.ipynb", BUSY)
    with lab.busy(2):
        room(lab).locator("button.main").click()
        eventually(lambda: note(room(lab)).startswith("Python has not answered yet"), True)
    expect(room(lab).locator(".of-move")).to_contain_text("Developing.")
    eventually(lambda: note(room(lab)), "")


def test_the_still_page_is_saved_and_the_live_one_is_not(lab: Lab) -> None:
    opened(lab, "saved-page.ipynb")
    lab.page.evaluate("() => window.jupyterapp.shell.currentWidget.context.save()")
    path = lab.folder / "saved-page.ipynb"
    eventually(lambda: "2... Nc6 | changes" in path.read_text(encoding="utf-8"), True)
    saved = json.loads(path.read_text(encoding="utf-8"))
    (output,) = saved["cells"][1]["outputs"]
    assert set(output["data"]) == {"text/plain", "text/html"}
