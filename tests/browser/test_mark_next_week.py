"""The mark where a class stopped, when the lesson is shown again by a server of its own."""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook

GAME = '[Event "Club evening"]\n[Result "*"]\n\n1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4. O-O *\n'
CELLS = [
    markdown_cell("title", "# Italian"),
    code_cell("lesson", "from chessnb import Lesson, page\nlesson = Lesson.read('game.pgn')"),
    code_cell("one", "with page(lesson.after('1... e5')):\n    pass"),
    code_cell("two", "with page(lesson.after('2... Nc6')):\n    pass"),
]


@contextmanager
def taught(lesson: Path, context: BrowserContext) -> Iterator[Page]:
    """Show a lesson as the command does, open its page, and end both."""
    command = [sys.executable, "-m", "chessnb", "teach", str(lesson), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            page = context.new_page()
            page.goto(process.stdout.readline().split()[-1], wait_until="commit")
            page.wait_for_selector("body.ready", timeout=60_000)
            yield page
            page.close()
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(60)


def tools(page: Page, number: int) -> Locator:
    spread = page.locator(".spread").nth(number)
    spread.locator("[data-action=tools]").click()
    spread.locator("[data-action=forClass]").click()
    return spread


@pytest.mark.thorough
def test_it_is_found_again(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "game.pgn").write_text(GAME, encoding="utf-8")
    lesson = tmp_path / "lesson.ipynb"
    write_notebook(new_notebook(CELLS, notes={}), lesson)
    context = browser.new_context(viewport={"width": 1400, "height": 900})
    with taught(lesson, context) as page:
        spread = tools(page, 1)
        spread.locator("button.main").click()
        spread.locator("[data-action=setMark]").click()
        expect(spread.locator(".classroom .status")).to_have_text("Marked: 3. Bc4.")
    with taught(lesson, context) as page:
        spread = tools(page, 0)
        expect(spread.locator("[data-action=goToMark]")).to_have_text("to the mark (3. Bc4)")
        spread.locator("[data-action=goToMark]").click()
        where = page.locator(".spread").nth(1).locator(".where").first
        expect(where).to_contain_text("After 3. Bc4")
        expect(where).to_be_in_viewport()
    context.close()
