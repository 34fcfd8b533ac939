"""Copying the position and the line, and what happens where the browser refuses."""

import io

import chess
import chess.pgn
import pytest
from browser.hand import click, note, press_word, square
from browser.harness import open_boards, state_of
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from chessnb.notation import read_line

pytestmark = pytest.mark.thorough

START = chess.Board()
BLACK_TO_MOVE = "4k3/4p3/8/8/8/8/4P3/4K3 b - - 0 31"
ADDRESS = "http://127.0.0.1:9/copying.html"


def open_at_an_address(context: BrowserContext, board: chess.Board, **values: object) -> Locator:
    """Open a board in a page whose origin the clipboard trusts."""
    page = context.new_page()
    page.route(
        ADDRESS, lambda route: route.fulfill(body="<!doctype html>", content_type="text/html")
    )
    page.goto(ADDRESS)
    open_boards(page, board, html=None, **values)
    return page.locator(".chessnb-live").first


@pytest.fixture
def trusting(browser: Browser) -> BrowserContext:
    """A browser that lets pages use the clipboard."""
    context = browser.new_context(permissions=["clipboard-read", "clipboard-write"])
    yield context
    context.close()


def clipboard(page: Page) -> str:
    return str(page.evaluate("navigator.clipboard.readText()"))


def test_the_position_is_copied_as_python_writes_it(trusting: BrowserContext) -> None:
    board = open_at_an_address(trusting, START)
    click(board, "e2", "e4", "e7", "e6", "e4", "e5", "d7", "d5")
    word = board.locator("[data-action=copyPosition]")
    word.click()
    expect(board.locator(".note").first).to_have_text("The position is copied (FEN).")
    expected = chess.Board()
    for san in ("e4", "e6", "e5", "d5"):
        expected.push_san(san)
    assert clipboard(board.page) == expected.fen()
    assert expected.fen().split()[3] == "d6"
    expect(word).to_be_focused()
    click(board, "e5")
    assert note(board) == ""


def test_a_line_from_the_start_is_numbered_movetext(trusting: BrowserContext) -> None:
    board = open_at_an_address(trusting, START, piece_letters="BSLTDK")
    expect(board.locator("[data-action=copyLine]")).to_have_attribute("aria-disabled", "true")
    click(board, "e2", "e4", "e7", "e5", "g1", "f3", "b8", "c6")
    press_word(board, "back")
    press_word(board, "copy the line")
    expect(board.locator(".note").first).to_have_text("The line is copied (PGN).")
    copied = clipboard(board.page)
    assert copied == "1. e4 e5 2. Nf3", "the moves to the position shown, in PGN's English"
    assert [move.uci() for move in read_line("start", copied)] == ["e2e4", "e7e5", "g1f3"]


def test_a_line_from_elsewhere_carries_its_position(trusting: BrowserContext) -> None:
    """PGN standard, 9.7: SetUp and FEN."""
    board = open_at_an_address(trusting, chess.Board(BLACK_TO_MOVE))
    click(board, "e7", "e5", "e1", "d1")
    press_word(board, "copy the line")
    expect(board.locator(".note").first).not_to_be_empty()
    copied = clipboard(board.page)
    assert copied.endswith("31... e5 32. Kd1 *\n")
    game = chess.pgn.read_game(io.StringIO(copied))
    assert game is not None
    assert game.errors == []
    assert game.headers["SetUp"] == "1"
    assert game.board().fen() == BLACK_TO_MOVE
    assert [move.uci() for move in game.mainline_moves()] == ["e7e5", "e1d1"]


REFUSALS = {
    "no clipboard": "() => { delete Navigator.prototype.clipboard; }",
    "not allowed": "() => { const refuse = () => Promise.reject(new DOMException('no', 'NotAllowedError'));"
    " delete Navigator.prototype.clipboard;"
    " Object.defineProperty(navigator, 'clipboard', { value: { writeText: refuse } }); }",
}


@pytest.mark.parametrize("refusal", REFUSALS)
def test_where_the_browser_refuses_the_text_stands_selected_to_be_copied(
    page: Page, refusal: str
) -> None:
    open_boards(page, START)
    page.evaluate(REFUSALS[refusal])
    board = page.locator(".chessnb-live").first
    press_word(board, "copy the position")
    field = board.locator("textarea")
    expect(field).to_be_focused()
    assert field.input_value() == START.fen()
    assert field.evaluate("(field) => field.readOnly && field.selectionEnd") == len(START.fen())
    assert "Copy it from here" in board.locator(".copying").inner_text()
    assert note(board) == ""
    click(board, "e2", "e4")
    expect(field).to_be_hidden()
    press_word(board, "copy the line")
    assert field.input_value() == "1. e4"
    field.press("Escape")
    expect(field).to_be_hidden()
    expect(board.locator("[data-action=copyLine]")).to_be_focused()


def test_a_board_in_the_explorer_s_middle_copies_what_it_shows(trusting: BrowserContext) -> None:
    """A board whose history is known begins with its own position, and so does its line."""
    begun = chess.Board()
    begun.push_san("e4")
    board = open_at_an_address(trusting, begun)
    assert state_of(begun)["after"] == "1. e4"
    click(board, "e7", "e5")
    press_word(board, "copy the line")
    expect(board.locator(".note").first).not_to_be_empty()
    assert clipboard(board.page).splitlines()[1] == f'[FEN "{begun.fen()}"]'
    expect(square(board, "e5")).to_be_visible()
