"""What axe-core finds: nothing, in both themes, whatever state the board is in."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from typing import Any

import chess
import pytest
from browser.hand import click, drag, press_word, square, type_move
from browser.harness import Python, open_boards
from playwright.sync_api import Locator, Page

pytestmark = pytest.mark.thorough

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
PROMOTION = chess.Board("1n2k3/P1P5/8/8/8/8/8/4K3 w - - 0 1")
PAGE = (
    "<!doctype html><html lang=en><title>A lesson</title><body data-theme={theme}"
    " style='background:{paper};color:{ink}'><main><h1 style='margin:0'>A lesson</h1></main>"
)
PAPERS = {"light": ("#ffffff", "#000000"), "dark": ("#111111", "#ffffff")}


def plain(_: Locator) -> None:
    """Leave the board as it is."""


def lifted(board: Locator) -> None:
    click(board, "e8")
    click(board, "c7")


def pen(board: Locator) -> None:
    press_word(board, "draw on the board")
    drag(board, "c7", "h2")
    click(board, "e8")
    square(board, "a1").press("Enter")


def wrong(board: Locator) -> None:
    type_move(board, "Qd5")
    board.locator(".unheard").wait_for(state="visible")


def promotion(board: Locator) -> None:
    click(board, "c7", "b8")


def set_up(board: Locator) -> None:
    press_word(board, "set up")
    press_word(board, "empty the board")
    board.locator(".tray [data-piece=q]").click()
    click(board, "d4")
    Python(board.page, PROMOTION).hear()
    assert board.locator(".faults").text_content()


def in_passing(board: Locator) -> None:
    press_word(board, "set up")
    board.locator(".fen input").fill("r3k2r/8/8/3pP3/8/8/8/R3K2R w KQkq d6 0 9")
    board.locator(".fen input").press("Enter")
    Python(board.page, PROMOTION).hear()


def copying(board: Locator) -> None:
    board.page.evaluate("() => { delete Navigator.prototype.clipboard; }")
    press_word(board, "copy the position")
    board.locator("textarea").wait_for(state="visible")


def full_screen(board: Locator) -> None:
    press_word(board, "full screen")
    board.page.wait_for_function("() => document.fullscreenElement !== null")


def full_screen_set_up(board: Locator) -> None:
    full_screen(board)
    set_up(board)


STATES: list[Callable[[Locator], None]] = [
    plain, lifted, pen, wrong, promotion, set_up, in_passing, copying, full_screen,
    full_screen_set_up,
]  # fmt: skip


def faults(page: Page) -> list[dict[str, Any]]:
    """Return what axe-core finds wrong, with the elements."""
    page.evaluate(AXE)
    found = page.evaluate("async () => (await axe.run()).violations")
    return [
        {"rule": fault["id"], "where": [node["html"] for node in fault["nodes"]]} for fault in found
    ]


@pytest.mark.parametrize("theme", PAPERS)
@pytest.mark.parametrize("state", STATES, ids=lambda state: state.__name__)
def test_axe_finds_nothing(page: Page, state: Callable[[Locator], None], theme: str) -> None:
    paper, ink = PAPERS[theme]
    open_boards(page, PROMOTION, html=PAGE.format(theme=theme, paper=paper, ink=ink))
    page.evaluate(
        "() => document.querySelector('main').append(document.querySelector('.chessnb-live'))"
    )
    state(page.locator(".chessnb-live").first)
    assert faults(page) == []


def test_axe_looks_into_the_board(page: Page) -> None:
    """A board that is spoilt is found out: the looking glass works."""
    paper, ink = PAPERS["light"]
    open_boards(page, PROMOTION, html=PAGE.format(theme="light", paper=paper, ink=ink))
    board = page.locator(".chessnb-live").first
    board.locator("[data-action=turnBoard]").evaluate(
        "(word) => { word.style.color = '#ddd'; word.setAttribute('aria-pressed', 'perhaps'); }"
    )
    rules = {fault["rule"] for fault in faults(page)}
    assert {"color-contrast", "aria-valid-attr-value"} <= rules
