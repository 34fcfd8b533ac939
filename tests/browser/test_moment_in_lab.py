"""A position at the end of a cell comes alive, and nbval still sees its one line."""

import pytest
from browser.hand import click, square, where
from browser.lab import Lab, eventually
from playwright.sync_api import expect

pytestmark = pytest.mark.thorough

LESSON = """\
from chessnb import Lesson
from chessnb.widgets import activate
activate()
lesson = Lesson.read({file!r}, title="A fork", level="club", minutes=10)
lesson.after("2. Nf3")
"""
GAME = """\
[Event "Club evening"]
[White "Alder"]
[Black "Birch"]
[Result "*"]

1. e4 e5 2. Nf3 Nc6 *
"""


def test_a_moment_at_the_end_of_a_cell_is_a_live_board(lab: Lab) -> None:
    (lab.folder / "game.pgn").write_text(GAME, encoding="utf-8")
    lab.open("moment.ipynb", LESSON.format(file="game.pgn"))
    lab.run_all()
    expect(square(lab.board, "e1")).to_be_visible(timeout=40_000)
    assert where(lab.board) == "After 2. Nf3. Black to move."
    click(lab.board, "d7", "d6")
    eventually(lambda: where(lab.board), "After 2... d6. White to move.")
    data = lab.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.content.widgets[0].model.outputs.get(0).data"
    )
    assert data["text/plain"].startswith("2. Nf3 | position | ")
    assert "<img" in data["text/html"]


def test_a_chart_at_the_end_of_a_cell_leads_to_its_moments(lab: Lab) -> None:
    (lab.folder / "game.pgn").write_text(GAME, encoding="utf-8")
    lab.open(
        "chart.ipynb",
        "from chessnb import Lesson, charts\n"
        'charts.material(Lesson.read("game.pgn", title="A fork", level="club", minutes=10))',
    )
    lab.run_all()
    slider = lab.board.get_by_role("slider")
    slider.press("End", timeout=40_000)
    assert where(lab.board) == "After 2... Nc6. White to move."
    slider.press("ArrowLeft")
    assert where(lab.board) == "After 2. Nf3. Black to move."
    data = lab.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.content.widgets[0].model.outputs.get(0).data"
    )
    assert data["text/plain"] == "2... Nc6 | chart | material | start: 0 | rules"
    assert "<img" in data["text/html"]
