"""A lesson that is one file, opened from the disk with no network: a student's whole path."""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest
from browser.hand import click, finger, press_word, type_move
from browser.lab import eventually
from playwright.sync_api import Browser, Locator, Page, expect
from publishing.copies import GAME, recorded_lesson

from chessnb.publishing import page_copied

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
PHONE = {"width": 360, "height": 740}


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("stick") / "lesson.html"
    page_copied(recorded_lesson(), path)
    return path.as_uri()


@pytest.fixture
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """The page on a phone without a network; it must ask for nothing and complain of nothing."""
    context = browser.new_context(viewport=PHONE, has_touch=True, offline=True)
    page = context.new_page()
    page.set_default_timeout(20_000)
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.on("request", lambda asked: wrong.append(asked.url) if asked.url != address else None)
    page.goto(address)
    page.wait_for_selector(".step .chessnb-live")
    yield page
    context.close()
    assert wrong == []


def board(page: Page, step: int) -> Locator:
    return page.locator(f".step[data-step='{step}'] .chessnb-live")


def note(page: Page, step: int) -> str:
    return board(page, step).locator("figcaption .note.answers").inner_text()


def steps(page: Page) -> int:
    return page.locator(".step").count()


def main_word(page: Page, step: int) -> Locator:
    return board(page, step).locator("button.main")


def test_a_student_tries_finds_the_move_is_told_and_goes_on(phone: Page) -> None:
    first = board(phone, 1)
    assert steps(phone) == 1
    expect(phone.locator(".waits")).to_contain_text("The next step opens when")
    expect(first.locator(".prose")).to_contain_text("Black to move. Find the move.")
    type_move(first, "Qe7")
    eventually(lambda: bool(note(phone, 1)), True)
    assert steps(phone) == 1
    press_word(first, "try again")
    type_move(first, "Nf6")  # the lesson's own move, and a bad one: it says so and opens nothing
    eventually(lambda: "That was played in the game" in note(phone, 1), True)
    assert steps(phone) == 1
    press_word(first, "show the answer")
    expect(first.locator(".prose")).to_contain_text("The calm one.")
    eventually(lambda: steps(phone), 2)
    expect(phone.locator(".step[data-step='2']")).to_contain_text("Here 3... Nf6 was played.")
    second = board(phone, 2)
    type_move(second, "Qxf7#")
    eventually(lambda: "the lesson's move" in note(phone, 2), True)
    eventually(lambda: steps(phone), 3)
    expect(phone.locator(".step[data-step='3']")).to_contain_text("What to remember")
    expect(phone.locator(".waits")).to_have_count(0)
    main_word(phone, 2).click()
    expect(second.locator(".prose")).to_contain_text("Mate.")


def test_a_finger_plays_and_the_page_fits_a_phone(phone: Page) -> None:
    finger(board(phone, 1), "g7", "g6")
    eventually(lambda: bool(note(phone, 1)), True)
    assert phone.evaluate("document.documentElement.scrollWidth") == PHONE["width"]


def test_the_keyboard_alone_goes_all_the_way(phone: Page) -> None:
    first = board(phone, 1)
    first.locator(".controls input").focus()
    phone.keyboard.type("Qe7")
    phone.keyboard.press("Enter")
    eventually(lambda: bool(note(phone, 1)), True)
    first.get_by_role("button", name="show the answer", exact=True).focus()
    phone.keyboard.press("Enter")
    eventually(lambda: steps(phone), 2)


def test_a_move_that_cannot_be_played_is_refused(phone: Page) -> None:
    type_move(board(phone, 1), "Qa5")
    expect(board(phone, 1).locator("figcaption")).to_contain_text("cannot be played")


def test_behind_the_first_move_the_page_says_that_it_knows_no_more(phone: Page) -> None:
    first = board(phone, 1)
    type_move(first, "a6")
    eventually(lambda: bool(note(phone, 1)), True)
    click(first, "a2", "a3")
    eventually(lambda: "and no more" in note(phone, 1), True)


def test_a_step_may_be_opened_all_the_same(phone: Page) -> None:
    phone.get_by_role("button", name="open it all the same").click()
    eventually(lambda: steps(phone), 2)
    expect(phone.locator(".waits")).to_have_count(1)


def test_what_is_not_asked_for_is_not_in_the_document(phone: Page) -> None:
    held = phone.evaluate(
        "[...document.querySelectorAll('.chessnb-live')].map(one => one.shadowRoot.innerHTML).join() + "
        "document.querySelector('main').innerHTML"
    )
    for secret in ("Nf6", "g8f6", "Qxf7", "calm one", "What to remember", "Mate."):
        assert secret not in held


def test_a_damaged_part_is_said_to_be_damaged(
    browser: Browser, address: str, tmp_path: Path
) -> None:
    text = Path(address.removeprefix("file://")).read_text(encoding="utf-8")
    begin = text.index('"answers 1": "') + len('"answers 1": "')
    broken = tmp_path / "broken.html"
    broken.write_text(text[:begin] + "AAAA" + text[begin + 4 :], encoding="utf-8")
    context = browser.new_context(viewport=PHONE, offline=True)
    page = context.new_page()
    page.goto(broken.as_uri())
    page.wait_for_selector(".step .chessnb-live")
    type_move(board(page, 1), "Qe7")
    expect(board(page, 1).locator("figcaption")).to_contain_text("damaged")
    context.close()


def test_hostile_comments_run_nothing(browser: Browser, tmp_path: Path) -> None:
    hostile = "</script><script>window.hacked=1</script><img src=x onerror='window.hacked=1'>"
    path = tmp_path / "hostile.html"
    game = GAME.replace("The calm one.", hostile).replace("Pellwick aims at f7.", hostile)
    page_copied(recorded_lesson(game, title=hostile), path)
    context = browser.new_context(viewport=PHONE, offline=True)
    page = context.new_page()
    page.goto(path.as_uri())
    page.wait_for_selector(".step .chessnb-live")
    press_word(board(page, 1), "show the answer")
    expect(board(page, 1).locator(".prose")).to_contain_text("window.hacked=1")
    assert page.evaluate("window.hacked") is None
    assert hostile in page.locator("h1").inner_text()
    context.close()


@pytest.mark.thorough
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_axe_core_finds_nothing(browser: Browser, address: str, scheme: str, width: int) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 800},
        color_scheme=scheme,
        offline=True,  # type: ignore[arg-type]
    )
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector(".step .chessnb-live")
    press_word(board(page, 1), "show the answer")
    eventually(lambda: steps(page), 2)
    type_move(board(page, 2), "Qf3")
    eventually(lambda: bool(note(page, 2)), True)
    board(page, 2).locator("[data-action=tools]").click()
    page.evaluate(f"{AXE}; 0")
    found = page.evaluate("axe.run()")
    said = [
        (one["id"], [node["html"][:120] for node in one["nodes"]]) for one in found["violations"]
    ]
    assert said == [], json.dumps(said, indent=1)
    context.close()
