"""The student's lesson: one step after the other, each when the question before it is answered.

What is sealed is opened in the kernel's memory alone.  The page, the widgets'
state and the notebook are given a step when it opens, and of a page that asks
only the question; what it tells goes to its widget when it is asked for.  It
is a curtain, not a lock: whoever wants to can ask the kernel.
"""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable, Mapping
from os import PathLike
from pathlib import Path
from typing import Any

from chessnb.errors import LessonError, as_given
from chessnb.findings import escaped, sealed
from chessnb.lessons.held_files import hold
from chessnb.mistakes import checked
from chessnb.teaching.sealed_lesson import read_sealed
from chessnb.teaching.step_order import WAITS, StepOrder
from chessnb.teaching.still_spread import spread_html
from chessnb.widgets.display import COMES_ALIVE, under_kernel, view_of
from chessnb.widgets.page_block import Page
from chessnb.widgets.page_spread import PageSpread
from chessnb.widgets.sealed_cells import Bundle, SealedCells
from chessnb.widgets.step_gate import StepGate

SECONDS_TO_ANSWER = 0.05
"""So long the answer to a try has to leave before the next step is worked out."""

EMPTY: Bundle = {"text/plain": "", "text/html": ""}


@checked
def student_lesson(path: str | PathLike[str]) -> StudentLesson:
    """Open a sealed lesson, as ``chessnb student`` writes it.

    Parameters
    ----------
    path : path
        The sealed file.

    Raises
    ------
    LessonError
        If it is not there, damaged, or of another version.
    """
    return StudentLesson(path)


class StudentLesson:
    """A sealed lesson; opened by :func:`student_lesson`."""

    def __init__(self, path: str | PathLike[str]) -> None:
        self._sealed = read_sealed(path)
        self._name = str(path)
        self._cells = SealedCells()
        self._order = StepOrder(len(self._sealed.steps))
        self._gates: dict[int, StepGate] = {}
        self._pages: dict[int, list[PageSpread]] = {}
        self._ran = 0
        for where, game in self._sealed.files.items():
            hold(where, game.games)
            if game.proofs:
                hold(_beside(where), game.proofs)
        for cell in self._sealed.first.cells:
            self._cells.run(cell, shown=False)

    @checked
    def step(self, number: int) -> None:
        """Show a step, or what it waits for.

        Parameters
        ----------
        number : int
            Which step, counted from 1.

        Raises
        ------
        LessonError
            If the lesson has no such step.
        """
        self._check(number)
        if self._order.is_open(number):
            self._open(number, update=False)
        else:
            self._wait(number)

    @checked
    def open(self, number: int) -> None:
        """Open a step whose question is not answered yet, where it stands in the notebook."""
        self._check(number)
        self._order.want(number)
        self._open_what_may()

    def _check(self, number: int) -> None:
        count = len(self._sealed.steps)
        if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number <= count:
            raise LessonError(
                f"this lesson has the steps 1 to {count}, and no step {as_given(number)}"
            )

    # -- opening -----------------------------------------------------------------

    def _wait(self, number: int) -> None:
        """Show what a step waits for, in the first of its places."""
        gate = StepGate(lambda: self.open(number))
        self._gates[number] = gate
        plain = f"{WAITS} Or write: lesson.open({number})"
        html = sealed(plain, f"<p>{escaped(WAITS)}</p>")
        self._show(number, [{"text/plain": plain, "text/html": html, **_live(gate)}], update=False)

    def _open_what_may(self) -> None:
        while number := next(self._order.to_open(set(self._gates)), None):
            self._gates.pop(number).close()
            self._open(number, update=True)

    def _open(self, number: int, *, update: bool) -> None:
        """Show all of a step; an older view of it, from a cell that is run again, is forgotten."""
        for old in self._pages.pop(number, ()):
            old.on_answered = None
        if gate := self._gates.pop(number, None):
            gate.close()
        for before in range(self._ran + 1, number):  # what later cells use is made by earlier ones
            for cell in self._sealed.steps[before - 1].cells:
                self._cells.run(cell, shown=False)
        self._ran = max(self._ran, number)
        bundles: list[Bundle] = []
        for cell in self._sealed.steps[number - 1].cells:
            things = [self._bundle(number, one) for one in self._cells.run(cell)]
            bundles += _fitted(things, cell.places)
        self._show(number, bundles, update=update)
        pages = self._pages.get(number, ())
        self._order.show(number, asks=any(page.is_asking for page in pages))
        self._open_what_may()

    def _bundle(self, number: int, thing: Page | Bundle) -> Bundle:
        """Return what is shown of a thing: of a page that asks, the question."""
        if not isinstance(thing, Page):
            return thing
        spread, asks = thing.spread, thing.spread.asks
        live = PageSpread(spread, turned=thing.turned)
        live.students = True
        live.on_answered = self._when_answered(number)
        self._pages.setdefault(number, []).append(live)
        plain = " ".join(filter(None, (spread.moment.caption, spread.question)))
        still = spread_html(spread, turned=thing.turned, hint=COMES_ALIVE, told=not asks)
        return {"text/plain": plain, "text/html": sealed(plain, still), **_live(live)}

    def _when_answered(self, number: int) -> Callable[[], None]:
        def then() -> None:
            self._order.answer(number)
            self._open_what_may()

        def answered() -> None:
            try:
                asyncio.get_running_loop().call_later(SECONDS_TO_ANSWER, then)
            except RuntimeError:
                then()

        return answered

    # -- showing -----------------------------------------------------------------

    def _show(self, number: int, bundles: list[Bundle], *, update: bool) -> None:
        """Put what a step shows into its places; they are kept for what is shown later."""
        if not _in_notebook():
            for bundle in bundles:
                print(bundle.get("text/plain", ""))
            return
        from IPython.display import publish_display_data

        count = self._sealed.steps[number - 1].places
        for place, bundle in enumerate([*bundles, *[EMPTY] * (count - len(bundles))]):
            publish_display_data(  # type: ignore[no-untyped-call]
                dict(bundle),
                transient={"display_id": f"{self._name} {number}.{place}"},
                update=update,
            )

    def __repr__(self) -> str:
        return f"StudentLesson({self._name!r}): {self._sealed.title}"


def _beside(path: str) -> str:
    """Return where the proofs of a game file lie."""
    return str(Path(path).with_suffix(".proofs.json"))


def _live(widget: Any) -> Mapping[str, Any]:
    return view_of(widget) if under_kernel() else {}


def _in_notebook() -> bool:
    ipython = sys.modules.get("IPython")
    return ipython is not None and ipython.get_ipython() is not None


def _fitted(things: list[Bundle], places: int) -> list[Bundle]:
    """Return as many bundles as there are places: too many are set one below the other."""
    kept, rest = things[:places], things[places:]
    if rest:
        html = "".join(map(_html, [kept[-1], *rest]))
        plain = "\n".join(str(one.get("text/plain", "")) for one in (kept[-1], *rest))
        kept[-1] = {"text/plain": plain, "text/html": html}
    return kept + [EMPTY] * (places - len(kept))


def _html(bundle: Bundle) -> str:
    plain = f"<pre>{escaped(str(bundle.get('text/plain', '')))}</pre>"
    return str(bundle.get("text/html", plain))
