"""The figure alone on the whole screen: for a projector, and back."""

import chess
import pytest
from browser.hand import drag, press_word, square, where
from browser.harness import open_boards
from playwright.sync_api import Locator, Page, expect

pytestmark = pytest.mark.thorough

PAGE = "<body data-theme={theme}><h1>Code and prose</h1><p>print('hello')</p></body>"


def full(page: Page) -> bool:
    return bool(page.evaluate("document.fullscreenElement !== null"))


def open_full(page: Page, width: int, height: int, theme: str = "light") -> Locator:
    """Open a board on the whole screen of a window."""
    page.set_viewport_size({"width": width, "height": height})
    open_boards(page, chess.Board(), html=PAGE.format(theme=theme))
    board = page.locator(".chessnb-live").first
    press_word(board, "full screen")
    expect(board.get_by_role("button", name="leave full screen")).to_be_visible()
    page.wait_for_function("() => document.fullscreenElement !== null")
    return board


@pytest.mark.parametrize(("width", "height"), [(1400, 800), (1920, 1080), (1024, 768), (800, 1100)])
def test_the_board_is_as_large_as_the_window_allows_and_the_words_can_be_read(
    page: Page, width: int, height: int
) -> None:
    board = open_full(page, width, height)
    box, caption = (
        board.locator("svg").first.bounding_box(),
        board.locator("figcaption").bounding_box(),
    )
    assert box is not None
    assert caption is not None
    assert box["width"] >= 0.9 * min(width, height) or box["width"] >= 0.65 * width
    assert box["x"] >= 0
    assert box["y"] + box["height"] <= height
    assert caption["x"] + caption["width"] <= width + 1
    assert caption["y"] + caption["height"] <= height + 1, "the words fit too"
    # Common practice, no source: letters of a fortieth of the picture's height reach the last row.
    size = board.locator(".where").evaluate("(line) => parseFloat(getComputedStyle(line).fontSize)")
    assert size >= min(width, height) / 25
    figure = board.locator("figure")
    assert (
        figure.evaluate("(figure) => getComputedStyle(figure).backgroundColor")
        == "rgb(255, 255, 255)"
    )
    assert (
        page.evaluate("(point) => document.elementFromPoint(...point).className", [5, height - 5])
        == "chessnb-live"
    )


@pytest.mark.parametrize(("width", "height"), [(1400, 800), (1024, 768), (800, 1100)])
def test_a_position_is_set_up_without_scrolling(page: Page, width: int, height: int) -> None:
    board = open_full(page, width, height)
    press_word(board, "set up")
    last = board.get_by_role("button", name="cancel").bounding_box()
    assert last is not None
    assert last["x"] + last["width"] <= width
    assert last["y"] + last["height"] <= height


def test_the_word_goes_there_and_back_and_keeps_the_focus(page: Page) -> None:
    board = open_full(page, 1000, 700)
    word = board.locator("[data-action=fullScreen]")
    expect(word).to_be_focused()
    drag(board, "e2", "e4")
    assert where(board) == "After 1. e4. Black to move."
    word.focus()
    page.keyboard.press("Enter")
    expect(word).to_have_text("full screen")
    expect(word).to_be_focused()
    assert not full(page)
    assert where(board) == "After 1. e4. Black to move."


def test_leaving_by_the_browser_s_own_key_is_noticed(page: Page) -> None:
    board = open_full(page, 1000, 700)
    page.evaluate("document.exitFullscreen()")  # as the browser does for Escape
    expect(board.locator("[data-action=fullScreen]")).to_have_text("full screen")
    expect(square(board, "e2")).to_be_visible()


def test_where_the_screen_cannot_be_had_the_word_is_not_offered_or_says_so(page: Page) -> None:
    page.set_content("<body></body>")
    open_boards(page, chess.Board())
    board = page.locator(".chessnb-live").first
    page.evaluate(
        "() => { Element.prototype.requestFullscreen ="
        " () => Promise.reject(new TypeError('not allowed')); }"
    )
    press_word(board, "full screen")
    expect(board.locator(".note").first).to_have_text(
        "The browser does not give this board the screen."
    )
    page.evaluate(
        "() => { Object.defineProperty(document, 'fullscreenEnabled', { value: false }); }"
    )
    board.locator("[data-action=turnBoard]").click()
    expect(board.locator("[data-action=fullScreen]")).to_be_hidden()


def test_dark_pages_stay_dark(page: Page) -> None:
    board = open_full(page, 1000, 700, theme="dark")
    background = board.locator("figure").evaluate(
        "(figure) => getComputedStyle(figure).backgroundColor"
    )
    assert background == "rgb(17, 17, 17)"
