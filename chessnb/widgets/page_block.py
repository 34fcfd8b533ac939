"""A page of a lesson: one cell that gathers what is found, and shows it beside one board."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from contextvars import ContextVar
from dataclasses import replace
from types import TracebackType
from typing import Any, Literal

from chessnb.errors import ChessnbError, LessonError, as_given
from chessnb.findings import Gathering, Nothing, PageError, sealed
from chessnb.findings.gathering import close_page, open_page
from chessnb.lessons import Moment
from chessnb.mistakes import checked
from chessnb.teaching.page_copy import MIME, RECORDINGS, PageCopy, copy_data, page_copy, wanted
from chessnb.teaching.questions.question_values import Question
from chessnb.teaching.spread import Ask, Spread
from chessnb.teaching.still_spread import spread_html
from chessnb.widgets.display import COMES_ALIVE, under_kernel, view_of

taking: ContextVar[Callable[[Page], None] | None] = ContextVar("taking", default=None)
"""Who takes a page when its block has ended, instead of its being shown: a sealed step."""


@checked
def page(
    position: Moment,
    *,
    ask: Ask | Question | None = None,
    question: str = "",
    remember: str = "",
    recall: bool = True,
    turned: bool | None = None,
) -> Page:
    """Open a page: what is found in its block is shown together, beside one board.

    Everything in the block that finds something (claims, facts, the replies, the
    tactics, a position's changes, a chart) stands on the page as a short
    paragraph.  What is wrong or not proved is gathered too: when the block has
    ended, the page is shown, and one error names all of it.

    Parameters
    ----------
    position : Moment
        The position that it shows.
    ask : {"find the move", "think"} or Question, optional
        Ask the class for the move, or with ``"think"`` your `question`; what is
        found is shown only when it is asked for, and so is the move.  Every move
        that is as good is right.  Or a question about the same position
        (:mod:`chessnb.questions`), whose answers are typed on the page and graded.
    question : str
        The question in your own words.
    remember : str
        What the class is to remember; it stands at the end.
    recall : bool
        Whether the last three moves stand at the top: a page under a text that has told them
        needs none.
    turned : bool, optional
        Show the board from Black's side; by default it is White's.

    Returns
    -------
    Page
        For ``with``, which gives the position.

    Raises
    ------
    LessonError
        If it is no position of a lesson, if a page is open already, or if
        there is no move to find.
    PageError
        At the end of the block, if anything on it is wrong, not proved or
        could not be read.

    Examples
    --------
    >>> from chessnb import Lesson, claims
    >>> lesson = Lesson.from_text("1. f3 e5 2. g4 Qh4#")
    >>> with page(lesson.before("2... Qh4#"), ask="find the move") as m:
    ...     claim = claims.mates(m, within=1)
    2. g4 | position | rnbqkbnr/pppp1ppp/8/4p3/6P1/5P2/PPPPP2P/RNBQKBNR b KQkq - 0 2 | rules
    2... | mates | black | 1 | proved
    """
    if isinstance(position, Nothing):
        raise LessonError("the position of the page was not found")
    if not isinstance(position, Moment):
        raise LessonError(
            f"a page shows a position of a lesson, not {as_given(position)}: write "
            "page(lesson.after('…')), with a lesson that was read before"
        )
    asked = ask if isinstance(ask, Question) else None
    spread = Spread(
        moment=position,
        ask=None if isinstance(ask, Question) else ask,
        asked=asked,
        asking=question,
        remember=remember,
        recall=recall,
    )
    return Page(spread, turned=bool(turned))


class Page:
    """A page whose block runs; made by :func:`page`."""

    def __init__(self, spread: Spread, *, turned: bool = False) -> None:
        self.spread = spread
        self.turned = turned
        self._gathering: Gathering | None = None

    def __enter__(self) -> Moment:
        self._gathering = open_page()
        return self.spread.moment

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> Literal[False]:
        gathering = self._gathering
        assert gathering is not None
        close_page()
        if isinstance(error, ChessnbError):
            gathering.take(error)
        self._show(gathering)
        if error is not None and not isinstance(error, ChessnbError):
            return False  # an error of Python's own passes, behind what was found so far
        if gathering.errors:
            raise PageError(gathering.errors) from None
        return False

    def _show(self, gathering: Gathering) -> None:
        """Show all that was gathered, once."""
        spread = self.spread = replace(self.spread, parts=tuple(gathering.parts))
        if take := taking.get():
            take(self)
            return
        plain = str(spread)
        shell = _shell()
        if shell is None:
            print(plain)
            return
        wrong = PageError(gathering.errors).shown if gathering.errors else ""
        still = spread_html(spread, turned=self.turned, hint=COMES_ALIVE if under_kernel() else "")
        bundle: dict[str, Any] = {
            "text/plain": plain,
            "text/html": sealed(plain, still, beside=wrong),
        }
        if under_kernel():
            from chessnb.widgets.page_spread import PageSpread

            bundle |= view_of(PageSpread(spread, turned=self.turned))
        if wanted():
            bundle[MIME] = copy_data(self._copy())
        from IPython.display import publish_display_data

        publish_display_data(bundle)  # type: ignore[no-untyped-call]

    def _copy(self) -> PageCopy:
        """Return the page as values; with what its live form says, if that is wanted."""
        copy = page_copy(self.spread, turned=self.turned)
        if not os.environ.get(RECORDINGS):
            return copy
        from chessnb.widgets.page_spread import PageSpread

        live = PageSpread(self.spread, turned=self.turned)
        try:
            return replace(copy, recording=live.recording())
        finally:
            live.close()


def _shell() -> Any:
    ipython = sys.modules.get("IPython")
    return None if ipython is None else ipython.get_ipython()
