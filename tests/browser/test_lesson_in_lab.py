"""A drafted lesson in a real JupyterLab: still before it is run, alive afterwards, text always text."""

from pathlib import Path

import pytest
from browser.hand import click, drag, square, type_move
from browser.lab import BUSY, Lab, eventually
from playwright.sync_api import Locator, expect

from chessnb.notebooks import cell_key, code_cell, read_notebook, write_notebook
from chessnb.notebooks.drafting import draft

HOSTILE = (
    "<script>window.hacked=1</script><img src=x onerror='window.hacked=1'> $x^2$ **bold** "
    "[a](javascript:alert) `code` \\\\(y\\\\)"
)
GAME = f"""[Event "{HOSTILE}"]
[White "{HOSTILE}"]
[Black "Marsh, Tom"]
[Result "1-0"]
[SetUp "1"]
[FEN "3q2k1/2P2ppp/8/8/8/5N2/5PPP/6K1 w - - 0 1"]

1. cxd8=Q# ({{A quiet way:}} 1. Ne5 {{{HOSTILE}}} Qc8) 1-0
"""

NAME = "promotion.ipynb"

# Keeps every move that reaches Python from the boards of the lesson, in the order of arrival.
LISTEN = """\
from pathlib import Path
from ipywidgets.widgets.widget import _instances
from chessnb import LiveBoard

def keep(move, after):
    with Path({file!r}).open("a") as file:
        file.write(move.uci() + "\\n")

boards = [widget for widget in _instances.values() if isinstance(widget, LiveBoard)]
for board in boards:
    board.on_move(keep)
len(boards)"""


def drafted(lab: Lab, tmp_path: Path) -> Path:
    """Draft the lesson in the server's folder, with three cells of the teacher's.

    A board behind the cell that reads the lesson, and two cells at its end.
    """
    (lab.folder / "game.pgn").write_text(GAME, encoding="utf-8")
    target = lab.folder / NAME
    draft(lab.folder / "game.pgn", target, force=target.exists())
    arrived = tmp_path / "moves.txt"
    arrived.touch()
    lesson = read_notebook(target)
    first = [cell_key(cell) for cell in lesson.cells].index("lesson")
    lesson.cells.insert(first + 1, code_cell("a board", "lesson.start"))
    lesson.cells.append(code_cell("listen", LISTEN.format(file=str(arrived))))
    lesson.cells.append(code_cell("busy", BUSY))
    write_notebook(lesson, target)
    return arrived


def nothing_happened(lab: Lab) -> None:
    assert lab.page.evaluate("() => window.hacked") is None
    assert lab.page.get_by_text("Error displaying widget").count() == 0
    page = lab.page.locator(".jp-Notebook")
    assert page.locator("script, .jp-RenderedMarkdown a[href^=javascript]").count() == 0
    # A formula would have been typeset into elements of its own.
    assert page.locator("mjx-container, .MathJax").count() == 0


def play(board: Locator, arrived: Path) -> None:
    """Play by hand, by typing, with the keyboard, promote, and see each move in Python."""
    moves: list[str] = []

    def then(*new: str) -> None:
        moves.extend(new)
        eventually(lambda: arrived.read_text().split(), moves)

    drag(board, "f3", "e5")
    then("f3e5")
    type_move(board, "Qc8")
    then("d8c8")
    start = square(board, "e5")
    start.focus()
    for key in ("Enter", "ArrowUp", "ArrowUp", "ArrowRight", "Enter"):
        board.page.keyboard.press(key)
    then("e5f7")
    click(board, "g8", "f7")
    then("g8f7")
    type_move(board, "f3")
    then("f2f3")
    type_move(board, "Qxc7")
    then("c8c7")


def test_a_drafted_lesson_is_still_then_alive(lab: Lab, tmp_path: Path) -> None:
    arrived = drafted(lab, tmp_path)
    lab.page.set_viewport_size({"width": 1200, "height": 6000})
    lab.show(NAME)
    pictures = lab.page.locator(".jp-OutputArea-output img")
    expect(pictures.first).to_be_visible()
    assert pictures.count() == 1  # one page, one diagram
    for picture in pictures.all():
        assert picture.evaluate("(image) => image.complete && image.naturalWidth > 100")
    heading = lab.page.locator(".jp-RenderedMarkdown h1").first
    assert "<script>window.hacked=1</script>" in heading.inner_text()
    assert "$x^2$ **bold** [a](javascript:alert) `code`" in heading.inner_text()
    nothing_happened(lab)

    lab.run_all()
    # The teacher's board and the page have come alive.
    expect(lab.page.locator(".chessnb-live").nth(1)).to_be_visible(timeout=40_000)
    expect(lab.page.get_by_text("rested")).to_be_visible(timeout=40_000)
    board = lab.board  # the lesson's start
    play(board, arrived)
    nothing_happened(lab)


@pytest.mark.thorough
def test_a_pawn_is_promoted_and_four_quick_moves_wait_for_nobody(lab: Lab, tmp_path: Path) -> None:
    arrived = drafted(lab, tmp_path)
    lab.page.set_viewport_size({"width": 1200, "height": 6000})
    lab.show(NAME)
    lab.run_all()
    expect(lab.page.get_by_text("rested")).to_be_visible(timeout=60_000)
    board = lab.board
    last = lab.page.evaluate(
        "() => window.jupyterapp.shell.currentWidget.content.widgets.length - 1"
    )
    with lab.busy(last):
        for text in ("Ne5", "Qc8", "Nc6", "h6"):
            type_move(board, text)
        expect(square(board, "h6")).to_have_attribute("aria-label", "h6, black pawn")
        assert arrived.read_text() == ""
    four = ["f3e5", "d8c8", "e5c6", "h7h6"]
    eventually(lambda: arrived.read_text().split(), four)
    type_move(board, "Ne7+")
    type_move(board, "Kh8")
    type_move(board, "Nxc8")
    type_move(board, "g6")
    type_move(board, "Nb6")
    type_move(board, "g5")
    click(board, "c7", "c8")
    lab.page.get_by_text("knight", exact=True).first.click()
    eventually(lambda: arrived.read_text().split()[-1], "c7c8n")
    assert len(arrived.read_text().split()) == 11
