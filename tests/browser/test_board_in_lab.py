"""The live board in a real JupyterLab: every move shows at once and reaches Python, in order."""

from pathlib import Path

import nbformat
import pytest
from browser.hand import click, drag, label, note, square, type_move, where
from browser.lab import BUSY, Lab, eventually
from nbclient import NotebookClient
from playwright.sync_api import expect
from thoroughness import some

BOARD = """\
from pathlib import Path
from chessnb.widgets import LiveBoard
board = LiveBoard({fen!r})
@board.on_move
def keep(move, after):
    with Path({file!r}).open("a") as file:
        file.write(move.uci() + "\\n")
board
"""


class Game:
    """A notebook with one live board, whose moves Python writes to a file."""

    def __init__(
        self, lab: Lab, tmp_path: Path, fen: str = "start", *cells: str, at: str = "lab/tree"
    ) -> None:
        self.lab = lab
        self.file = tmp_path / "moves.txt"
        self.file.touch()
        lab.open("board.ipynb", BOARD.format(fen=fen, file=str(self.file)), *cells, at=at)
        lab.run_all()
        self.board = lab.board
        expect(square(self.board, "e1")).to_be_visible(timeout=40_000)

    def arrived(self) -> list[str]:
        """Return the moves that Python has heard of, as it told its followers."""
        return self.file.read_text().split()

    def expect_arrived(self, *moves: str) -> None:
        eventually(self.arrived, list(moves))


def test_moves_by_drag_by_clicks_and_by_typing_reach_python(lab: Lab, tmp_path: Path) -> None:
    game = Game(lab, tmp_path, "start", "print([move.uci() for move in board.moves])")
    drag(game.board, "e2", "e4")
    click(game.board, "e7", "e5")
    for text in ("Nf3", "b8c6", "Bf1-c4", "nf6", "0-0"):
        type_move(game.board, text)
    expected = ["e2e4", "e7e5", "g1f3", "b8c6", "f1c4", "g8f6", "e1g1"]
    game.expect_arrived(*expected)
    assert where(game.board) == "After 4. O-O. Black to move."
    assert label(game.board, "f1") == "f1, white rook"
    lab.run_cell(1)
    output = lab.page.locator(".jp-Cell").nth(1).locator(".jp-OutputArea-output")
    expect(output).to_have_text(str(expected))


def test_the_keyboard_alone_is_enough_and_jupyterlab_keeps_its_hands_off(
    lab: Lab, tmp_path: Path
) -> None:
    game = Game(lab, tmp_path, "start", "'a second cell'")
    square(game.board, "e2").focus()
    keyboard = lab.page.keyboard
    cells = lab.page.locator(".jp-Cell").count()
    for key in ("Enter", "ArrowUp", "ArrowUp", "Enter"):
        keyboard.press(key)
    game.expect_arrived("e2e4")
    # Letters and arrows are commands of the notebook elsewhere: b and a add cells, dd deletes one.
    for key in ("b", "a", "d", "d", "Home", "ArrowDown"):
        keyboard.press(key)
    expect(square(game.board, "a3")).to_be_focused()
    assert lab.page.locator(".jp-Cell").count() == cells
    for key in ("ArrowUp", "End", "Tab", "Tab", "Tab"):  # to the words under the board
        keyboard.press(key)
    keyboard.press("Enter")
    expect(game.board.locator("[data-action=toStart]")).to_have_attribute("aria-disabled", "true")


@pytest.mark.thorough
def test_four_quick_moves_while_the_kernel_is_busy_show_at_once_and_arrive_in_order(
    lab: Lab, tmp_path: Path
) -> None:
    tell = "print([move.uci() for move in board.moves])"
    game = Game(lab, tmp_path, "start", BUSY, tell)
    outputs = lab.page.locator(".jp-Cell .jp-OutputArea-output pre")
    expect(outputs).to_have_text(["rested\n", "[]\n"])
    with lab.busy(1):
        click(game.board, "e2", "e4", "e7", "e5", "g1", "f3")
        type_move(game.board, "Nc6")
        assert where(game.board) == "After 2... Nc6. White to move."
        assert game.arrived() == []
    expected = ["e2e4", "e7e5", "g1f3", "b8c6"]
    game.expect_arrived(*expected)
    assert where(game.board) == "After 2... Nc6. White to move."
    lab.run_cell(2)
    output = lab.page.locator(".jp-Cell").nth(2).locator(".jp-OutputArea-output")
    expect(output).to_have_text(str(expected))


@pytest.mark.thorough
def test_a_wrong_typed_move_is_answered_with_the_teachers_sentence(
    lab: Lab, tmp_path: Path
) -> None:
    game = Game(lab, tmp_path)
    type_move(game.board, "Bg5")
    eventually(
        lambda: note(game.board),
        "“Bg5”: the bishop on c1 cannot reach g5: the pawn on d2 is in the way;"
        " it has no legal move.",
    )
    assert game.board.locator("input").input_value() == "Bg5"
    assert game.board.locator("input").get_attribute("aria-invalid") == "true"
    type_move(game.board, "d4")
    game.expect_arrived("d2d4")
    assert note(game.board) == ""
    drag(game.board, "b8", "b6")
    eventually(lambda: "b6" in note(game.board) and "cannot" in note(game.board), True)
    assert label(game.board, "b8") == "b8, black knight"


@pytest.mark.thorough
def test_a_pawn_becomes_what_is_chosen(lab: Lab, tmp_path: Path) -> None:
    game = Game(lab, tmp_path, "1n2k3/P1P5/8/8/8/8/p7/4K3 w - - 0 1")
    drag(game.board, "c7", "b8")
    game.board.get_by_role("button", name="rook").click()
    game.expect_arrived("c7b8r")
    click(game.board, "e8", "e7")
    square(game.board, "a7").focus()
    for key in ("Enter", "ArrowUp", "Enter", "n"):
        lab.page.keyboard.press(key)
    game.expect_arrived("c7b8r", "e8e7", "a7a8n")
    assert label(game.board, "a8") == "a8, white knight"


@pytest.mark.thorough
def test_python_plays_shows_and_goes_back_and_the_board_follows(lab: Lab, tmp_path: Path) -> None:
    game = Game(lab, tmp_path, "start", "0")
    script = [
        ("board.play('e4'); board.play('c5')", "After 1... c5. White to move."),
        ("board.back()", "After 1. e4. Black to move."),
        ("board.show('7k/5Q2/6K1/8/8/8/8/8 b - - 0 1')", "Stalemate: a draw."),
    ]
    for code, caption in script:
        lab.page.evaluate(
            "(code) => window.jupyterapp.shell.currentWidget.content.widgets[1]"
            ".model.sharedModel.setSource(code)",
            code,
        )
        lab.run_cell(1)
        eventually(lambda: where(game.board), caption)


@pytest.mark.thorough
def test_after_a_save_and_a_reload_the_still_stands_until_the_cell_runs(
    lab: Lab, tmp_path: Path
) -> None:
    game = Game(lab, tmp_path)
    click(game.board, "e2", "e4")
    game.expect_arrived("e2e4")
    lab.page.evaluate("() => window.jupyterapp.commands.execute('docmanager:save')")
    lab.show("board.ipynb")
    still = lab.page.locator(".jp-OutputArea-output img").first
    expect(still).to_be_visible(timeout=40_000)
    expect(lab.page.locator(".jp-OutputArea-output")).not_to_contain_text("not found")
    lab.run_all()
    expect(square(game.board, "e1")).to_be_visible(timeout=40_000)
    click(game.board, "e2", "e4")
    game.expect_arrived("e2e4", "e2e4")


@pytest.mark.thorough
def test_two_views_of_one_board_stay_together(lab: Lab, tmp_path: Path) -> None:
    game = Game(lab, tmp_path, "start", "board")
    second = lab.page.locator(".chessnb-live").nth(1)
    expect(square(second, "e1")).to_be_visible()
    click(game.board, "e2", "e4")
    eventually(lambda: where(second), "After 1. e4. Black to move.")
    click(second, "e7", "e5")
    eventually(lambda: where(game.board), "After 1... e5. White to move.")
    game.expect_arrived("e2e4", "e7e5")


@pytest.mark.thorough
def test_a_follower_that_fails_is_shown_under_the_board(lab: Lab) -> None:
    lab.open(
        "failing.ipynb",
        "from chessnb.widgets import LiveBoard\nboard = LiveBoard()\n"
        "board.on_move(lambda move, after: 1 / 0)\nboard",
    )
    lab.run_all()
    expect(square(lab.board, "e2")).to_be_visible(timeout=40_000)
    click(lab.board, "e2", "e4")
    expect(lab.board.locator(".trouble")).to_have_text(
        "A function that follows the moves failed (ZeroDivisionError: division by zero)."
        " The move stands."
    )
    click(lab.board, "e7", "e5")
    eventually(lambda: where(lab.board), "After 1... e5. White to move.")


@pytest.mark.thorough
def test_a_board_that_cannot_be_drawn_says_so_under_itself(lab: Lab) -> None:
    lab.open(
        "broken.ipynb",
        "from chessnb.widgets import LiveBoard\nboard = LiveBoard()\nboard.state = {}\nboard",
    )
    lab.run_all()
    expect(lab.board.locator(".failure")).to_contain_text("The board cannot be shown here")


@pytest.mark.thorough
def test_a_saved_notebook_shows_its_still_diagram_before_anything_is_run(lab: Lab) -> None:
    notebook = nbformat.v4.new_notebook(
        cells=[nbformat.v4.new_code_cell("from chessnb.widgets import LiveBoard\nLiveBoard()")]
    )
    notebook.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3"}
    NotebookClient(notebook, store_widget_state=False, timeout=60).execute()
    (output,) = notebook.cells[0].outputs
    assert output.data.pop("application/vnd.jupyter.widget-view+json")
    nbformat.write(notebook, lab.folder / "saved.ipynb")
    lab.show("saved.ipynb")
    cell = "window.jupyterapp.shell.currentWidget.content.widgets[0].model"
    assert lab.page.evaluate(f"{cell}.trusted") is False
    picture = lab.page.locator(".jp-OutputArea-output img")
    expect(picture).to_be_visible()
    assert picture.evaluate("(image) => image.complete && image.naturalWidth > 100")
    assert lab.page.get_by_text("Error displaying widget").count() == 0
    assert lab.page.locator(".jp-OutputArea-output").count() == 1
    lab.run_all()
    expect(square(lab.board, "e2")).to_be_visible(timeout=40_000)


@pytest.mark.thorough
@pytest.mark.parametrize("theme", some(["JupyterLab Dark", "JupyterLab Light"]))
def test_the_board_wears_the_ink_of_the_theme(lab: Lab, tmp_path: Path, theme: str) -> None:
    game = Game(lab, tmp_path)
    click(game.board, "e2", "e4", "g8")
    lab.theme(theme)
    card = game.board.locator("rect").first
    fill = card.evaluate("(rect) => getComputedStyle(rect).fill")
    assert fill == {"Light": "rgb(251, 250, 245)", "Dark": "rgb(214, 210, 196)"}[theme.split()[-1]]
    lab.page.emulate_media(media="print")
    fill = card.evaluate("(rect) => getComputedStyle(rect).fill")
    assert fill == "rgb(251, 250, 245)", "print is always light"
    lab.page.emulate_media(media="null")
    lab.theme("JupyterLab Light")


def restart(lab: Lab) -> None:
    """Restart the kernel, and wait until it runs again."""
    lab.page.evaluate(
        """async () => {
          const { kernel } = window.jupyterapp.shell.currentWidget.sessionContext.session;
          await kernel.restart();
          await kernel.info;
        }"""
    )


@pytest.mark.thorough
@pytest.mark.parametrize("shown", some(["lab/tree", "notebooks"]))
def test_after_a_restart_the_board_says_so_and_the_next_one_brings_everything_back(
    lab: Lab, tmp_path: Path, shown: str
) -> None:
    game = Game(lab, tmp_path, at=shown)
    click(game.board, "e2", "e4")
    game.expect_arrived("e2e4")
    restart(lab)
    click(game.board, "e7", "e5")
    type_move(game.board, "Nf3")
    game.board.locator("[data-action=turnBoard]").click()
    expect(game.board.locator(".unheard")).to_contain_text("run the cell again")
    assert where(game.board) == "After 2. Nf3. Black to move."
    drag(game.board, "b8", "c6")
    assert where(game.board) == "After 2... Nc6. White to move."
    assert game.board.locator(".failure").count() == 0
    lab.run_cell(0)
    offer = game.board.get_by_role("button", name="bring back")
    expect(offer).to_contain_text("(4)", timeout=40_000)
    assert where(game.board) == "White to move."
    offer.click()
    eventually(lambda: where(game.board), "After 2... Nc6. White to move.")
    game.expect_arrived("e2e4", "e2e4", "e7e5", "g1f3", "b8c6")
    expect(offer).to_be_hidden()
    expect(game.board.locator(".unheard")).to_be_hidden()
    click(game.board, "f1", "b5")
    game.expect_arrived("e2e4", "e2e4", "e7e5", "g1f3", "b8c6", "f1b5")
