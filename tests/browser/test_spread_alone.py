"""A page in a browser: what is asked, what is told when it is asked for, and one board for all of it."""

import json

import pytest
from bench.page_paint import PAGES, PAINT_MS, STEP_MS, painted, spreads, steps
from browser.exploring import Exploring, open_explorer
from browser.lab import eventually
from playwright.sync_api import Page, expect

from chessnb import Lesson, claims, facts, motifs, reply_table
from chessnb.findings.gathering import close_page, open_page
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

GAME = """\
[Event "Club evening"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/1r6/5PPP/R2R2K1 w - - 0 30"]
[Result "*"]

30. Rd8# {On the back rank.} (30. h3 {Calm, and too slow.} Rb8 31. Ra6) *
"""
HTML = (
    "<!doctype html><html lang=en><title>A page</title><body style='margin: 0 20px'></body></html>"
)


def spread(ask="find the move", **more):
    lesson = Lesson.from_text(GAME, title="Back rank")
    gathering = open_page()
    m = lesson.start
    m.after("Rd8").changes()
    claims.mates(m, within=1, move="Rd8#")
    reply_table(m.after("Rd8"))
    motifs.tag(m, "Rd8#")
    facts.material(m)
    close_page()
    moment = m if ask else m.after("Rd8")
    return Spread(moment=moment, ask=ask, parts=tuple(gathering.parts), **more)


@pytest.fixture
def x(page: Page) -> Exploring:
    page.set_viewport_size({"width": 1400, "height": 900})
    return open_explorer(page, PageSpread(spread(remember="Give your king air.")), html=HTML)


def texts(x: Exploring) -> str:
    return x.room.locator(".prose").inner_text().replace("\xa0", " ")


def lit(x: Exploring) -> int:
    """How many marks are drawn on the board."""
    return x.board.locator("[data-layer=under] > *, [data-layer=over] > *").count()


def test_the_question_stands_there_and_the_answer_is_nowhere(x: Exploring) -> None:
    assert texts(x).strip() == "White to move. Find the move."
    held = x.page.evaluate("document.querySelector('.chessnb-live').shadowRoot.innerHTML")
    state = json.dumps({name: getattr(x.explorer, name) for name in ("tree", "spread", "words")})
    for secret in ("Rd8", "d1d8", "back rank", "h3 ", "too slow", "Give your king air", "mates in"):
        assert secret not in held.replace("data-square", "")
        assert secret not in state
    assert x.word("main").inner_text() == "show the answer"


def test_a_wrong_try_is_answered_under_the_caption_and_tried_again(x: Exploring) -> None:
    x.type("Kf1")
    eventually(lambda: x.note != "", True)
    caption = x.board.locator("figcaption > *")
    assert caption.nth(0).get_attribute("class") == "where"
    assert "note" in (caption.nth(1).get_attribute("class") or "")
    assert x.word("main").inner_text() == "try again"
    assert x.word("showAnswer").inner_text() == "show the answer"
    x.word("main").click()
    assert x.where == "Start. White to move."
    expect(x.room.locator(".tried")).to_have_text("Tried: Kf1 ")


def test_the_lessons_move_is_right_and_next_tells_the_rest(x: Exploring) -> None:
    x.type("Rd8#")
    eventually(lambda: x.note, "That is the lesson's move.")
    assert "On the back rank" not in texts(x)
    assert x.word("main").inner_text() == "next"
    x.word("main").click()
    eventually(lambda: "On the back rank." in texts(x), True)
    for told in ("30. Rd8#", "White mates in 1", "Calm, and too slow.", "Give your king air."):
        assert told in texts(x)
    assert texts(x).count("On the back rank.") == 1


def test_every_move_that_is_as_good_is_right_and_a_slower_one_is_not(page: Page) -> None:
    both = GAME.replace("8/1r6/5PPP", "8/8/5PPP").replace("Rb8 31. Ra6", "h6 31. Ra6")
    moment = Lesson.from_text(both).start
    x = open_explorer(page, PageSpread(Spread(moment=moment, ask="find the move")), html=HTML)
    x.type("h4")
    eventually(lambda: x.note != "", True)
    assert x.word("main").inner_text() == "try again"
    x.word("main").click()
    x.type("Ra8#")
    eventually(lambda: x.note, "As good as the lesson's move: checkmate.")
    assert x.word("main").inner_text() == "next"


def test_whoever_asks_is_told(x: Exploring) -> None:
    x.word("main").click()
    eventually(lambda: "On the back rank." in texts(x), True)
    assert x.word("main").inner_text() == "next: 30. Rd8#"
    x.word("main").click()
    assert x.where == "After 30. Rd8#. Checkmate: White wins."
    assert x.word("main").inner_text() == "back to the position"
    x.word("main").click()
    assert x.where == "Start. White to move."


def test_pointing_draws_on_the_board_for_as_long(x: Exploring) -> None:
    x.word("main").click()
    changes = x.room.locator(".of-changes")
    changes.hover()
    eventually(lambda: x.where, "After 30. Rd8#. Checkmate: White wins.")
    assert lit(x) > 0
    x.page.mouse.move(700, 880)
    eventually(lambda: x.where, "Start. White to move.")
    assert lit(x) == 0


def test_choosing_by_keys_stays_and_there_is_a_way_back(x: Exploring) -> None:
    x.word("main").click()
    sideline = x.room.locator(".of-sideline")
    sideline.focus()
    sideline.press("Enter")
    assert x.where == "Start. White to move."
    assert x.word("main").inner_text() == "next: 30. h3"
    x.word("main").click()
    x.word("main").click()
    assert x.where == "After 30... Rb8. White to move."
    x.word("toPosition").click()
    assert x.where == "Start. White to move."
    assert x.word("main").inner_text() == "next: 30. Rd8#"


def test_one_main_word_and_few_others_are_in_sight(x: Exploring) -> None:
    for _ in range(2):
        assert x.room.locator("button.main:visible").count() == 1
        assert x.room.locator("button:visible:not(.main)").count() <= 5
        x.word("main").click()
        eventually(lambda: "On the back rank." in texts(x), True)


def test_tools_wait_behind_one_word(x: Exploring) -> None:
    assert not x.room.locator(".drawer").is_visible()
    x.word("tools").click()
    for action in ("turnBoard", "pen", "copyPosition", "threat", "forClass"):
        assert x.word(action).is_visible()
    x.word("tools").click()
    assert not x.room.locator(".drawer").is_visible()


def test_a_page_that_asks_nothing_tells_at_once(page: Page) -> None:
    x = open_explorer(page, PageSpread(spread(ask=None)), html=HTML)
    assert "White mates in 1" in texts(x)
    assert "Calm, and too slow." in texts(x)


@pytest.mark.parametrize(("width", "columns"), [(1400, 2), (900, 2), (390, 1)])
def test_text_and_board_share_the_page(page: Page, width: int, columns: int) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    x = open_explorer(page, PageSpread(spread()), html=HTML)
    x.word("main").click()
    text, board = (x.room.locator(one).bounding_box() for one in (".prose", ".field"))
    assert text
    assert board
    assert (text["x"] + text["width"] <= board["x"] + 1) == (columns == 2)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert text["width"] <= 34 * 16 + 1


def test_the_mark_is_found_from_any_page_of_the_lesson(page: Page) -> None:
    x = open_explorer(page, PageSpread(spread(ask=None)), html=HTML)
    told, asked = x.page.locator(".explorer").nth(0), x.page.locator(".explorer").nth(1)
    Exploring(page=page, explorer=PageSpread(spread())).add()
    told.locator("[data-action=tools]").click()
    told.locator("[data-action=forClass]").click()
    told.locator("[data-action=setMark]").click()
    told.locator("[data-action=back]").first.click()
    asked.locator("[data-action=tools]").click()
    asked.locator("[data-action=forClass]").click()
    asked.scroll_into_view_if_needed()
    expect(asked.locator("[data-action=goToMark]")).to_have_text("to the mark (30. Rd8#)")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    asked.locator("[data-action=goToMark]").click()
    expect(told.locator(".where").first).to_contain_text("After 30. Rd8#")
    expect(asked.locator(".where").first).to_contain_text("Start. White to move.")
    expect(told.locator("[data-action=tools]")).to_be_focused()
    box = told.bounding_box()
    assert box is not None
    assert -1 <= box["y"] < 40


def test_a_student_s_page_has_no_tools_of_a_teacher_s(page: Page) -> None:
    live = PageSpread(spread())
    live.students = True
    x = open_explorer(page, live, html=HTML)
    x.word("main").click()
    x.word("tools").click()
    assert x.word("copyPosition").is_visible()
    for action in ("forClass", "setMark", "candidates", "cellLesson"):
        expect(x.room.locator(f"[data-action={action}]:visible")).to_have_count(0)
    assert "cell" not in x.room.inner_text()
    x.room.locator("[data-action=hall]").click()
    page.wait_for_function("() => document.fullscreenElement !== null")
    page.keyboard.press("c")
    expect(x.room.locator("[data-action=candidates]:visible")).to_have_count(0)


@pytest.mark.thorough
def test_twelve_pages_in_one_window_stay_quick(page: Page) -> None:
    page.set_viewport_size({"width": 1400, "height": 900})
    paints = painted(page, spreads(PAGES))  # the bench says how quick; this, that it is not slow
    assert sorted(paints)[PAGES // 2] < 3 * PAINT_MS
    times = [time for number in (0, PAGES - 1) for time in steps(page, number)]
    assert sorted(times)[len(times) // 2] < STEP_MS


def test_on_a_phone_the_board_and_its_words_stay_while_the_text_is_read(page: Page) -> None:
    page.set_viewport_size({"width": 390, "height": 700})
    x = open_explorer(page, PageSpread(spread(remember="Give your king air. " * 30)), html=HTML)
    x.word("main").click()
    last = x.room.locator(".of-remember")
    last.scroll_into_view_if_needed()
    expect(x.board.locator(".where")).to_be_in_viewport(ratio=1)
    expect(x.word("main")).to_be_in_viewport(ratio=1)
    board, caption, text = (
        one.bounding_box()
        for one in (x.board.locator(".field"), x.board.locator("figcaption"), last)
    )
    assert board
    assert caption
    assert text
    assert board["y"] + board["height"] <= caption["y"] + 1
    assert caption["y"] + caption["height"] < text["y"] + text["height"]
    assert text["y"] + text["height"] <= 700 + 1
