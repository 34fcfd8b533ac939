"""The live chart on a page without a kernel: every point leads to its position."""

import pytest
from browser.exploring import open_chart
from playwright.sync_api import Locator, Page, expect

from chessnb import Lesson, charts
from chessnb.widgets.live_chart import LiveChart

pytestmark = pytest.mark.thorough

GAME = "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. Nxe5 Qd4 6. Nf3 Qxe4+ *"
LESSON = Lesson.from_text(GAME)


@pytest.fixture
def room(page: Page) -> Locator:
    return open_chart(page, LiveChart(charts.material(LESSON)))


def where(room: Locator) -> str:
    return room.locator(".where span").inner_text()


def press_at(room: Locator, index: int) -> None:
    """Click where a point of the chart is drawn."""
    chart = charts.material(LESSON)
    box = room.locator(".chart").bounding_box()
    assert box is not None
    x, y = chart.places[index]
    room.locator(".chart").click(
        position={"x": x * box["width"] / 480, "y": y * box["height"] / 180}
    )


@pytest.mark.parametrize("index", [1, 7, 12])
def test_a_click_on_a_point_shows_its_moment(room: Locator, index: int) -> None:
    press_at(room, index)
    assert where(room).startswith(f"After {charts.material(LESSON).points[index].address}.")


def test_the_caption_names_the_first_moment_too(room: Locator) -> None:
    assert where(room) == "Start. White to move."


def test_the_keyboard_walks_along_the_chart(room: Locator) -> None:
    chart = room.get_by_role("slider", name="material: choose a position")
    said = []
    for key in ("End", "ArrowLeft", "PageDown", "Home", "ArrowRight", "ArrowLeft", "ArrowLeft"):
        chart.press(key)
        said.append(chart.get_attribute("aria-valuetext").split(":")[0])
    assert said == [
        "After 6... Qxe4+",
        "After 6. Nf3",
        "After 1. e4",
        "At the start",
        "After 1. e4",
        "At the start",
        "At the start",
    ]
    chart.press("PageUp")
    expect(chart).to_have_attribute("aria-valuetext", "After 5... Qd4: 1 (points, White's view)")
    assert where(room) == "After 5... Qd4. White to move."


def test_a_row_of_the_numbers_is_a_word_that_leads_there(room: Locator) -> None:
    room.locator("summary").click()
    word = room.get_by_role("button", name="4. Bxc6", exact=True)
    word.press("Enter")
    assert where(room) == "After 4. Bxc6. Black to move."
    expect(word).to_have_attribute("aria-current", "true")
    expect(room.locator(".numbers tbody tr")).to_have_count(13)


def test_the_row_of_the_moment_is_in_sight_among_the_numbers(room: Locator) -> None:
    room.locator("summary").click()
    for key in ("End", "Home", "End"):
        room.locator(".chart").press(key)
        expect(room.locator(".numbers [aria-current]")).to_be_in_viewport(ratio=0.9)


def test_the_chart_follows_the_board(room: Locator) -> None:
    for _ in range(3):
        room.locator("[data-action=on]").click()
    expect(room.locator(".chart")).to_have_attribute("aria-valuenow", "3")
    place = charts.material(LESSON).places[3]
    expect(room.locator(".chart circle")).to_have_attribute("cx", f"{place[0]:g}")


def test_a_move_beside_the_game_is_said_and_a_point_leads_back(room: Locator) -> None:
    press_at(room, 1)
    field = room.locator(".controls input")
    field.fill("c5")
    field.press("Enter")
    assert where(room) == "After 1... c5. White to move."
    expect(room.get_by_text("The board has left the game")).to_be_visible()
    press_at(room, 4)
    assert where(room) == "After 2... Nc6. White to move."
    expect(room.get_by_text("The board has left the game")).to_have_count(0)
    room.locator("[data-action=back]").click()
    room.locator("[data-action=on]").click()
    assert where(room) == "After 2... Nc6. White to move."


def test_two_lines_and_another_language(page: Page) -> None:
    chart = charts.pressure_on("e5", start=LESSON.start, end=LESSON.end)
    words = {"chooseMoment": "{title}: Stellung"}
    room = open_chart(page, LiveChart(chart, letters="german", words=words))
    slider = room.get_by_role("slider", name="pressure on e5: Stellung")
    for _ in range(3):
        slider.press("ArrowRight")
    assert slider.get_attribute("aria-valuetext").startswith("After 2. Sf3: ")
    assert where(room) == "After 2. Sf3. Black to move."
    expect(room.locator(".chart circle")).to_have_count(2)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_chart_is_inked_as_the_page_is_not_as_the_system(page: Page, theme: str) -> None:
    other = "dark" if theme == "light" else "light"
    page.emulate_media(color_scheme=other)
    html = f"<!doctype html><html lang=en><title>x</title><body data-theme={theme}></body></html>"
    room = open_chart(page, LiveChart(charts.material(LESSON)), html=html)
    colour = room.locator(".chart rect").evaluate("(rect) => getComputedStyle(rect).fill")
    board = room.locator(".field .chessnb-fill-paper").first
    assert colour == board.evaluate("(paper) => getComputedStyle(paper).fill")
