"""A lesson as a page for a class: the real command, a real browser, and a student who tries."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from browser.lab import eventually
from playwright.sync_api import Browser, Locator, Page, Route, expect

from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook

ROOT = Path(__file__).parents[2]
GAME = """\
[Event "Club evening"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/1r6/5PPP/R2R2K1 w - - 0 30"]
[Result "*"]

30. Rd8# {The king has no air.} (30. h3 Rb8 31. Ra6) *
"""
CELLS = [
    markdown_cell("title", "# The *back* rank\n\nTwo rooks look for a way in."),
    markdown_cell("how to use", "*Run the lesson (menu Run).*"),
    code_cell(
        "lesson",
        "import sys\nfrom chessnb import Lesson, claims, page\n"
        "lesson = Lesson.read('game.pgn')\nprint('noise', file=sys.stderr)\nlesson",
    ),
    markdown_cell("stop", "## White's 30th move"),
    code_cell(
        "page",
        "with page(lesson.start, ask='find the move', remember='Give your king air.') as m:\n"
        "    claims.mates(m, within=1)",
    ),
    markdown_cell("told", "The rook needed no help."),
    markdown_cell("more", "## What fails\n\n```\n# no heading\n```"),
    code_cell("slip", "other = Lesson.read('none.pgn')"),
    code_cell("follows", "other.title"),
]


@dataclass
class Shown:
    """The command that shows a lesson, and the page that is open on it."""

    process: subprocess.Popen[str]
    address: str
    pages: list[Page] = field(default_factory=list)
    abroad: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def here_alone(self, route: Route) -> None:
        """Let a request to this computer pass; note and stop every other."""
        url = route.request.url
        if url.startswith(("http://127.0.0.1:", "data:", "blob:")):
            route.continue_()
        else:
            self.abroad.append(url)
            route.abort()


def processes_under(pid: int) -> set[int]:
    """The processes that a process has started, and those that they have."""
    parents: dict[int, int] = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if fields[0] != "Z":
            parents[int(stat.parent.name)] = int(fields[1])
    found: set[int] = {pid}
    while more := {child for child, parent in parents.items() if parent in found} - found:
        found |= more
    return found - {pid}


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shown]:
    """A lesson that the command shows, which ends with Ctrl-C and leaves nothing behind."""
    folder = tmp_path_factory.mktemp("teaching") / "my lessons"
    folder.mkdir()
    (folder / "game.pgn").write_text(GAME, encoding="utf-8")
    lesson = folder / "round [1] größe.ipynb"
    write_notebook(new_notebook(CELLS, notes={}), lesson)
    before = lesson.read_bytes()
    process = subprocess.Popen(
        [sys.executable, "-m", "chessnb", "teach", str(lesson), "--no-browser"],
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8",
    )  # fmt: skip
    assert process.stdout is not None
    line = process.stdout.readline().strip()
    assert process.stdout.readline().strip() == "Ctrl-C ends it."
    shown = Shown(process, line.removeprefix("The lesson: "))
    yield shown
    started = processes_under(process.pid)
    process.send_signal(signal.SIGINT)
    said, wrong = process.communicate(timeout=60)
    assert len(started) >= 2, "the server and its kernel"
    assert (process.returncode, said, wrong) == (130, "The lesson ends.\n", "")
    assert not [pid for pid in started if Path(f"/proc/{pid}").exists()]
    assert lesson.read_bytes() == before
    assert {path.name for path in folder.iterdir()} == {"game.pgn", lesson.name}


@pytest.fixture
def lesson(shown: Shown, browser: Browser) -> Iterator[Page]:
    """The lesson's page; it is opened once for all tests, for its cells take seconds to run."""
    if not shown.pages:
        page = browser.new_context(viewport={"width": 1400, "height": 900}).new_page()
        page.route("**/*", shown.here_alone)
        page.on("pageerror", lambda error: shown.errors.append(str(error)))
        page.expose_function("noteProgress", lambda words: shown.said.append(words))
        page.add_init_script(
            """new MutationObserver(() => {
              const said = document.getElementById("progress")?.textContent;
              if (said && said !== window.saidBefore) noteProgress((window.saidBefore = said));
            }).observe(document, { childList: true, subtree: true, characterData: true });"""
        )
        page.goto(shown.address, wait_until="commit")
        page.wait_for_selector("body.ready", timeout=60_000)
        shown.pages.append(page)
    yield shown.pages[0]
    assert shown.abroad == [], "something was asked of another host"
    assert shown.errors == []


def spread(page: Page) -> Locator:
    return page.locator(".chessnb-page .spread")


def note(page: Page) -> str:
    return spread(page).locator("figcaption > .note").first.text_content() or ""


def play(page: Page, text: str) -> None:
    field = spread(page).locator("figure .controls input")
    field.fill(text)
    field.press("Enter")


def test_nobody_without_the_token_sees_the_lesson(shown: Shown) -> None:
    address, _, token = shown.address.partition("?token=")
    assert address.startswith("http://127.0.0.1:")
    assert len(token) >= 40
    with urlopen(address, timeout=20) as answer:  # the page that asks for the token
        assert "back" not in answer.read().decode()
    with pytest.raises(HTTPError) as refused:
        urlopen(f"{address}voila/files/game.pgn", timeout=20)
    with refused.value as answer:
        assert answer.code == 403


def test_it_says_how_far_it_is_and_shows_no_code(lesson: Page, shown: Shown) -> None:
    said = [words for words in shown.said if words.startswith("The boards are being set up … ")]
    assert said[0].endswith("0 of 3")
    assert said[-1].endswith("3 of 3")
    assert lesson.title() == "The back rank"
    assert lesson.locator("nav.contents a").all_inner_texts() == [
        "White's 30th move", "What fails",
    ]  # fmt: skip
    text = lesson.locator("body").inner_text()
    assert "Two rooks look for a way in." in text
    for gone in ("import", "claims", "menu Run", "noise", "In [", "sidelines"):
        assert gone not in text
    expect(lesson.locator("#waiting")).to_have_count(0)


def test_a_cell_that_fails_says_its_sentence_once(lesson: Page) -> None:
    (fault,) = lesson.locator(".fault").all_inner_texts()
    assert fault.startswith("none.pgn: there is no such file")
    assert fault.endswith(".")
    assert "Traceback" not in lesson.locator("body").inner_text()


def test_a_student_tries_finds_is_told_and_goes_back(lesson: Page) -> None:
    held = lesson.evaluate(
        "() => document.body.innerHTML + document.querySelector('.chessnb-page').shadowRoot.innerHTML"
    )
    for secret in ("Rd8", "d1d8", "no air", "Give your king air", "mates in"):
        assert secret not in held
    story = lesson.get_by_text("The rook needed no help")
    expect(story).to_be_hidden()
    main = spread(lesson).locator("button.main")
    assert main.inner_text() == "show the answer"
    play(lesson, "h3")
    eventually(lambda: note(lesson) != "", True)
    assert main.inner_text() == "try again"
    main.click()
    play(lesson, "Rd8")
    eventually(lambda: note(lesson), "That is the lesson's move.")
    main.click()
    expect(spread(lesson).locator(".of-move")).to_contain_text("The king has no air.")
    expect(spread(lesson).locator(".prose")).to_contain_text("Give your king air.")
    expect(story).to_be_visible()
    where = spread(lesson).locator(".where span")
    assert where.inner_text() == "After 30. Rd8#. Checkmate: White wins."
    main.click()
    eventually(where.inner_text, "Start. White to move.")


def test_the_contents_stand_in_the_margin_where_there_is_one(lesson: Page) -> None:
    contents = lesson.locator("nav.contents")
    links = contents.get_by_role("link")
    for width, in_sight in ((1400, True), (900, False), (390, False)):
        lesson.set_viewport_size({"width": width, "height": 844})
        expect(links.first).to_be_visible(visible=in_sight)
        assert lesson.evaluate("document.documentElement.scrollWidth") <= width
    contents.locator("summary").click()
    links.first.click()
    expect(links.first).to_be_hidden()
    heading = lesson.get_by_role("heading", name="White's 30th move").bounding_box()
    assert heading is not None
    assert -1 <= heading["y"] <= 120
    lesson.set_viewport_size({"width": 1400, "height": 900})


def test_a_heading_stands_beside_its_board_where_there_is_room_for_both(lesson: Page) -> None:
    heading = lesson.get_by_role("heading", name="White's 30th move")
    board = spread(lesson).locator(".field")
    for width, beside in ((1400, True), (390, False), (1400, True)):
        lesson.set_viewport_size({"width": width, "height": 900})

        def stands_beside() -> bool:
            words, field = heading.bounding_box(), board.bounding_box()
            assert words is not None
            assert field is not None
            return abs(field["y"] - words["y"]) < 60

        eventually(stands_beside, beside)
    told, words = spread(lesson).locator(".prose").bounding_box(), heading.bounding_box()
    assert told is not None
    assert words is not None
    assert told["y"] >= words["y"] + words["height"] - 1


def test_it_follows_the_system_s_theme_and_prints_light(lesson: Page) -> None:
    def grounds() -> list[str]:
        found: list[str] = lesson.evaluate(
            """() => [document.body, document.querySelector(".chessnb-live")].map(
                 (one) => getComputedStyle(one).colorScheme)
               .concat(getComputedStyle(document.body).color)"""
        )
        return found

    lesson.emulate_media(color_scheme="dark")
    assert grounds() == ["light dark", "light dark", "rgb(230, 228, 222)"]
    lesson.emulate_media(color_scheme="light")
    assert grounds() == ["light dark", "light dark", "rgb(29, 35, 39)"]
    lesson.emulate_media(media="print", color_scheme="dark")
    assert grounds() == ["light", "light", "rgb(29, 35, 39)"]
    expect(lesson.locator("nav.contents")).to_be_hidden()
    expect(spread(lesson).locator(".controls")).to_be_hidden()
    lesson.emulate_media(media="screen", color_scheme="light")
