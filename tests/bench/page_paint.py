"""How soon a page of a lesson is painted, and how long the browser is at work for a step on it.

Run by hand, with Playwright and a Chromium::

    PYTHONPATH=.:tests python tests/bench/page_paint.py [CHROMIUM]

Pages of the demo lesson are shown one after the other in one window until
there are twelve.  Of each is measured how long it takes from when its data is
there until it is painted (150 ms are asked); then, on the first and the last,
how long scripts are at work for a step through the game: forwards, and when a
sentence is pointed at (a frame has 16 ms).
"""

from __future__ import annotations

import statistics
import sys
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from browser.exploring import ADDRESS, Exploring

from chessnb import Lesson, facts
from chessnb.findings.gathering import close_page, open_page
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
PAGES = 12
STEPS = 12
PAINT_MS, STEP_MS = 150, 16
HTML = "<!doctype html><html lang=en><title>A lesson</title><body><main></main></body></html>"
_STEP = """
([number, steps]) => {
  const spread = document.querySelectorAll(".chessnb-page")[number].shadowRoot.querySelector(".spread");
  const main = spread.querySelector("button.main");
  const back = spread.querySelector("[data-action=back]");
  const leads = spread.querySelectorAll(".leads");
  const measured = (act) => {
    const started = performance.now();
    act();
    return performance.now() - started;
  };
  const times = [];
  const where = () => spread.querySelector(".where").textContent;
  for (let step = 0; step < steps; step += 1) {
    const before = where();
    times.push(measured(() => (step % 2 ? main : back).click()));
    if (where() === before) throw new Error(`step ${step} went nowhere`);
  }
  for (const one of leads) {
    const mouse = { pointerType: "mouse" };
    times.push(measured(() => one.dispatchEvent(new PointerEvent("pointerenter", mouse))));
    times.push(measured(() => one.dispatchEvent(new PointerEvent("pointerleave", mouse))));
  }
  return times;
}
"""


def spreads(count: int) -> list[PageSpread]:
    """Return pages of the demo lesson that have told what they hold, a move apart."""
    lesson = Lesson.read(GAME)
    moment, pages = lesson.start, []
    while len(pages) < count:
        moment = moment.next
        gathering = open_page()
        moment.changes()
        facts.material(moment)
        close_page()
        pages.append(PageSpread(Spread(moment=moment, ask=None, parts=tuple(gathering.parts))))
    return pages


def painted(page: Any, pages: list[PageSpread]) -> list[float]:
    """Show pages one below the other; return how long each took until it was painted, in ms."""
    page.route(ADDRESS, lambda route: route.fulfill(body=HTML, content_type="text/html"))
    page.expose_function("toPython", lambda message: {"messages": [], "changed": {}})
    page.goto(ADDRESS)
    times = []
    for one in pages:
        Exploring(page=page, explorer=one).add()
        times.append(float(page.evaluate("window.painted")))
    return times


def steps(page: Any, number: int) -> list[float]:
    """Return how long scripts were at work for each step on a page, in ms."""
    return [float(time) for time in page.evaluate(_STEP, [number, STEPS])]


def report(name: str, times: list[float]) -> None:
    """Print a line of figures."""
    print(f"{name:<32} median {statistics.median(times):6.2f} ms   largest {max(times):6.2f} ms")


def main(chromium: str = "/usr/bin/chromium") -> None:
    """Measure, print, and fail where it takes longer than is asked."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": 1400, "height": 900})
        paints = painted(page, spreads(PAGES))
        first, last = steps(page, 0), steps(page, PAGES - 1)
        browser.close()
    report(f"painted: the first of {PAGES}", paints[:1])
    report("painted: the others", paints[1:])
    report("a step on the first: script", first)
    report("a step on the last: script", last)
    if max(paints) > PAINT_MS or max(first + last) > STEP_MS:
        raise SystemExit(f"a page took more than {PAINT_MS} ms, or a step more than {STEP_MS}")


if __name__ == "__main__":
    main(*sys.argv[1:])
