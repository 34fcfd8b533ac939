"""The explorer in JupyterLab with a real kernel: answers, a busy kernel, a restart, and what is saved."""

import json

import pytest
from browser.lab import BUSY, Lab, eventually
from playwright.sync_api import Locator, expect
from thoroughness import some

GAME = """\
[Event "Club evening"]
[White "Alder"]
[Black "Birch"]
[Result "*"]

1. e4 e5 2. Nf3 Nc6 {Developing.} (2... Qe7 3. Nc3) 3. Bc4 Bc5 4. O-O Nf6 5. d3 d6 *
"""
LESSON = """\
from chessnb import BranchExplorer, Lesson
lesson = Lesson.read("game.pgn", title="Italian", level="club", minutes=10)
BranchExplorer(lesson, at={at!r}, reveal={reveal!r})
"""


class InLab:
    """The first explorer of a notebook in JupyterLab."""

    def __init__(self, lab: Lab) -> None:
        self.lab = lab

    @property
    def room(self) -> Locator:
        return self.lab.page.locator(".explorer").first

    def type(self, text: str) -> None:
        field = self.room.locator("figure .controls input")
        field.fill(text)
        field.press("Enter")

    def word(self, action: str) -> Locator:
        return self.room.locator(f"[data-action={action}]:visible").first

    @property
    def where(self) -> str:
        return self.room.locator(".where span").inner_text()

    @property
    def note(self) -> str:
        return self.room.locator("figcaption > .note").first.text_content() or ""


def opened(
    lab: Lab,
    name: str,
    *more: str,
    at: str = "2. Nf3",
    reveal: str = "all",
    shown: str = "lab/tree",
) -> InLab:
    (lab.folder / "game.pgn").write_text(GAME, encoding="utf-8")
    lab.page.set_viewport_size({"width": 1300, "height": 1600})
    lab.open(name, LESSON.format(at=at, reveal=reveal), *more, at=shown)
    lab.run_cell(0)
    x = InLab(lab)
    expect(x.room.locator("[data-square=e4]")).to_be_visible(timeout=40_000)
    return x


@pytest.mark.thorough
@pytest.mark.parametrize("shown", some(["lab/tree", "notebooks"]))
def test_tries_are_answered_by_the_kernel_while_the_board_stays_usable(
    lab: Lab, shown: str
) -> None:
    x = opened(lab, "tries.ipynb", shown=shown)
    x.type("f6")
    assert x.room.locator(".way").inner_text() == "2. Nf3 › your try"
    eventually(lambda: x.note != "", True)
    x.word("toLesson").click()
    x.type("Qg5")
    eventually(lambda: x.note.startswith("The queen can be taken"), True)
    x.word("on").click()
    assert x.where == "After 3. Nxg5. Black to move."
    x.word("toLesson").click()
    assert x.where == "After 2. Nf3. Black to move."
    x.type("Kh9")
    eventually(lambda: "no square h9" in x.note, True)
    x.word("facts").click()
    expect(x.room.locator(".found")).to_contain_text("Material")
    x.word("threat").click()
    expect(x.room.locator(".found")).to_contain_text("White")


@pytest.mark.thorough
def test_the_next_move_comes_from_the_kernel_and_is_never_saved(lab: Lab) -> None:
    x = opened(lab, "ask.ipynb", reveal="ask")
    text = lab.page.evaluate("document.querySelector('.chessnb-live').shadowRoot.innerHTML")
    assert "Nc6" not in text
    assert "Nc6" not in _saved(lab)
    x.word("showNext").click()
    eventually(lambda: x.where, "After 2... Nc6. White to move.")
    x.type("Bc4")
    eventually(lambda: x.note, "That is the lesson's move.")
    assert "Bc4" not in _saved(lab)


def _saved(lab: Lab) -> str:
    """Return the notebook as it would be saved, with the widgets' state."""
    return json.dumps(
        lab.page.evaluate(
            """async () => {
              const panel = window.jupyterapp.shell.currentWidget;
              await panel.context.save();
              return panel.context.model.toJSON();
            }"""
        )
    )


@pytest.mark.thorough
def test_a_busy_kernel_and_a_restart_lose_no_try(lab: Lab) -> None:
    x = opened(lab, "busy.ipynb", BUSY)
    with lab.busy(9):
        x.type("d6")
        x.type("Bc4")
        x.word("toLesson").click()
        x.type("Nf6")
        # Whether an answer waits for the cell is JupyterLab's affair; the tries are ours.
        assert x.room.locator(".tries li:not(.none)").count() == 2
    eventually(lambda: x.note != "", True)

    def kept() -> tuple[int, list[str]]:
        """How many tries are listed, and which of their moves; answers may still come."""
        text = x.room.locator(".tries ol").inner_text()
        moves = [move for move in ("2... d6", "3. Bc4", "2... Nf6") if move in text]
        return x.room.locator(".tries li:not(.none)").count(), moves

    lab.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()"
    )
    eventually(kept, (2, ["2... d6", "3. Bc4", "2... Nf6"]))
    x.type("g3")  # the page goes on walking without a kernel
    expect(x.room.locator(".tries .status")).to_contain_text("Python has not answered yet")
    lab.run_cell(0)
    eventually(lambda: lab.page.locator(".explorer").count(), 1)
    expect(x.room.locator(".tries")).to_contain_text("g3", timeout=30_000)
    assert x.room.locator(".tries li:not(.none)").count() == 2


# -- two explorers at one position --------------------------------------------------


@pytest.mark.thorough
def test_a_move_found_in_one_explorer_stays_there_and_is_not_shown_in_the_other(lab: Lab) -> None:
    again = 'BranchExplorer(lesson, at="2. Nf3", reveal="ask")'
    x = opened(lab, "two.ipynb", again, reveal="ask")
    lab.run_cell(1)
    other = lab.page.locator(".explorer").nth(1)
    expect(other.locator("[data-square=e4]")).to_be_visible()
    x.type("Nc6")
    eventually(lambda: x.note, "That is the lesson's move.")
    lab.page.wait_for_timeout(1500)  # nothing is to happen: there is nothing else to wait for
    assert x.where == "After 2... Nc6. White to move."
    assert other.locator(".where span").inner_text() == "After 2. Nf3. Black to move."
    expect(other.locator(".movetext")).not_to_contain_text("Nc6")


@pytest.mark.thorough
def test_tries_made_while_a_cell_blocks_python_are_answered_when_it_ends(lab: Lab) -> None:
    x = opened(lab, "blocked.ipynb", BUSY)
    with lab.busy(1):
        for move in ("Qg5", "f6"):
            x.type(move)
            eventually(lambda: x.where, f"After 2... {move}. White to move.")
            x.word("toLesson").click()
    answers = x.room.locator(".tries .answer")
    expect(answers).to_have_count(2, timeout=5_000)
