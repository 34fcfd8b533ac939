"""The live board in Notebook 7: a move, the pen, a position set up by hand."""

from pathlib import Path

import pytest
from browser.hand import click, drag, note, press_word, square, type_move, where
from browser.lab import Lab, eventually
from playwright.sync_api import expect
from thoroughness import some

pytestmark = pytest.mark.thorough

BOARD = """\
from pathlib import Path
from chessnb.widgets import LiveBoard
board = LiveBoard(letters="german")
board
"""
TELL = "print(board.board.fen(), [move.uci() for move in board.moves], *board.marks, sep='\\n')"
DRAWN = [
    "Mark(role='force', square='f8', to='b4')",
    "Mark(role='actor', square='b4', to=None)",
]


@pytest.fixture(
    params=some([pytest.param("notebooks", id="Notebook 7"), pytest.param("lab/tree", id="Lab")])
)
def notebook(request: pytest.FixtureRequest, lab: Lab) -> Lab:
    """A notebook with a live board and a cell that tells of it, open and run."""
    lab.open("tools.ipynb", BOARD, TELL, at=request.param)
    lab.run_all()
    expect(square(lab.board, "e1")).to_be_visible(timeout=40_000)
    return lab


def told(notebook: Lab) -> list[str]:
    """Run the cell that tells of the board, and return what it printed."""
    notebook.run_cell(1)
    output = notebook.page.locator(".jp-Cell").nth(1).locator(".jp-OutputArea-output pre")
    return output.inner_text().splitlines()


def test_a_move_the_pen_and_a_position_reach_python(notebook: Lab) -> None:
    board = notebook.board
    drag(board, "d2", "d4")
    type_move(board, "Sf6")
    eventually(lambda: where(board), "After 1... Sf6. White to move.")
    press_word(board, "draw on the board")
    drag(board, "f8", "b4")
    type_move(board, "b4")
    press_word(board, "draw on the board")
    expected = [
        "rnbqkb1r/pppppppp/5n2/8/3P4/8/PPP1PPPP/RNBQKBNR w KQkq - 1 2", "['d2d4', 'g8f6']", *DRAWN
    ]  # fmt: skip
    eventually(lambda: told(notebook), expected)
    press_word(board, "set up")
    press_word(board, "empty the board")
    eventually(lambda: board.locator(".faults").text_content(), "The board is empty.")
    for piece, name in [("K", "c1"), ("k", "c8"), ("P", "c2")]:
        board.locator(f".tray [data-piece={piece}]").click()
        click(board, name)
    play = board.get_by_role("button", name="play from here")
    expect(play).to_have_attribute("aria-disabled", "false")
    play.click()
    eventually(lambda: where(board), "White to move.")
    click(board, "c2", "c4")
    eventually(lambda: told(notebook)[1:], ["['c2c4']"])
    type_move(board, "Kc6")
    eventually(lambda: "c6" in note(board) and "king" in note(board), True)


def test_only_the_figure_is_on_the_whole_screen(notebook: Lab) -> None:
    page, board = notebook.page, notebook.board
    press_word(board, "full screen")
    page.wait_for_function("() => document.fullscreenElement !== null")
    corners = "() => [[2, 2], [innerWidth - 3, innerHeight - 3]].map(([x, y]) => document.elementFromPoint(x, y).className)"
    assert page.evaluate(corners) == ["chessnb-live"] * 2, "the code is out of sight"
    click(board, "e2", "e4")
    eventually(lambda: told(notebook)[1], "['e2e4']")
    press_word(board, "leave full screen")
    page.wait_for_function("() => document.fullscreenElement === null")


def test_a_still_form_of_what_was_drawn_is_saved(notebook: Lab, tmp_path: Path) -> None:
    board = notebook.board
    press_word(board, "draw on the board")
    drag(board, "f8", "b4")
    eventually(lambda: told(notebook)[-1], DRAWN[0])
    notebook.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.content.widgets[1]"
        ".model.sharedModel.setSource('board')"
    )
    notebook.run_cell(1)
    look = (
        "() => window.jupyterapp.shell.currentWidget.content.widgets[1]"
        ".model.outputs.get(0)?.data['text/html'] ?? ''"
    )
    eventually(lambda: "line of force from f8 to b4" in notebook.page.evaluate(look), True)
