"""Setting up a position by hand: by mouse, finger and keys; Python says whether it can be played."""

import chess
import pytest
from browser.hand import click, drag, finger_to, label, middle, press_word, square, where
from browser.harness import Python, open_boards, sent
from browser.lab import eventually
from playwright.sync_api import Browser, Locator, Page, expect

pytestmark = pytest.mark.thorough

START = chess.Board()
MATE_IN_TWO = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"


def board_to_set_up(page: Page, board: chess.Board = START) -> tuple[Locator, Python]:
    """Open a board, set it up from there, with a Python that answers when it is told to."""
    open_boards(page, board)
    found = page.locator(".chessnb-live").first
    press_word(found, "set up")
    return found, Python(page, board)


def tray(board: Locator, piece: str) -> Locator:
    """Return a piece of the tray, by its letter in FEN."""
    return board.locator(f".tray [data-piece={piece}]")


def fen(board: Locator) -> str:
    """Return what stands in the field for the FEN."""
    return board.locator(".fen input").input_value()


def faults(board: Locator) -> str:
    """Return what is said to be wrong."""
    return board.locator(".faults").text_content() or ""


def play_from_here(board: Locator) -> Locator:
    """Return the words that begin with the position."""
    return board.get_by_role("button", name="play from here")


def test_a_position_is_set_up_by_mouse_and_played_from(page: Page) -> None:
    board, python = board_to_set_up(page)
    assert where(board) == "Setting up a position."
    press_word(board, "empty the board")
    for piece, name in [("k", "h8"), ("K", "f6"), ("R", "a1")]:
        tray(board, piece).click()
        expect(tray(board, piece)).to_have_attribute("aria-pressed", "true")
        click(board, name)
    assert fen(board) == MATE_IN_TWO
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "true")
    python.hear()
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "false")
    play_from_here(board).click()
    assert where(board) == "Setting up a position.", "Python has not begun yet"
    python.hear()
    assert where(board) == "White to move."
    assert python.line.board().fen() == MATE_IN_TWO
    expect(board.locator(".tray")).to_be_hidden()
    click(board, "a1", "a7")
    assert where(board) == "After 1. Ra7. Black to move."


def test_the_keyboard_alone_sets_up(page: Page) -> None:
    board, python = board_to_set_up(page)
    board.get_by_role("button", name="empty the board").press("Enter")
    square(board, "e1").focus()
    live = board.locator("figcaption > .heard-only[role=status]")
    page.keyboard.press("k")
    expect(live).to_have_text("e1, white king")
    for key in ("ArrowUp", "p", "ArrowUp", "p", "p"):
        page.keyboard.press(key)
    expect(live).to_have_text("e3, black pawn")
    page.keyboard.press("Delete")
    expect(live).to_have_text("e3, empty")
    tray(board, "k").press("Enter")
    square(board, "e8").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    expect(tray(board, "k")).to_have_attribute("aria-pressed", "false")
    square(board, "e2").focus()
    for key in ("Enter", "ArrowUp", "Enter"):  # a piece moved, rules or no rules
        page.keyboard.press(key)
    assert fen(board) == "4k3/8/8/8/8/4P3/8/4K3 w - - 0 1"
    python.hear()
    play_from_here(board).press("Enter")
    python.hear()
    assert where(board) == "White to move."
    expect(square(board, "e3")).to_be_focused()


def test_pieces_are_dragged_from_the_tray_about_the_board_and_off_it(page: Page) -> None:
    board, _ = board_to_set_up(page, chess.Board("4k3/8/8/8/8/8/8/4K3 w - - 0 1"))
    box = tray(board, "n").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 10, box["y"] + 10)
    page.mouse.down()
    page.mouse.move(*middle(board, "d5"), steps=5)
    assert board.locator("[data-layer=afloat] use").count() == 1
    page.mouse.up()
    assert board.locator("[data-layer=afloat] use").count() == 0
    assert label(board, "d5") == "d5, black knight"
    expect(tray(board, "n")).to_have_attribute("aria-pressed", "false")
    drag(board, "d5", "g4")
    assert label(board, "g4") == "g4, black knight"
    square(board, "g4").hover()
    page.mouse.down()
    page.mouse.move(700, 500, steps=4)
    page.mouse.up()
    assert label(board, "g4") == "g4, empty"
    assert fen(board) == "4k3/8/8/8/8/8/8/4K3 w - - 0 1"


def test_a_finger_sets_up(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 420, "height": 1000}, has_touch=True)
    page = context.new_page()
    board, python = board_to_set_up(page)
    press_word(board, "empty the board")
    for piece, name in [("K", "c1"), ("k", "c8")]:
        tray(board, piece).tap()
        square(board, name).tap()
    tray(board, "k").tap()  # put down again
    box = tray(board, "P").bounding_box()
    assert box is not None
    finger_to(board, (box["x"] + 20, box["y"] + 20), middle(board, "c2"))
    finger_to(board, middle(board, "c2"), middle(board, "d2"))
    eventually(lambda: fen(board), "2k5/8/8/8/8/8/3P4/2K5 w - - 0 1")
    python.hear()
    play_from_here(board).tap()
    eventually(lambda: sent(page)[-1]["kind"], "setup")  # a tap clicks a little later
    python.hear()
    assert where(board) == "White to move."
    context.close()


def test_python_says_what_is_wrong_and_the_position_cannot_be_played_until_it_is_right(
    page: Page,
) -> None:
    board, python = board_to_set_up(page)
    press_word(board, "empty the board")
    python.hear()
    assert faults(board) == "The board is empty."
    tray(board, "K").click()
    click(board, "e1")
    python.hear()
    assert faults(board) == "Black has no king."
    play_from_here(board).click(force=True)
    assert [message["kind"] for message in sent(page)] == ["judge"] * 3
    tray(board, "k").click()
    click(board, "e2")
    python.hear()
    assert "stand next to each other" in faults(board)
    click(board, "e2", "e8")  # the same piece again takes it off
    python.hear()
    assert faults(board) == ""
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "false")


def test_an_answer_to_an_earlier_position_is_not_taken_for_this_one(page: Page) -> None:
    board, python = board_to_set_up(page)
    python.hear()
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "false")
    press_word(board, "empty the board")
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "true")
    press_word(board, "start of a game")
    python.hear()
    assert faults(board) == ""
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "false")


@pytest.mark.parametrize("word", ["cancel", "set up"])
def test_nothing_is_lost_when_it_is_thought_better_of(page: Page, word: str) -> None:
    open_boards(page, START)
    board = page.locator(".chessnb-live").first
    press_word(board, "draw on the board")
    drag(board, "c3", "f6")
    press_word(board, "draw on the board")
    click(board, "e2", "e4")
    press_word(board, "back")
    press_word(board, "set up")
    press_word(board, "empty the board")
    press_word(board, word)
    assert where(board) == "White to move."
    expect(board.locator("[data-action=setUp]")).to_be_focused()
    assert board.locator("[data-layer=over] path").count() == 2
    press_word(board, "next")
    assert where(board) == "After 1. e4. Black to move."
    press_word(board, "set up")
    assert fen(board) == "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"


def test_who_moves_who_may_castle_and_what_may_be_taken_in_passing(page: Page) -> None:
    board, python = board_to_set_up(page, chess.Board("r3k2r/8/8/3pP3/8/8/8/R3K2R w KQkq d6 0 9"))
    assert fen(board) == "r3k2r/8/8/3pP3/8/8/8/R3K2R w KQkq d6 0 9"
    white = board.get_by_role("group", name="White may castle")
    white.get_by_role("button", name="king side").click()
    assert fen(board).split()[2] == "Qkq"
    drag(board, "a8", "b8")
    assert fen(board).split()[2] == "Qk"
    black = board.get_by_role("group", name="Black may castle")
    expect(black.get_by_role("button", name="queen side")).to_have_attribute(
        "aria-disabled", "true"
    )
    drag(board, "b8", "a8")
    assert fen(board).split()[2] == "Qkq", "the right comes back with the rook"
    passing = board.get_by_role("group", name="may be taken in passing on")
    expect(passing.get_by_role("button", name="d6")).to_have_attribute("aria-pressed", "true")
    passing.get_by_role("button", name="no square").click()
    assert fen(board).split()[3] == "-"
    passing.get_by_role("button", name="d6").click()
    assert fen(board).split()[3] == "d6"
    python.hear()
    assert faults(board) == ""
    board.get_by_role("button", name="Black", exact=True).click()
    assert fen(board).split()[1] == "b"
    expect(passing).to_have_count(0)
    python.hear()
    assert faults(board) == ""


def test_a_fen_is_pasted_and_a_bad_one_is_answered(page: Page) -> None:
    board, python = board_to_set_up(page)
    field = board.locator(".fen input")
    field.fill(MATE_IN_TWO)
    field.press("Enter")
    assert label(board, "f6") == "f6, white king"
    python.hear()
    expect(play_from_here(board)).to_have_attribute("aria-disabled", "false")
    for text, words in [
        ("7k/8/5K2/8 w", "8 ranks"),
        ("<img src=x>", "FEN"),
        ("7k/8/5K2/8/8/8/8/R7 w K - 0 1", "castle"),
        ("7k/8/5K2/8/8/8/8/R7 w - e3 0 1", "e3"),
    ]:
        field.fill(text)
        field.press("Enter")
        python.hear()
        assert words in faults(board)
        assert field.get_attribute("aria-invalid") == "true"
        assert field.input_value() == text
        expect(play_from_here(board)).to_have_attribute("aria-disabled", "true")
    click(board, "a1", "a2")
    python.hear()
    assert fen(board) == "7k/8/5K2/8/8/8/R7/8 w - - 0 1"
    assert faults(board) == ""
    assert field.get_attribute("aria-invalid") is None


def test_letters_of_a_language_put_its_pieces(page: Page) -> None:
    open_boards(page, START, piece_letters="BSLTDK")
    board = page.locator(".chessnb-live").first
    press_word(board, "set up")
    square(board, "e4").focus()
    for key, piece in [("s", "white knight"), ("s", "black knight"), ("d", "white queen")]:
        page.keyboard.press(key)
        assert label(board, "e4") == f"e4, {piece}"
    page.keyboard.press("n")
    assert label(board, "e4") == "e4, white queen"


def test_what_python_plays_meanwhile_is_there_afterwards(page: Page) -> None:
    board, python = board_to_set_up(page)
    press_word(board, "empty the board")
    python.line.push(chess.Move.from_uci("e2e4"))
    python.hear()
    assert label(board, "e4") == "e4, empty"
    press_word(board, "cancel")
    assert where(board) == "After 1. e4. Black to move."
    expect(page.locator(".failure")).to_have_count(0)
