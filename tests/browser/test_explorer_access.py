"""What axe-core finds in the explorers: nothing, in both themes, whatever is open."""

from importlib.resources import files

import pytest
from browser.exploring import (
    Exploring,
    open_chart,
    open_explorer,
    open_gate,
    open_replies,
    open_tags,
)
from browser.lab import eventually
from playwright.sync_api import Page

from chessnb import charts, claims
from chessnb.findings.gathering import close_page, open_page
from chessnb.lessons import Lesson
from chessnb.teaching.spread import Spread
from chessnb.widgets.branch_explorer import BranchExplorer
from chessnb.widgets.live_chart import LiveChart
from chessnb.widgets.motif_tags import MotifTags
from chessnb.widgets.page_spread import PageSpread
from chessnb.widgets.reply_explorer import ReplyExplorer
from chessnb.widgets.step_gate import StepGate

pytestmark = pytest.mark.thorough

AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")
PAGE = (
    "<!doctype html><html lang=en><title>A lesson</title><body data-theme={theme}"
    " style='background:{paper};color:{ink}'><main><h1>A lesson</h1><h2>Explore</h2>"
    "<h3>Moves</h3></main></body></html>"
)
PAPERS = {"light": ("#ffffff", "#000000"), "dark": ("#111111", "#ffffff")}
GAME = "1. e4 e5 {Level.} (1... c5 2. Nf3 d6 (2... Nc6 3. Bb5)) 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 *"


def plain(_: Exploring) -> None:
    """Leave it as it opened."""


def in_a_sideline(x: Exploring) -> None:
    x.move("3. Bb5").click()
    x.word("facts").click()


def tried(x: Exploring) -> None:
    x.type("Qh5")
    x.type("Ke7")
    x.type("Qxe5#")
    eventually(lambda: x.note != "", True)
    x.word("nameTry").click()


def class_open(x: Exploring) -> None:
    x.word("forClass").click()
    x.word("candidates").click()
    x.type("d4")
    x.word("judge").click()
    eventually(lambda: x.room.locator(".candidates .answer").count(), 1)
    x.word("setMark").click()
    x.word("cellMoment").click()
    x.word("think").click()


def full(x: Exploring) -> None:
    x.word("fullScreen").click()
    x.page.wait_for_function("() => document.fullscreenElement !== null")


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("state", [plain, in_a_sideline, tried, class_open, full])
def test_axe_finds_nothing_in_the_branch_explorer(page: Page, theme: str, state) -> None:
    paper, ink = PAPERS[theme]
    html = PAGE.format(theme=theme, paper=paper, ink=ink)
    lesson = Lesson.from_text(GAME, title="First moves")
    x = open_explorer(page, BranchExplorer(lesson, at="1... e5"), html=html)
    state(x)
    assert found(page) == []


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("verdicts", [True, False])
def test_axe_finds_nothing_in_the_reply_explorer(page: Page, theme: str, verdicts: bool) -> None:
    paper, ink = PAPERS[theme]
    position = "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"
    explorer = ReplyExplorer(position, mate=2, within=1, verdicts=verdicts)
    room = open_replies(page, explorer, html=PAGE.format(theme=theme, paper=paper, ink=ink))
    room.locator("[data-action=choose]").first.click()
    room.locator("[data-action=ruleOut]").last.click()
    assert found(page) == []


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_in_the_motif_tags(page: Page, theme: str) -> None:
    paper, ink = PAPERS[theme]
    tags = MotifTags("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")
    open_tags(page, tags, html=PAGE.format(theme=theme, paper=paper, ink=ink))
    assert found(page) == []


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_in_a_live_chart(page: Page, theme: str) -> None:
    paper, ink = PAPERS[theme]
    chart = LiveChart(charts.material(Lesson.from_text(GAME)))
    room = open_chart(page, chart, html=PAGE.format(theme=theme, paper=paper, ink=ink))
    room.locator("summary").click()
    room.locator("[data-action=point]").nth(3).click()
    assert found(page) == []


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_in_front_of_a_step(page: Page, theme: str) -> None:
    paper, ink = PAPERS[theme]
    gate = open_gate(
        page, StepGate(lambda: None), html=PAGE.format(theme=theme, paper=paper, ink=ink)
    )
    assert "opens when the question before it" in gate.inner_text()
    assert found(page) == []


def found(page: Page) -> list[str]:
    """Return what axe-core finds, each with where."""
    page.evaluate(AXE)
    results = page.evaluate("() => axe.run(document)")
    return [
        f"{violation['id']}: {node['html'][:200]} {node['any'][:1]}"
        for violation in results["violations"]
        for node in violation["nodes"]
    ]


def shown(x: Exploring) -> None:
    x.word("main").click()
    eventually(x.room.locator(".of-move").count, 1)
    x.room.locator(".of-changes").click()
    x.word("tools").click()


def tried_once(x: Exploring) -> None:
    x.type("h5")
    eventually(lambda: x.note != "", True)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("state", [plain, tried_once, shown])
def test_axe_finds_nothing_in_a_page(page: Page, theme: str, state) -> None:
    gathering = open_page()
    moment = Lesson.from_text(GAME).before("1... e5")
    moment.after("e5").changes()
    claims.judgement("level")
    close_page()
    spread = Spread(moment=moment, ask="find the move", parts=tuple(gathering.parts))
    paper, ink = PAPERS[theme]
    html = PAGE.format(theme=theme, paper=paper, ink=ink)
    x = open_explorer(page, PageSpread(spread), html=html)
    state(x)
    assert found(page) == []
