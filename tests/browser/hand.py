"""What a hand does on a live board, in a test."""

from __future__ import annotations

from playwright.sync_api import Locator


def square(board: Locator, name: str) -> Locator:
    """Return the cell of a square."""
    return board.locator(f"[data-square={name}]")


def click(board: Locator, *names: str) -> None:
    """Click squares one after the other."""
    for name in names:
        square(board, name).click()


def middle(board: Locator, name: str) -> tuple[float, float]:
    """Return the middle of a square, in the page's pixels."""
    box = square(board, name).bounding_box()
    assert box is not None, name
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def drag(board: Locator, start: str, end: str) -> None:
    """Drag from a square to another."""
    square(board, start).scroll_into_view_if_needed()
    mouse = board.page.mouse
    mouse.move(*middle(board, start))
    mouse.down()
    mouse.move(*middle(board, end), steps=6)
    mouse.up()


def finger(board: Locator, start: str, end: str) -> None:
    """Draw a finger from a square to another; needs a page with touch."""
    finger_to(board, middle(board, start), middle(board, end))


def finger_to(board: Locator, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw a finger from a place of the page to another; needs a page with touch.

    It rests a moment before it is lifted, as a finger does that aims: after a
    quick flick the browser takes the next tap for the end of a fling.
    """
    page = board.page
    touch = page.context.new_cdp_session(page)
    (x, y), (to_x, to_y) = start, end
    way = [(x + (to_x - x) * part / 6, y + (to_y - y) * part / 6) for part in range(7)]
    for kind, points in [
        ("touchStart", way[:1]),
        *(("touchMove", [point]) for point in (*way[1:], way[-1])),
        ("touchEnd", []),
    ]:
        if kind == "touchEnd":
            page.wait_for_timeout(150)
        touch.send(
            "Input.dispatchTouchEvent",
            {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in points]},
        )
    touch.detach()


def press_word(board: Locator, word: str) -> None:
    """Press a word under the board."""
    board.get_by_role("button", name=word, exact=True).click()


def type_move(board: Locator, text: str) -> None:
    """Type a move into the field and press Enter."""
    field = board.locator(".controls input")
    field.fill(text)
    field.press("Enter")


def label(board: Locator, name: str) -> str | None:
    """Return what a screen reader says of a square."""
    return square(board, name).get_attribute("aria-label")


def where(board: Locator) -> str:
    """Return the caption's sentence."""
    return board.locator(".where span").inner_text()


def note(board: Locator) -> str:
    """Return the answer under the caption, or nothing."""
    return board.locator(".note").first.text_content() or ""
