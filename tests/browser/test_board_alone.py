"""What the board does by itself in a browser, before any kernel has answered."""

import re
from typing import Any

import chess
import pytest
from browser.hand import click, drag, label, note, square, type_move, where
from browser.harness import open_boards, publish, sent, state_of
from browser.lab import eventually
from playwright.sync_api import Browser, Locator, Page, expect

START = chess.Board()
PROMOTION = chess.Board("1n2k3/P1P5/8/8/8/8/8/4K3 w - - 0 1")


def board_of(page: Page, index: int = 0) -> Locator:
    return page.locator(".chessnb-live").nth(index)


def ucis(page: Page) -> list[str]:
    return [message.get("uci", message.get("text", "")) for message in sent(page)]


# -- the keyboard -----------------------------------------------------------


def test_one_square_at_a_time_is_in_the_tab_order_and_arrows_move_as_seen(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    assert board.locator("[role=gridcell]").count() == 64
    assert board.locator("[role=grid] > [role=row]").count() == 8
    page.keyboard.press("Tab")
    expect(square(board, "e2")).to_be_focused()
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowUp")
    expect(square(board, "d3")).to_be_focused()
    assert board.locator("[role=gridcell][tabindex='0']").count() == 1
    for key, name in [("Home", "a3"), ("End", "h3"), ("Control+Home", "a8"), ("Control+End", "h1")]:
        page.keyboard.press(key)
        expect(square(board, name)).to_be_focused()
    for _ in range(2):  # the edge of the board holds the focus
        page.keyboard.press("ArrowRight")
    expect(square(board, "h1")).to_be_focused()


def test_a_turned_board_turns_the_arrows_too(page: Page) -> None:
    open_boards(page, START, turned=True)
    board = board_of(page)
    square(board, "e7").focus()
    page.keyboard.press("ArrowUp")
    expect(square(board, "e6")).to_be_focused()
    page.keyboard.press("ArrowLeft")
    expect(square(board, "f6")).to_be_focused()
    assert board.locator("[role=grid]").get_attribute("aria-label") == "Chess board, Black below"
    cells = board.locator("[role=gridcell]")
    assert cells.first.get_attribute("data-square") == "h1"


def test_escape_puts_a_lifted_piece_back(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    square(board, "g1").focus()
    page.keyboard.press("Enter")
    expect(square(board, "g1")).to_have_attribute("aria-selected", "true")
    assert label(board, "f3") == "f3, empty: may go here"
    page.keyboard.press("Escape")
    expect(board.locator("[aria-selected]")).to_have_count(0)
    assert label(board, "f3") == "f3, empty"
    assert sent(page) == []


def test_the_focus_can_be_seen(page: Page) -> None:
    open_boards(page, START)
    page.keyboard.press("Tab")
    shadow = square(board_of(page), "e2").evaluate("(cell) => getComputedStyle(cell).boxShadow")
    assert "rgb(0, 114, 178)" in shadow


# -- moves -------------------------------------------------------------------


def test_moves_show_at_once_while_nobody_answers_and_the_reader_is_told(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    click(board, "e2", "e4", "e7", "e5")
    drag(board, "g1", "f3")
    assert where(board) == "After 2. Nf3. Black to move."
    assert ucis(page) == ["e2e4", "e7e5", "g1f3"]
    expect(board.locator(".unheard")).to_have_text("3 moves not heard by Python yet.")
    state = state_of(START)
    client = sent(page)[0]["client"]
    publish(page, {**state, "moves": ["e2e4", "e7e5", "g1f3"], "ply": 3, "acks": {client: 3}})
    expect(board.locator(".unheard")).to_be_hidden()


def test_a_screen_reader_hears_moves_in_words(page: Page) -> None:
    open_boards(page, chess.Board("8/3k4/8/4p3/8/5N2/8/4K3 w - - 0 1"))
    board = board_of(page)
    click(board, "f3", "e5")
    live = board.locator(".heard-only[role=status]")
    expect(live).to_have_text("knight f3 takes e5, check")
    assert label(board, "d7") == "d7, black king, check"


def test_an_illegal_try_stays_on_the_board_and_is_asked_about(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    drag(board, "g1", "g5")
    assert note(board) == "The knight on g1 cannot go to g5."
    assert label(board, "g1") == "g1, white knight"
    assert [(m["kind"], m["text"]) for m in sent(page)] == [("typed", "g1g5")]
    click(board, "e7")
    assert note(board) == "It is White's move."
    click(board, "a1")
    assert note(board) == "The rook on a1 has no legal move."


def test_letting_go_outside_or_at_home_puts_the_piece_back(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    drag(board, "e2", "e2")
    square(board, "e2").hover()
    page.mouse.down()
    page.mouse.move(900, 850, steps=4)
    page.mouse.up()
    expect(board.locator("[aria-selected]")).to_have_count(0)
    assert board.locator("use[transform]").count() == 0
    assert sent(page) == []


def test_a_move_can_be_dragged_after_another_piece_was_lifted(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    click(board, "e2", "d2")
    expect(square(board, "d2")).to_have_attribute("aria-selected", "true")
    click(board, "d2")
    expect(board.locator("[aria-selected]")).to_have_count(0)
    click(board, "d2", "d4")
    assert ucis(page) == ["d2d4"]


@pytest.mark.parametrize(("choice", "uci"), [("q", "c7b8q"), ("ArrowRight Enter", "c7b8r")])
def test_promotion_by_keys(page: Page, choice: str, uci: str) -> None:
    open_boards(page, PROMOTION)
    board = board_of(page)
    click(board, "c7", "b8")
    expect(board.get_by_role("button", name="queen")).to_be_focused()
    for key in choice.split():
        page.keyboard.press(key)
    assert ucis(page) == [uci]
    expect(square(board, "b8")).to_be_focused()


def test_promotion_can_be_thought_better_of(page: Page) -> None:
    open_boards(page, PROMOTION)
    board = board_of(page)
    drag(board, "a7", "b8")
    page.keyboard.press("Escape")
    expect(board.locator(".promotion")).to_be_hidden()
    drag(board, "a7", "a8")
    board.get_by_role("button", name="put it back").click()
    assert sent(page) == []
    assert label(board, "a7") == "a7, white pawn"
    type_move(board, "a8")
    page.keyboard.press("b")
    assert ucis(page) == ["a7a8b"]
    expect(board.locator("input")).to_be_focused()


def test_words_turn_the_pages_and_keep_the_focus(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    back, on = board.locator("[data-action=back]"), board.locator("[data-action=on]")
    expect(back).to_have_attribute("aria-disabled", "true")
    click(board, "e2", "e4", "e7", "e5")
    back.click()
    assert where(board) == "After 1. e4. Black to move."
    on.click()
    assert where(board) == "After 1... e5. White to move."
    board.locator("[data-action=toStart]").click()
    assert where(board) == "White to move."
    expect(board.locator("[data-action=toStart]")).to_be_focused()
    board.locator("[data-action=turnBoard]").click()
    assert board.locator("[role=gridcell]").first.get_attribute("data-square") == "h1"


def test_a_finger_can_move_pieces(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 400, "height": 800}, has_touch=True)
    page = context.new_page()
    open_boards(page, START)
    board = board_of(page)
    square(board, "e2").tap()
    square(board, "e4").tap()
    assert ucis(page) == ["e2e4"]
    action = "(cell) => getComputedStyle(cell).touchAction"
    assert square(board, "e7").evaluate(action) == "none", "a finger drags a piece"
    assert square(board, "d5").evaluate(action) == "manipulation", "a finger scrolls the page"
    context.close()


def test_a_finger_reaches_every_word(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 400, "height": 800}, has_touch=True)
    page = context.new_page()
    open_boards(page, PROMOTION)
    board = board_of(page)
    square(board, "a7").tap()
    square(board, "a8").tap()
    board.get_by_role("button", name="rook").tap()
    eventually(lambda: ucis(page), ["a7a8r"])
    for word in ("turn the board", "back", "next", "back to the start"):
        board.get_by_role("button", name=word, exact=True).tap()
    eventually(lambda: [message.get("ply") for message in sent(page)][1:], [0, 1, 0])
    board.get_by_role("button", name="copy the position").tap()
    expect(board.locator("textarea")).to_be_visible()
    board.get_by_role("button", name="full screen").tap()
    expect(board.get_by_role("button", name="leave full screen")).to_be_visible()
    context.close()


def test_tab_goes_through_every_word_in_the_order_that_is_read(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    order = []
    for _ in range(12):
        page.keyboard.press("Tab")
        order.append(
            board.evaluate(
                "(host) => { const at = host.shadowRoot.activeElement;"
                " return at?.dataset.square ?? at?.dataset.action ?? at?.localName ?? ''; }"
            )
        )
    words = "e2 back on toStart turnBoard input pen setUp copyPosition copyLine fullScreen"
    assert order[:11] == words.split()
    assert order[11] == "", "and out of the board again"


def test_moves_are_shown_in_the_letters_that_were_asked_for(page: Page) -> None:
    begun = chess.Board()
    begun.push_san("Nf3")
    open_boards(page, begun, piece_letters="♙♘♗♖♕♔")
    board = board_of(page)
    assert where(board) == "After 1. ♘f3. Black to move."
    type_move(board, "Nf6")
    assert where(board) == "After 1... ♘f6. White to move."
    page.evaluate("models[0].set('piece_letters', 'PCFTDR')")
    assert where(board) == "After 1... Cf6. White to move."
    type_move(board, "Nc3")
    assert where(board) == "After 1... Cf6. White to move."
    assert sent(page)[-1]["kind"] == "typed", "Python is asked: it is no French move"
    type_move(board, "Cc3")
    assert where(board) == "After 2. Cc3. Black to move."
    live = board.locator("figcaption > .heard-only[role=status]")
    expect(live).to_have_text("knight b1 to c3")


def test_python_s_words_can_be_translated_and_are_never_markup(page: Page) -> None:
    words = {"back": "zurück", "figure": "<b>Abb.</b>"}
    open_boards(page, START, words=words)
    board = board_of(page)
    expect(board.locator("[data-action=back]")).to_have_text("zurück")
    assert board.locator(".where b").first.inner_text().lower() == "<b>abb.</b>"
    type_move(board, "<img src=x>")
    assert note(board) == "“<img src=x>” is not a legal move here."
    publish(page, {**state_of(START), "trouble": "<img src=x>"})
    assert board.locator("img").count() == 0


def test_a_screen_readers_click_takes_and_puts(page: Page) -> None:
    open_boards(page, START)
    board = board_of(page)
    for name in ("e2", "e4"):
        square(board, name).evaluate("(cell) => cell.click()")
    assert ucis(page) == ["e2e4"]


def test_two_boards_in_a_page_do_not_disturb_each_other(page: Page) -> None:
    open_boards(page, START, PROMOTION)
    click(board_of(page, 0), "e2", "e4")
    assert where(board_of(page, 1)) == "White to move."
    assert sent(page, 1) == []


def test_a_board_that_is_taken_away_listens_no_more(page: Page) -> None:
    open_boards(page, START)
    page.evaluate("models[0].cleanup()")
    publish(page, {**state_of(START), "moves": ["e2e4"], "ply": 1})
    assert where(board_of(page)) == "White to move."


# -- the look ------------------------------------------------------------------


@pytest.mark.parametrize("width", [320, 360, 800, 1400])
def test_the_board_fits_its_page(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 900})
    open_boards(page, START)
    click(board_of(page), "g1")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    box = board_of(page).locator("svg").bounding_box()
    assert box is not None
    assert min(width - 20, 420) <= box["width"] <= 430 or box["width"] >= width - 20


@pytest.mark.thorough
def test_what_can_be_pressed_is_large_enough(page: Page) -> None:
    """WCAG 2.2, success criterion 2.5.8 (AA): 24 by 24 CSS pixels."""
    page.set_viewport_size({"width": 320, "height": 900})
    open_boards(page, PROMOTION)
    board = board_of(page)
    click(board, "c7", "c8")
    pressed = [*board.locator(".promotion button").all(), *board.locator("[role=gridcell]").all()]
    board_boxes = [part.bounding_box() for part in pressed]
    page.keyboard.press("Escape")
    board_boxes += [part.bounding_box() for part in board.locator(".controls button, input").all()]
    assert len(board_boxes) == 5 + 64 + 5
    for box in board_boxes:
        assert box is not None
        assert min(box["width"], box["height"]) >= 24, box


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_words_stand_out_from_the_page(page: Page, theme: str) -> None:
    """WCAG 2.2, success criterion 1.4.3 (AA): 4.5 to 1."""
    paper = {"light": "#ffffff", "dark": "#111111"}[theme]
    open_boards(page, START, html=f"<body data-theme={theme} style='background:{paper}'></body>")
    board = board_of(page)
    type_move(board, "Bg5")
    board.locator(".unheard").wait_for(state="visible")
    for selector in (
        ".where",
        "[data-action=back]",
        "[data-action=turnBoard]",
        ".note",
        ".unheard",
    ):
        colour = board.locator(selector).first.evaluate("(e) => getComputedStyle(e).color")
        assert contrast(_rgb(colour), _rgb_of_hex(paper)) >= 4.5, (selector, colour)


def contrast(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    """Return the contrast ratio as WCAG 2.2 defines it."""
    bright, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def _luminance(colour: tuple[int, ...]) -> float:
    parts = [value / 255 for value in colour]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return sum(weight * p for weight, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def _rgb(text: str) -> tuple[int, ...]:
    return tuple(int(number) for number in re.findall(r"\d+", text)[:3])


def _rgb_of_hex(text: str) -> tuple[int, ...]:
    return tuple(bytes.fromhex(text[1:]))


@pytest.mark.parametrize(("motion", "glides"), [("no-preference", True), ("reduce", False)])
def test_a_piece_glides_only_if_the_reader_likes_motion(
    page: Page, motion: Any, glides: bool
) -> None:
    page.emulate_media(reduced_motion=motion)
    open_boards(page, START)
    page.evaluate(
        "() => { window.glides = []; const animate = Element.prototype.animate;"
        " Element.prototype.animate = function (frames, how) {"
        " window.glides.push(how.duration); return animate.call(this, frames, how); }; }"
    )
    click(board_of(page), "e2", "e4")
    durations = page.evaluate("window.glides")
    assert bool(durations) == glides
    assert all(duration <= 120 for duration in durations)


def test_print_is_light_and_without_controls(page: Page) -> None:
    open_boards(page, START, html="<body data-theme=dark></body>")
    page.emulate_media(media="print", color_scheme="dark")
    board = board_of(page)
    card = board.locator("rect").first
    assert card.evaluate("(rect) => getComputedStyle(rect).fill") == "rgb(251, 250, 245)"
    expect(board.locator(".controls")).to_be_hidden()
