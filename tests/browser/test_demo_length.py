"""How long the demo lesson is before a class: in cells, and in pixels of a window of 1400 × 900."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from pictures import lesson_page, served
from playwright.sync_api import Browser, Page

from chessnb.notebooks import read_notebook

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
MOST_CELLS, MOST_FOLDED, MOST_UNFOLDED = 45, 8_000, 11_000
TELL_ALL = "show the answer"


def brought(folder: Path) -> Path:
    """Copy the demo and its games, without what was kept of them, to a folder."""
    shutil.copytree(NOTEBOOKS / "games", folder / "games", dirs_exist_ok=True)
    return Path(shutil.copy(NOTEBOOKS / "lantern-street.ipynb", folder))


def tell_all(page: Page) -> int:
    """Ask for every answer of a lesson; return how many there were."""
    asked = 0
    while (button := page.get_by_role("button", name=TELL_ALL).first).is_visible():
        button.click()
        page.wait_for_timeout(250)
        asked += 1
    return asked


def test_it_has_few_cells():
    assert len(read_notebook(NOTEBOOKS / "lantern-street.ipynb")["cells"]) <= MOST_CELLS


@pytest.mark.thorough
def test_as_a_page_before_the_class(browser: Browser, tmp_path: Path) -> None:
    brought(tmp_path)
    with served("teach", "lantern-street.ipynb", folder=tmp_path) as address:
        page = lesson_page(browser, address, 1400, 900)
        page.wait_for_timeout(1000)
        folded = page.evaluate("document.documentElement.scrollHeight")
        assert tell_all(page) >= 4
        page.wait_for_timeout(500)
        unfolded = page.evaluate("document.documentElement.scrollHeight")
        inner = page.evaluate(
            """() => [...document.querySelectorAll(".chessnb-page")].filter((one) => {
              const told = one.shadowRoot?.querySelector(".spread .told, .spread .told-all");
              return told && told.scrollHeight > told.clientHeight + 1;
            }).length"""
        )
        page.close()
    assert folded <= MOST_FOLDED
    assert folded < unfolded <= MOST_UNFOLDED
    assert inner == 0, "a class scrolls the page and nothing in it"


@pytest.mark.thorough
def test_in_jupyterlab_as_its_teacher_sees_it(browser: Browser, tmp_path: Path) -> None:
    brought(tmp_path)
    with served("open", "lantern-street.ipynb", folder=tmp_path) as address:
        page = browser.new_page(viewport={"width": 1400, "height": 900})
        page.goto(address)
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=60_000)
        idle(page)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        page.locator(".chessnb-page .spread").first.wait_for(timeout=60_000)
        idle(page)
        page.keyboard.press("Control+b")  # the list of files is put away
        page.wait_for_timeout(1_500)
        folded = height(page)
        asked = 0
        for at in range(0, int(folded), 500):
            page.evaluate(SCROLL, at)
            page.wait_for_timeout(200)
            asked += tell_all(page)
        unfolded = height(page)
        page.close()
    assert asked >= 4
    assert folded <= MOST_FOLDED
    assert folded < unfolded <= MOST_UNFOLDED


SCROLL = "(at) => document.querySelector('.jp-WindowedPanel-outer').scrollTo(0, at)"


def idle(page: Page) -> None:
    """Wait until the kernel has run whatever it was given, and has been idle for a while."""
    said = page.get_by_text(re.compile(r"\| Idle$")).first
    for _ in range(3):
        said.wait_for(timeout=120_000)
        page.wait_for_timeout(1_000)


def height(page: Page) -> float:
    """Return how high the notebook is, once every cell has been in sight and was measured."""
    found, before = -1.0, -2.0
    for _ in range(6):  # what is painted late changes a cell's height
        if found == before:
            break
        before = found
        for at in range(0, 12_000, 600):
            page.evaluate(SCROLL, at)
            page.wait_for_timeout(120)
        found = page.evaluate(
            "document.querySelector('.jp-WindowedPanel-inner').getBoundingClientRect().height"
        )
    return found
