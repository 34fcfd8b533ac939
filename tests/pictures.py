"""The pictures of the README, made by the commands that it tells of. Run by hand.

    PYTHONPATH=tests python tests/pictures.py [FOLDER]

A lesson is drafted from the demo game in an empty folder, shown by ``chessnb teach`` and
``chessnb open``, printed and paged; each screen is photographed in a real browser.  The pictures
go to ``notebooks/pictures``, or to FOLDER; each is told with its size.  It needs the packages
``pillow`` and ``pymupdf`` beside those of the tests.
"""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from browser.conftest import CHROMIUM, CHROMIUM_FLAGS
from playwright.sync_api import Browser, Locator, Page, sync_playwright

ROOT = Path(__file__).parents[1]
GAME = ROOT / "notebooks" / "games" / "lantern-street.pgn"
COLOURS = 64
"""A picture of print needs no more, and weighs a third."""


def chessnb(*words: str, folder: Path) -> None:
    """Run a command to its end."""
    subprocess.run([sys.executable, "-m", "chessnb", *words], cwd=folder, check=True)


@contextmanager
def served(*words: str, folder: Path) -> Iterator[str]:
    """Run a command that serves a page; yield the page's address."""
    command = [sys.executable, "-m", "chessnb", *words, "--no-browser"]
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            yield next(line for line in process.stdout if "http" in line).split()[-1]
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(60)


def lesson_page(browser: Browser, address: str, width: int, height: int) -> Page:
    """Open the teaching view, and wait until its boards are alive."""
    page = browser.new_page(viewport={"width": width, "height": height}, device_scale_factor=1)
    page.goto(address)
    page.wait_for_selector("body.ready", timeout=120_000)
    return page


def asking(page: Page) -> Locator:
    """Return the page of the lesson that asks for the mate: Black's 20th move."""
    heading = page.get_by_role("heading", name="Black's 20th")
    heading.scroll_into_view_if_needed()
    number = page.evaluate(
        """(name) => {
          const heading = [...document.querySelectorAll("h2, h3")]
            .find((one) => one.textContent.includes(name));
          return [...document.querySelectorAll(".chessnb-page")].findIndex(
            (one) => heading.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING);
        }""",
        "Black's 20th",
    )
    return page.locator(".chessnb-page").nth(number)


def at_top(page: Page, name: str) -> None:
    """Scroll a heading to the top of the window."""
    heading = page.get_by_role("heading", name=name).first
    heading.evaluate("(one) => window.scrollTo(0, one.getBoundingClientRect().top + scrollY - 24)")
    page.wait_for_timeout(400)


def teaching(browser: Browser, folder: Path, pictures: Path) -> None:
    """The lesson before the class: asked, tried, told, and in the hall."""
    with served("teach", "lantern-street.ipynb", folder=folder) as address:
        page = lesson_page(browser, address, 1280, 800)
        spread = asking(page)
        at_top(page, "Black's 20th")
        page.screenshot(path=pictures / "asked.png")
        field = spread.locator("figure .controls input")
        field.fill("Qg6")
        field.press("Enter")
        spread.locator("figcaption > .note").first.wait_for()
        page.wait_for_timeout(1500)
        page.screenshot(path=pictures / "tried.png")
        main = spread.locator("button.main")
        main.click()
        page.wait_for_timeout(300)
        spread.get_by_role("button", name="show the answer").click()
        page.wait_for_timeout(1000)
        at_top(page, "Black's 20th")
        page.screenshot(path=pictures / "told.png")
        page.close()


def written(browser: Browser, folder: Path, pictures: Path) -> None:
    """The lesson as its teacher writes it, in JupyterLab."""
    with served("open", "lantern-street.ipynb", folder=folder) as address:
        page = browser.new_page(viewport={"width": 1280, "height": 800})
        page.goto(address)
        page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=60_000)
        page.wait_for_timeout(4000)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        page.wait_for_selector(".chessnb-page .spread", timeout=60_000)
        page.wait_for_timeout(6000)
        heading = page.get_by_role("heading", name="White's 8th move").first
        heading.evaluate("(one) => one.scrollIntoView()")
        page.wait_for_timeout(1000)
        page.screenshot(path=pictures / "written.png")
        page.close()


def on_paper(folder: Path, pictures: Path) -> None:
    """The student's sheet, its first page."""
    import fitz

    chessnb("print", "lantern-street.ipynb", "-o", "sheet.pdf", folder=folder)
    with fitz.open(folder / "sheet.pdf") as sheet:
        sheet[0].get_pixmap(dpi=80).save(pictures / "sheet.png")


def on_a_phone(browser: Browser, folder: Path, pictures: Path) -> None:
    """The one-file page, on a phone."""
    chessnb("page", "lantern-street.ipynb", "-o", "lesson.html", folder=folder)
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto((folder / "lesson.html").as_uri())
    page.wait_for_timeout(2000)
    at_top(page, "White's 8th")
    page.screenshot(path=pictures / "phone.png")
    page.close()


def lighter(path: Path) -> None:
    """Write a picture with few colours, which is all that print needs."""
    from PIL import Image

    with Image.open(path) as picture:
        few = picture.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
        few.save(path, optimize=True)


def main(pictures: Path) -> None:
    pictures.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        folder = Path(scratch)
        shutil.copy(GAME, folder)
        chessnb("draft", GAME.name, folder=folder)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        teaching(browser, folder, pictures)
        written(browser, folder, pictures)
        on_paper(folder, pictures)
        on_a_phone(browser, folder, pictures)
        browser.close()
    for path in sorted(pictures.glob("*.png")):
        lighter(path)
        print(f"{path.name}: {path.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "notebooks" / "pictures")
