"""A question, live: a board, a field for the answer, hints one by one, and the reason on the board.

The browser is given the question alone.  It sends an answer as it was typed,
or played; Python grades it, in slices, and sends back what it is worth and
what shows it.  Hints and the solution are sent when they are asked for.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import asdict
from typing import Any

import anywidget
import chess
import traitlets

from chessnb.errors import ChessnbError, InputError
from chessnb.mistakes import checked
from chessnb.notation import write_last_move
from chessnb.notation.letter_choice import piece_letters, reading_language
from chessnb.search.budget import Searching, finish, in_slices
from chessnb.teaching.questions.answering import grading
from chessnb.teaching.questions.question_values import AnswerError, Graded, Question
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style

BY_HAND = {
    "find the move": "move",
    "what is threatened": "",
    "find the line": "line",
    "all checks": "list",
    "all captures": "list",
    "all legal moves": "list",
}
"""What a move on the board is taken for, by the kind of question."""

LONGEST = 2_000
"""So much of what a page sends is read."""


class QuestionCard(anywidget.AnyWidget):
    """A question to answer, on a board and by typing.

    Parameters
    ----------
    question : Question
        What is asked, as a function of :mod:`chessnb.questions` makes it.
    turned : bool
        Show the board from Black's side.
    letters : str
        With which letters moves are written and read, as for :class:`~chessnb.LiveBoard`.
    words : mapping of str to str, optional
        Translations; the keys are those of ``frontend/words.js`` and
        ``frontend/questionwords.js``.

    Notes
    -----
    What is right is neither in the page nor in the widget's state before it
    is asked for.

    Examples
    --------
    >>> from chessnb import questions
    >>> QuestionCard(questions.checks("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"))
    QuestionCard('Which checks can White give? Name them all.')
    """

    _esm = bundle("questioning.js")
    _css = style("theme.css")

    asked = traitlets.Dict(help="The question; set by Python only.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    words = traitlets.Dict(help="Translated words.").tag(sync=True)
    piece_letters = traitlets.Unicode("PNBRQK", help="How moves name the pieces.").tag(sync=True)

    @checked
    def __init__(
        self,
        question: Question,
        *,
        turned: bool = False,
        letters: str = "english",
        words: Mapping[str, str] | None = None,
    ) -> None:
        if not isinstance(question, Question):
            raise InputError(
                "a question is what questions.find_move(…) and the like make", given=question
            )
        self.question = question
        self.answers: list[tuple[str, Graded]] = []
        self._hints = 0
        self._language = reading_language(letters)
        self._task: asyncio.Task[None] | None = None
        super().__init__(
            asked=asked_data(question),
            turned=turned,
            words=dict(words or {}),
            piece_letters=piece_letters(letters),
        )
        self.on_msg(self._hear)

    def __repr__(self) -> str:
        return f"QuestionCard({self.question.prompt!r})"

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """Show the question as it is without scripts, and the live one over it."""
        return come_alive(self.question._repr_mimebundle_(), self), {}

    # -- what the page asks ------------------------------------------------------

    def _hear(self, _widget: Any, content: Any, _buffers: Any) -> None:
        if not isinstance(content, Mapping):
            return
        kind = content.get("kind")
        if kind == "answer":
            self._start(content, str(content.get("text") or "")[: LONGEST + 1])
        elif kind == "hint":
            self._tell(content, self._next_hint())
        elif kind == "solution":
            self._tell(content, solution_data(self.question))

    def _tell(self, content: Mapping[str, Any], what: Mapping[str, Any]) -> None:
        names = ("kind", "client", "seq")
        self.send({**{name: content.get(name) for name in names}, **what})

    def _next_hint(self) -> dict[str, Any]:
        hints = self.question.hints
        if self._hints < len(hints):
            self._hints += 1
        told = hints[self._hints - 1].text if hints else ""
        return {"text": told, "left": len(hints) - self._hints}

    def _start(self, content: Mapping[str, Any], text: str) -> None:
        """Grade an answer: in a task where a kernel runs, at once elsewhere."""
        if self._task is not None:
            self._task.cancel()
        searching = self._grading(text)
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self._tell(content, finish(searching))
            return
        self._task = loop.create_task(self._answer(content, searching))

    async def _answer(
        self, content: Mapping[str, Any], searching: Searching[dict[str, Any]]
    ) -> None:
        with suppress(asyncio.CancelledError):
            self._tell(content, await in_slices(searching))

    def _grading(self, text: str) -> Searching[dict[str, Any]]:
        return (
            yield from grading_data(
                self.question,
                text,
                self._hints,
                self._language,
                keep=lambda found: self.answers.append((text, found)),
            )
        )


def grading_data(
    question: Question,
    text: str,
    hints: int,
    language: str,
    *,
    keep: Callable[[Graded], object] | None = None,
) -> Searching[dict[str, Any]]:
    """Grade an answer, and return what a page is given of it, ready for JSON.

    What cannot be read does not count, and says why.
    """
    try:
        found = yield from grading(question, text, hints=hints, language=language)
    except AnswerError as error:
        return {"result": "unread", "sentence": _sentence(error.reason)}
    except ChessnbError as error:  # such as a record that cannot be written any more
        return {"result": "unread", "sentence": error.shown}
    if keep is not None:
        keep(found)
    return graded_data(found)


def asked_data(question: Question) -> dict[str, Any]:
    """Return what a page is given of a question, ready for JSON: nothing that is right."""
    board = question.board
    last = board.peek() if board.move_stack and board.peek() else None
    return {
        "fen": board.fen(),
        "last": "" if last is None else last.uci(),
        "after": write_last_move(board),
        "prompt": question.prompt,
        "points": question.points,
        "hints": len(question.hints),
        "byHand": BY_HAND.get(question.kind, ""),
    }


def graded_data(found: Graded) -> dict[str, Any]:
    """Return what a page is given of a graded answer, ready for JSON."""
    start = chess.Board(found.fen)
    if found.passed:
        start.push(chess.Move.null())
    return {
        "result": found.result,
        "sentence": found.sentence,
        "earned": found.earned,
        "points": found.points,
        "fen": start.fen(),
        "passed": found.passed,
        "line": [move.uci() for move in found.line],
        "written": found.written,
        "marks": [asdict(mark) for mark in found.marks] if not found.line else [],
    }


def solution_data(question: Question) -> dict[str, Any]:
    """Return what is right, when it is asked for."""
    marks = [asdict(mark) for one in question.right for mark in one.marks]
    return {"text": question.solution, "marks": marks}


def _sentence(reason: str) -> str:
    begun = reason[:1].upper() + reason[1:]
    return begun if begun.endswith((".", "?", "!")) else f"{begun}."
