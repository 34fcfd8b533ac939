"""A page that asks a question of any kind: typed, graded, its reason on the board, by keys and by touch."""

import json

import pytest
from browser.exploring import Exploring, open_explorer
from browser.lab import eventually
from playwright.sync_api import Browser, Page, expect

from chessnb import Lesson, facts, questions
from chessnb.findings.gathering import close_page, open_page
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

HTML = (
    "<!doctype html><html lang=en><title>A page</title><body style='margin: 0 20px'></body></html>"
)
LESSON = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 d6 4. d4 {The pin bites.} *")
AT = LESSON.after("3... d6")


def graded(asked):
    gathering = open_page()
    facts.material(AT)
    close_page()
    return PageSpread(Spread(moment=AT, asked=asked, parts=tuple(gathering.parts)))


@pytest.fixture
def x(page: Page) -> Exploring:
    page.set_viewport_size({"width": 1400, "height": 900})
    return open_explorer(page, graded(questions.pinned(AT)), html=HTML)


def lit(x: Exploring) -> int:
    return x.board.locator("[data-layer=under] > *, [data-layer=over] > *").count()


def test_an_answer_is_graded_and_its_reason_drawn(x: Exploring) -> None:
    form = x.room.locator(".graded")
    held = x.page.evaluate("document.querySelector('.chessnb-live').shadowRoot.innerHTML")
    assert "knight on c6" not in held
    assert "on c6" not in json.dumps(x.explorer.spread)
    field = form.get_by_role("textbox", name="your answer")
    field.fill("d7")
    field.press("Enter")
    verdict = form.locator(".verdict")
    expect(verdict).to_have_attribute("data-result", "wrong")
    assert lit(x) == 0
    field.fill("nonsense")
    field.press("Enter")
    expect(verdict).to_have_attribute("data-result", "unread")
    field.fill("the knight on c6")
    field.press("Enter")
    expect(verdict).to_have_text("Right: the knight on c6.")
    assert lit(x) > 0


def test_hints_come_one_by_one_and_the_answer_when_it_is_asked_for(x: Exploring) -> None:
    form = x.room.locator(".graded")
    for number in range(1, 4):
        form.get_by_role("button", name="give me a hint").click()
        expect(form.locator(".hints li")).to_have_count(number)
        if number < 3:
            assert "c6" not in form.locator(".hints").inner_text()
    expect(form.get_by_role("button", name="no more hints")).to_have_attribute(
        "aria-disabled", "true"
    )
    x.word("main").click()
    eventually(lambda: "Answer:" in x.room.locator(".prose").inner_text(), True)
    assert "the knight on c6" in x.room.locator(".prose").inner_text()


def test_the_keyboard_alone_is_enough(x: Exploring) -> None:
    x.room.locator(".graded input").focus()
    x.page.keyboard.type("c6")
    x.page.keyboard.press("Tab")
    x.page.keyboard.press("Enter")
    expect(x.room.locator(".graded .verdict")).to_have_attribute("data-result", "right")


def test_what_shows_a_move_is_played_on_the_page(page: Page) -> None:
    page.set_viewport_size({"width": 1400, "height": 900})
    x = open_explorer(page, graded(questions.checks(AT)), html=HTML)
    field = x.room.locator(".graded input")
    field.fill("Bxc6+")
    field.press("Enter")
    expect(x.room.locator(".graded .verdict")).to_have_attribute("data-result", "right")
    assert x.room.locator(".prose").inner_text().count("Which checks") == 1


@pytest.mark.thorough
def test_by_touch_on_a_phone(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    x = open_explorer(page, graded(questions.pinned(AT)), html=HTML)
    field = x.room.locator(".graded input")
    field.tap()
    page.keyboard.type("c6")
    x.room.locator(".graded").get_by_role("button", name="answer").tap()
    expect(x.room.locator(".graded .verdict")).to_have_attribute("data-result", "right")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    context.close()
