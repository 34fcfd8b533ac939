"""The live page: a column of text, and one board on which all of it is shown and tried.

It is a branch explorer that opens at the page's position and knows what the
page tells.  A page that asks hands the browser the question alone: neither
its state nor the tree that it publishes holds the move, the reasons or the
sidelines before they are asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import traitlets

from chessnb.findings import sealed
from chessnb.search.budget import Searching, finish
from chessnb.teaching.revealed_tree import Reveal
from chessnb.teaching.spread import Spread
from chessnb.teaching.still_spread import spread_html
from chessnb.teaching.tries import LESSONS_MOVE
from chessnb.widgets.branch_explorer import ELSEWHERE, Asked, BranchExplorer
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle
from chessnb.widgets.question import LONGEST, grading_data


class PageSpread(BranchExplorer):
    """The live form of a page; :func:`chessnb.page` shows one at the end of its block.

    Parameters
    ----------
    spread : Spread
        What stands on the page.
    **options
        ``turned``, ``letters``, ``words``, ``variable``, as for
        :class:`~chessnb.BranchExplorer`; the keys of `words` are also those of
        ``frontend/spreadwords.js``.

    Examples
    --------
    >>> from chessnb import Lesson
    >>> lesson = Lesson.from_text("1. f3 e5 2. g4 Qh4#")
    >>> live = PageSpread(Spread(moment=lesson.before("2... Qh4#"), ask="find the move"))
    >>> live.spread["question"], live.spread["told"]
    ('Black to move. Find the move.', None)
    """

    _esm = bundle("spread.js")
    _SEARCHES: Mapping[str, str] = {**BranchExplorer._SEARCHES, "answer": "_grade"}

    spread = traitlets.Dict(help="What the page says so far; set by Python only.").tag(sync=True)

    def __init__(self, spread: Spread, **options: Any) -> None:
        self._whole = spread
        self.on_answered: Callable[[], None] | None = None
        self._is_told = not spread.asks
        self._hints = 0
        lesson: Any = spread.moment.lesson
        reveal: Reveal = "so far" if self._is_told else "ask"
        super().__init__(lesson, at=spread.moment, reveal=reveal, **options)
        self.spread = spread.data(self._shown, told=self._is_told)

    @property
    def is_asking(self) -> bool:
        """Whether its question is open: nothing of what it tells was shown."""
        return not self._is_told

    def _hear(self, widget: Any, content: Any, buffers: Any) -> None:
        if isinstance(content, Mapping) and content.get("kind") == "disclose":
            self._disclose(Asked(content))
        elif isinstance(content, Mapping) and content.get("kind") == "hint":
            self._tell(Asked(content), self._next_hint())
        else:
            super()._hear(widget, content, buffers)

    def _disclose(self, asked: Asked) -> None:
        """Tell what the page holds: it was asked for."""
        if not self._is_told:
            self._is_told = True
            self._shown.reveal = "so far"
            self._shown.show_next(self.opens_at.node)
            self._publish()
            self.spread = self._whole.data(self._shown, told=True)
        self._tell(asked, {})
        self._answered()

    def _next_hint(self) -> dict[str, Any]:
        """Give the next hint to a question that is graded, the gentlest first."""
        asked = self._whole.asked
        hints = () if asked is None else asked.hints
        self._hints = min(self._hints + 1, len(hints))
        told = hints[self._hints - 1].text if hints else ""
        return {"text": told, "left": len(hints) - self._hints}

    def _grade(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Grade an answer as it was typed."""
        question = self._whole.asked
        if question is None:
            return {"result": "unread", "sentence": ""}
        text = str(asked.content.get("text") or "")[: LONGEST + 1]
        found = yield from grading_data(question, text, self._hints, self._language)
        if found["result"] == "right":
            self._answered()
        return found

    def _may_reveal(self, asked: Asked) -> bool:
        """Whoever finds the move has found it; the rest is shown when it is asked for."""
        return self._is_told and super()._may_reveal(asked)

    def _try(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Judge a try, and say whether it answers the question."""
        told = yield from super()._try(asked)
        answer = told["answer"]
        found = answer["kind"] == "lesson" and answer["sentence"] == LESSONS_MOVE
        right = self._whole.seeks_move and (found or answer["kind"] == "good")
        if right and asked.topic != ELSEWHERE:
            self._answered()
        return {"answer": {**answer, "right": right}}

    def _answered(self) -> None:
        """Tell who waits for it that the question is answered: found, or shown."""
        if self.on_answered is not None:
            self.on_answered()

    def recording(self) -> dict[str, Any]:
        """Return all that the page is told and answers, for a page without Python.

        Returns
        -------
        dict
            ``first``: its traits before anything is asked; ``home``: the place
            of its position, as questions name it; and where it asks ``answers``
            (to each legal move, by UCI) and ``told`` (its traits once it has told).

        Notes
        -----
        A move that nobody kept a verdict of costs half a second at most.
        """
        board = self.opens_at.board
        home = {
            "root": self._shown.number_of(self.opens_at.node.game()),
            "line": " ".join(move.uci() for move in board.move_stack),
        }
        self.spread = {**self.spread, "asked": None}  # without Python nobody grades
        if self._is_told:
            return {"first": self._browser_sees(), "home": home, "answers": {}, "told": None}
        first, answers = self._browser_sees(), {}
        for move in board.legal_moves if self._whole.seeks_move else ():
            line = f"{home['line']} {move.uci()}".strip()
            asked = Asked({"root": home["root"], "line": line, "topic": ELSEWHERE})
            answers[move.uci()] = finish(self._try(asked))["answer"]
        self._disclose(Asked({"kind": "disclose"}))
        return {"first": first, "home": home, "answers": answers, "told": self._browser_sees()}

    def _browser_sees(self) -> dict[str, Any]:
        """Return what the browser sees; behind what a page has told, no more can be asked for."""
        tree = self._shown.data()
        if self._is_told:
            tree = {**tree, "nodes": [[*row[:-1], 0] for row in tree["nodes"]]}
        return {
            "tree": tree,
            "at": self.at,
            "turned": self.turned,
            "words": self.words,
            "piece_letters": self.piece_letters,
            "students": True,
            "spread": self.spread,
        }

    def __repr__(self) -> str:
        return f"PageSpread({self.lesson.title!r}, at={self.opens_at.address!r})"

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """Show the page as it is without scripts, and the live one over it."""
        plain = str(self._whole)
        still = sealed(plain, spread_html(self._whole, turned=self.turned))
        return come_alive({"text/plain": plain, "text/html": still}, self), {}
