"""A page on the whole screen, in front of a class: what fits, how large it is, and the keys."""

from __future__ import annotations

import pytest
from browser.exploring import Exploring, open_explorer
from browser.lab import eventually
from playwright.sync_api import Page, expect

from chessnb import Lesson, claims
from chessnb.findings.gathering import close_page, open_page
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

GAME = """\
[Event "Club evening"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/1r6/5PPP/R2R2K1 w - - 0 30"]
[Result "*"]

30. Rd8# {The king has no air.} (30. h3 Rb8 31. Ra6) *
"""
EIGHT = ["Rd8", "h3", "Ra8", "Rd7", "g3", "Kf1", "Rab1", "Ra7"]
LONG = " ".join(["Give your king air before the heavy pieces come to the back rank."] * 20)
HTML = "<!doctype html><html lang=en><title>A page</title><body style='margin: 0'></body></html>"


def in_hall(page: Page, width: int, height: int) -> Exploring:
    page.set_viewport_size({"width": width, "height": height})
    lesson = Lesson.from_text(GAME, title="Back rank")
    gathering = open_page()
    claims.mates(lesson.start, within=1, move="Rd8#")
    close_page()
    parts = tuple(gathering.parts)
    spread = Spread(moment=lesson.start, ask="find the move", parts=parts, remember=LONG)
    x = open_explorer(page, PageSpread(spread), html=HTML)
    x.room.locator("[data-action=hall]").click()
    page.wait_for_function("() => document.fullscreenElement !== null")
    expect(x.room.locator("[data-action=hall]")).to_have_text("leave full screen")
    return x


def where(x: Exploring) -> str:
    return x.room.locator(".where span").inner_text()


def call_out(x: Exploring) -> None:
    """Have the class call eight moves, and the teacher check them."""
    x.page.keyboard.press("c")
    field = x.room.locator("figure .controls input")
    for number, move in enumerate(EIGHT, 1):
        field.fill(move)
        field.press("Enter")
        expect(x.room.locator(".candidates li:not(.none)")).to_have_count(number)
    x.room.locator(".text").click(position={"x": 2, "y": 2})
    x.page.keyboard.press("j")
    expect(x.room.locator(".candidates .answer")).to_have_count(8, timeout=20_000)


MEASURE = """() => {
  const room = document.querySelector(".chessnb-live").shadowRoot;
  const boxes = (what) => [...room.querySelectorAll(what)].map((one) => one.getBoundingClientRect());
  const inside = (box) => box.left >= 0 && box.top >= 0 && box.right <= innerWidth + 1 && box.bottom <= innerHeight + 1;
  const shown = [...boxes(".candidates li"), ...boxes(".controls > *"), ...boxes(".field")].filter((box) => box.width);
  const text = room.querySelector(".text");
  const sizes = [...room.querySelectorAll(".candidates .answer, .prose p")].filter((one) => one.offsetHeight)
    .map((one) => parseFloat(getComputedStyle(one).fontSize) / innerHeight);
  const [board] = boxes(".field");
  return { all: shown.every(inside), scrolls: text.scrollHeight > text.clientHeight + 1,
    apart: text.getBoundingClientRect().bottom <= boxes("figcaption .controls")[0].top,
    smallest: Math.min(...sizes), board: board.height / innerHeight, left: board.left, right: board.right };
}"""


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1366, 768), (1920, 1080)])
def test_eight_candidates_fit_beside_the_board_and_are_read_from_the_last_row(
    page: Page, width: int, height: int
) -> None:
    x = in_hall(page, width, height)
    call_out(x)
    expect(x.room.locator(".of-question")).to_be_visible()
    seen = page.evaluate(MEASURE)
    assert seen["all"]
    assert seen["apart"]
    assert not seen["scrolls"]
    assert seen["smallest"] >= 0.035
    assert seen["board"] >= 0.9
    assert seen["left"] > width / 3
    page.keyboard.press("s")
    seen = page.evaluate(MEASURE)
    assert seen["right"] < width * 2 / 3
    assert seen["all"]


def test_a_presenter_s_remote_asks_tells_and_goes_back(page: Page) -> None:
    x = in_hall(page, 1280, 720)
    before = where(x)
    assert x.room.locator(".prose").inner_text().strip() == "White to move. Find the move."
    page.keyboard.press("PageDown")
    expect(x.room.locator(".prose")).to_contain_text("The king has no air.")
    told = page.evaluate(MEASURE)
    assert told["scrolls"], "the text is not long: the test is void"
    assert told["apart"]
    top = "document.querySelector('.chessnb-live').shadowRoot.querySelector('.text').scrollTop"
    page.keyboard.press("ArrowDown")
    eventually(lambda: page.evaluate(top) > 0, True)
    page.keyboard.press("PageDown")
    eventually(lambda: where(x).startswith("After 30. Rd8#"), True)
    page.keyboard.press("PageUp")
    eventually(lambda: where(x), before)
    page.keyboard.press("ArrowRight")
    eventually(lambda: where(x).startswith("After 30. Rd8#"), True)
    page.keyboard.press("b")
    expect(x.room.locator("figcaption > .note").first).to_contain_text("Marked: 30. Rd8#")
    assert page.evaluate(MEASURE)["smallest"] >= 0.035
    page.keyboard.press("ArrowLeft")
    eventually(lambda: where(x), before)
    x.room.locator("[data-action=hall]").click()
    page.wait_for_function("() => document.fullscreenElement === null")
    expect(x.room.locator("[data-action=hall]")).to_have_text("full screen")
    expect(x.room.locator("[data-action=side]")).to_be_hidden()
