"""Drawing with the pen: by mouse, keys, finger and typing, before any kernel has answered."""

from typing import Any

import chess
import pytest
from browser.hand import (
    click,
    drag,
    finger,
    label,
    middle,
    note,
    press_word,
    square,
    type_move,
    where,
)
from browser.harness import open_boards, publish, sent, state_of
from playwright.sync_api import Browser, Locator, Page, expect

START = chess.Board()
FORCE = {"role": "force", "square": "c3", "to": "f6"}
RING = {"role": "actor", "square": "f6", "to": None}


def board_with_pen(page: Page, board: chess.Board = START, **values: Any) -> Locator:
    """Open a board and take the pen."""
    open_boards(page, board, **values)
    found = page.locator(".chessnb-live").first
    press_word(found, "draw on the board")
    return found


def strokes(page: Page) -> list[tuple[str, Any]]:
    """Return what the board has told Python of its strokes."""
    return [(message["kind"], message.get("mark")) for message in sent(page)]


def drawn(board: Locator) -> str:
    """Return what a screen reader finds beside the board."""
    return board.locator(".field > .heard-only").text_content() or ""


def heard(board: Locator) -> str:
    """Return what a screen reader was told last."""
    return board.locator("figcaption > .heard-only[role=status]").text_content() or ""


def test_a_drag_draws_a_line_a_press_a_ring_and_the_same_again_takes_them_away(page: Page) -> None:
    board = board_with_pen(page)
    drag(board, "c3", "f6")
    click(board, "f6")
    assert strokes(page) == [("draw", FORCE), ("draw", RING)]
    assert board.locator("[data-layer=over] path").count() == 2, "the line and its rim"
    assert board.locator("[data-layer=under] path").count() == 2, "the ring and its rim"
    drag(board, "c3", "f6")
    click(board, "f6")
    assert strokes(page)[2:] == [("erase", FORCE), ("erase", RING)]
    assert board.locator("[data-layer=over] path, [data-layer=under] path").count() == 0


def test_pieces_stay_where_they_are_while_the_pen_is_in_use(page: Page) -> None:
    board = board_with_pen(page)
    drag(board, "e2", "e4")
    assert strokes(page) == [("draw", {"role": "force", "square": "e2", "to": "e4"})]
    assert where(board) == "White to move."
    assert board.locator("use[transform]").count() == 0
    press_word(board, "draw on the board")
    expect(board.locator("[data-action=pen]")).to_have_attribute("aria-pressed", "false")
    drag(board, "e2", "e4")
    assert where(board) == "After 1. e4. Black to move."


def test_the_line_is_seen_while_it_is_drawn_and_leaving_the_board_drops_it(page: Page) -> None:
    board = board_with_pen(page)
    draft = board.locator("[data-layer=draft] path")
    square(board, "c3").hover()
    page.mouse.down()
    page.mouse.move(*middle(board, "f6"), steps=4)
    assert draft.count() == 2
    page.mouse.move(950, 850)
    assert draft.count() == 0
    page.mouse.up()
    assert strokes(page) == []


@pytest.mark.parametrize(
    ("role", "way", "mark"),
    [
        ("blocked", ("g4", "d1"), {"role": "blocked", "square": "g4", "to": "d1"}),
        ("target", ("d8", "d8"), {"role": "target", "square": "d8", "to": None}),
        ("lure", ("h3", "h3"), {"role": "lure", "square": "h3", "to": None}),
    ],
)
def test_a_word_chooses_what_the_strokes_mean(
    page: Page, role: str, way: tuple[str, str], mark: dict[str, Any]
) -> None:
    board = board_with_pen(page)
    word = board.get_by_role("button", name=role, exact=True)
    word.click()
    expect(word).to_have_attribute("aria-pressed", "true")
    if way[0] == way[1]:
        click(board, way[0])
    else:
        drag(board, *way)
    assert strokes(page) == [("draw", mark)]


def test_the_keyboard_alone_draws(page: Page) -> None:
    board = board_with_pen(page)
    square(board, "c3").focus()
    page.keyboard.press("Enter")
    assert heard(board) == "line from c3: where to?"
    expect(square(board, "c3")).to_have_attribute("aria-selected", "true")
    for key in ["ArrowRight", "ArrowUp"] * 3 + ["Enter"]:
        page.keyboard.press(key)
    assert heard(board) == "line of force from c3 to f6 drawn"
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    assert heard(board) == "ring on f6 drawn"
    assert strokes(page) == [("draw", FORCE), ("draw", RING)]
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    assert heard(board) == "nothing drawn"
    assert len(strokes(page)) == 2
    expect(square(board, "f6")).to_be_focused()


def test_a_screen_reader_finds_the_strokes(page: Page) -> None:
    board = board_with_pen(page)
    type_move(board, "c3-f6, f6")
    assert drawn(board) == "Drawn: line of force from c3 to f6, ring on f6."
    grid = board.locator("[role=grid]")
    described = grid.get_attribute("aria-describedby")
    assert board.locator(f"#{described}").text_content() == drawn(board)
    assert label(board, "c3") == "c3, empty; line of force from c3 to f6"
    assert label(board, "f6") == "f6, empty; line of force from c3 to f6, ring on f6"
    board.get_by_role("button", name="wipe").click()
    assert heard(board) == "the drawing is wiped away"
    assert grid.get_attribute("aria-describedby") is None
    assert strokes(page)[-1] == ("wipe", None)
    expect(board.get_by_role("button", name="wipe")).to_have_attribute("aria-disabled", "true")
    board.get_by_role("button", name="wipe").click(force=True)
    assert len(strokes(page)) == 3


def test_strokes_are_typed_into_the_same_field(page: Page) -> None:
    board = board_with_pen(page)
    assert board.locator(".controls label").inner_text().strip() == "line or square"
    for text in ("c3-f6", "f6"):
        type_move(board, text)
        assert board.locator("input").input_value() == ""
    assert strokes(page) == [("draw", FORCE), ("draw", RING)]
    type_move(board, "Nf3")
    assert note(board) == "“Nf3” cannot be drawn: type c3-f6 for a line, f6 for one square."
    assert board.locator("input").get_attribute("aria-invalid") == "true"
    assert where(board) == "White to move."
    press_word(board, "draw on the board")
    assert board.locator(".controls label").inner_text().strip() == "move"
    assert note(board) == ""
    type_move(board, "Nf3")
    assert where(board) == "After 1. Nf3. Black to move."


def test_a_finger_draws_and_does_not_scroll_the_page(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 400, "height": 500}, has_touch=True)
    page = context.new_page()
    board = board_with_pen(page)
    finger(board, "c3", "f6")
    square(board, "f6").tap()
    assert strokes(page) == [("draw", FORCE), ("draw", RING)]
    assert page.evaluate("scrollY") == 0
    action = "(cell) => getComputedStyle(cell).touchAction"
    assert square(board, "d5").evaluate(action) == "none"
    press_word(board, "draw on the board")
    assert square(board, "d5").evaluate(action) == "manipulation"
    context.close()


def test_strokes_stay_with_their_position(page: Page) -> None:
    board = board_with_pen(page)
    drag(board, "c3", "f6")
    press_word(board, "draw on the board")
    click(board, "e2", "e4")
    assert drawn(board) == ""
    press_word(board, "back")
    assert drawn(board) == "Drawn: line of force from c3 to f6."
    press_word(board, "next")
    assert drawn(board) == ""


def test_strokes_that_python_draws_are_shown_and_heard(page: Page) -> None:
    open_boards(page, START)
    board = page.locator(".chessnb-live").first
    square(board, "e2").focus()
    page.keyboard.press("Enter")
    publish(page, {**state_of(START), "marks": {"": [FORCE]}})
    assert drawn(board) == "Drawn: line of force from c3 to f6."
    assert heard(board) == "line of force from c3 to f6 drawn"
    expect(square(board, "e2")).to_have_attribute("aria-selected", "true")


def test_the_reader_is_told_of_strokes_that_nobody_hears(page: Page) -> None:
    board = board_with_pen(page)
    drag(board, "c3", "f6")
    click(board, "f6")
    expect(board.locator(".unheard")).to_have_text("2 steps not heard by Python yet.")
