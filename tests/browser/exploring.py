"""A page that holds an explorer and no JupyterLab.

The page lies at an address of its own, so that it has a browser storage, and
may be loaded again.  Python's side is a real explorer, or silent as a busy
kernel is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

from playwright.sync_api import Locator, Page

from chessnb.widgets.branch_explorer import BranchExplorer
from chessnb.widgets.esm import bundle, style
from chessnb.widgets.live_chart import LiveChart
from chessnb.widgets.motif_tags import MotifTags
from chessnb.widgets.page_spread import PageSpread
from chessnb.widgets.question import QuestionCard
from chessnb.widgets.reply_explorer import ReplyExplorer
from chessnb.widgets.step_gate import StepGate

ADDRESS = "http://127.0.0.1:9/lesson.html"
_TRAITS = ("tree", "at", "turned", "words", "piece_letters", "spread", "students")
_PUBLISHED = ("tree", "spread")
_SCRIPT = """
async ({ esm, css, values }) => {
  document.head.append(Object.assign(document.createElement("style"), { textContent: css }));
  const url = URL.createObjectURL(new Blob([esm], { type: "text/javascript" }));
  const { default: make } = await import(url);
  const listeners = {};
  const model = window.model = {
    sent: [],
    values,
    get: (name) => values[name],
    set(name, value) { values[name] = value; model.fire(`change:${name}`); },
    save_changes() {},
    on(name, listener) { (listeners[name] ??= []).push(listener); },
    off(name, gone) { listeners[name] = (listeners[name] ?? []).filter((one) => one !== gone); },
    fire(name, given) { for (const listener of listeners[name] ?? []) listener(given); },
    send(message) { model.sent.push(message); void model.hear(message); },
    async hear(message) {
      const answer = await window.toPython(message);
      for (const [name, value] of Object.entries(answer.changed)) model.set(name, value);
      for (const one of answer.messages) model.fire("msg:custom", one);
    },
  };
  const widget = await make();
  await widget.initialize?.({ model });
  const el = document.createElement("div");
  (document.querySelector("main") ?? document.body).append(el);
  const begun = performance.now();
  model.cleanup = await widget.render({ model, el });
  await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
  window.painted = performance.now() - begun;
}
"""


@dataclass(kw_only=True)
class Exploring:
    """An explorer on a page.

    Attributes
    ----------
    page : Page
        The page.
    explorer : BranchExplorer
        Python's side.
    silent : bool
        Whether Python answers nothing, like a busy kernel.
    """

    page: Page
    explorer: BranchExplorer
    silent: bool = False

    def hear(self, message: Mapping[str, Any]) -> dict[str, Any]:
        """Have Python's side hear a message, and return what it sends."""
        sent: list[Any] = []
        before = self._values(_PUBLISHED)
        if not self.silent:
            self.explorer.send = sent.append
            # In a thread of its own, where no event loop runs, Python answers at once.
            with ThreadPoolExecutor(1) as thread:
                thread.submit(self.explorer._hear, self.explorer, message, []).result()
        now = self._values(_PUBLISHED)
        changed = {name: now[name] for name in now if now[name] is not before[name]}
        return {"messages": sent, "changed": changed}

    def _values(self, names: Iterable[str]) -> dict[str, Any]:
        """Return what the explorer's traits hold, of those that it has."""
        return {
            name: getattr(self.explorer, name) for name in names if self.explorer.has_trait(name)
        }

    def load(self) -> None:
        """Load the page, for the first time or again."""
        self.page.goto(ADDRESS)
        self.add()

    def add(self) -> None:
        """Show the explorer on the page, once more if it is there."""
        entry = "spread.js" if isinstance(self.explorer, PageSpread) else "explorer.js"
        values = self._values(_TRAITS)
        given = {"esm": bundle(entry), "css": style("theme.css"), "values": values}
        self.page.evaluate(_SCRIPT, given)

    @property
    def room(self) -> Locator:
        """The explorer on the page."""
        return self.page.locator(".explorer")

    @property
    def board(self) -> Locator:
        """Its figure."""
        return self.room.locator("figure")

    def type(self, text: str) -> None:
        """Type a move into the field and press Enter."""
        field = self.board.locator(".controls input")
        field.fill(text)
        field.press("Enter")

    def move(self, text: str) -> Locator:
        """Return a move of the lesson's text, by its words (``"14. Nd5"``)."""
        return self.room.locator(".movetext .move").filter(has_text=text.replace(" ", " ")).first

    def word(self, action: str) -> Locator:
        """Return a word to press."""
        return self.room.locator(f"[data-action={action}]:visible").first

    @property
    def way(self) -> str:
        """The line of the way back."""
        return self.room.locator(".way").inner_text()

    @property
    def where(self) -> str:
        """The caption of the figure."""
        return self.room.locator(".where span").inner_text()

    @property
    def note(self) -> str:
        """The sentence under the board."""
        return self.room.locator("figcaption > .note").first.text_content() or ""


def open_replies(page: Page, explorer: ReplyExplorer, *, html: str = "") -> Locator:
    """Open a page that holds a reply explorer, and return that."""
    return _open(page, explorer, "replying.js", html)


def open_tags(page: Page, tags: MotifTags, *, html: str = "") -> Locator:
    """Open a page that holds motif tags, and return them."""
    return _open(page, tags, "tagging.js", html)


def open_chart(page: Page, chart: LiveChart, *, html: str = "") -> Locator:
    """Open a page that holds a live chart, and return that."""
    return _open(page, chart, "charting.js", html)


def open_question(page: Page, card: QuestionCard, *, html: str = "") -> Locator:
    """Open a page that holds a question, and return that; Python answers as a kernel would."""

    def hear(message: Mapping[str, Any]) -> dict[str, Any]:
        sent: list[Any] = []
        card.send = sent.append
        with ThreadPoolExecutor(1) as thread:
            thread.submit(card._hear, card, message, []).result()
        return {"messages": sent, "changed": {}}

    _serve(page, html)
    page.expose_function("toPython", hear)
    page.goto(ADDRESS)
    names = ("asked", "turned", "words", "piece_letters")
    values = {name: getattr(card, name) for name in names}
    given = {"esm": bundle("questioning.js"), "css": style("theme.css"), "values": values}
    page.evaluate(_SCRIPT, given)
    return page.locator(".question")


def open_gate(page: Page, gate: StepGate, *, html: str = "") -> Locator:
    """Open a page that holds the line in front of a step, and return that."""
    _open(page, gate, "gate.js", html)
    return page.locator(".gate")


def _open(
    page: Page, widget: ReplyExplorer | MotifTags | LiveChart | StepGate, entry: str, html: str
) -> Locator:
    _serve(page, html)
    page.goto(ADDRESS)
    names = ("table", "verdicts", "turned", "words", "piece_letters", "sentence", "label")
    values = {name: getattr(widget, name) for name in names if widget.has_trait(name)}
    given = {"esm": bundle(entry), "css": style("theme.css"), "values": values}
    page.evaluate(_SCRIPT, given)
    return page.locator(".explorer")


def _serve(page: Page, html: str) -> None:
    body = html or "<!doctype html><html lang='en'><title>Lesson</title><body></body></html>"
    page.route(ADDRESS, lambda route: route.fulfill(content_type="text/html", body=body))


def open_explorer(
    page: Page, explorer: BranchExplorer, *, silent: bool = False, html: str = ""
) -> Exploring:
    """Open a page that holds an explorer."""
    _serve(page, html)
    exploring = Exploring(page=page, explorer=explorer, silent=silent)
    page.expose_function("toPython", exploring.hear)
    exploring.load()
    return exploring
