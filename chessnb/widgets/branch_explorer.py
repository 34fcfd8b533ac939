"""The branch explorer: a lesson to walk through, with one's own tries, and a sure way back.

The page holds the revealed part of the lesson's trees, and walks in it alone.
Python is asked for what the page does not have: the next move of a lesson
that hides it, what a try is worth, what stands beside a position.  A question
is answered by a task of its own, in slices: the kernel goes on hearing, and a
question that nobody waits for any more is dropped.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict
from typing import Any

import anywidget
import chess
import chess.pgn
import traitlets

from chessnb.diagrams import Diagram
from chessnb.errors import ChessnbError, LessonError, NotationError
from chessnb.findings import Record, content, sealed, typeset
from chessnb.findings.record import quoted
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.slips import check_lesson
from chessnb.mistakes import checked
from chessnb.notation import read_move
from chessnb.notation.letter_choice import piece_letters, reading_language
from chessnb.search.budget import Searching, finish, in_slices
from chessnb.search.proof_book import book_of
from chessnb.teaching import cell_code as cells
from chessnb.teaching import remarks
from chessnb.teaching.kept_verdicts import finding_kept
from chessnb.teaching.printed_tree import indented, movetext
from chessnb.teaching.revealed_tree import Reveal, RevealedTree
from chessnb.teaching.tries import (
    Answer,
    answering,
    answering_own,
    beside_the_lesson,
    judged,
    without_hidden,
)
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.threats import finding_threat
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style

TRY_DEPTH = Depth(mate=3, within=3, budget=200_000)
"""How far a try is looked at where no verdict was kept: half a second at most, compiled.

Of fifty ordinary tries in the demo's game 48 are answered so far; with 60,000
positions it was half of them.
"""

ELSEWHERE = "catching up"
"""The topic of a page's question about a try that its own reader did not make here and now."""


class BranchExplorer(anywidget.AnyWidget):
    """A lesson to explore: its movetext with all sidelines, a board, and the reader's own tries.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    at : Moment or str, optional
        Where it opens: a position or its address; the lesson's start by default.
    reveal : {"all", "so far", "ask"}
        How much is shown: everything; up to `at`, going on as the reader goes
        on; up to `at`, and the next move only when it is asked for.  What is
        hidden is not in the page, and not in the notebook.
    turned : bool
        Show the board from Black's side.
    letters : str
        With which letters moves are written and read: a language whose
        letters the PGN standard lists, or ``"figurine"``.
    words : mapping of str to str, optional
        Translations of the words that are shown; the keys are those of
        ``frontend/words.js`` and ``frontend/explorerwords.js``.
    variable : str
        What the notebook calls the lesson, for cells that are copied.

    Raises
    ------
    AddressError
        If the lesson has no such position.
    LessonError
        If the position is another lesson's, or `reveal` is unknown.
    UnknownLanguage
        If the letters of the language are not known.

    Notes
    -----
    Tries are the reader's own: they are kept by the browser and never become
    part of the lesson.  Where proofs are kept (``chessnb verify --update``),
    what every legal move does where it opens is kept beside the lesson, so
    that a first try is answered at once.

    Examples
    --------
    >>> lesson = Lesson.from_text("1. e4 e5 2. Nf3 (2. f4) 2... Nc6", title="First moves")
    >>> BranchExplorer(lesson, at="1... e5", reveal="ask")
    BranchExplorer('First moves', at='1... e5', reveal='ask')
    """

    _esm = bundle("explorer.js")
    _css = style("theme.css")

    tree = traitlets.Dict(help="The revealed part of the lesson; set by Python only.").tag(
        sync=True
    )
    at = traitlets.Int(0, help="The number of the position where it opens.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    words = traitlets.Dict(help="Translated words.").tag(sync=True)
    piece_letters = traitlets.Unicode("PNBRQK", help="How moves name the pieces.").tag(sync=True)
    students = traitlets.Bool(False, help="Whether no teacher's tools stand on it.").tag(sync=True)

    @checked
    def __init__(
        self,
        lesson: Lesson,
        *,
        at: Moment | str | None = None,
        reveal: Reveal = "all",
        turned: bool = False,
        letters: str = "english",
        words: Mapping[str, str] | None = None,
        variable: str = "lesson",
    ) -> None:
        check_lesson(lesson, call="BranchExplorer", at=True)
        self._tasks: dict[tuple[str, str, str], asyncio.Task[None]] = {}
        self.lesson = lesson
        self.opens_at = _moment(lesson, at)
        self.variable = variable
        self._shown = RevealedTree(lesson, self.opens_at, reveal)
        self._language = reading_language(letters)
        self._answers: dict[tuple[str, chess.Move], Answer] = {}
        super().__init__(
            tree=self._shown.data(),
            at=self._shown.number_of(self.opens_at.node),
            turned=turned,
            words=dict(words or {}),
            piece_letters=piece_letters(letters),
        )
        self.on_msg(self._hear)

    @property
    def reveal(self) -> Reveal:
        """How much of the lesson is shown."""
        return self._shown.reveal

    # -- hearing -------------------------------------------------------------

    def _hear(self, _widget: Any, content: Any, _buffers: Any) -> None:
        """Hear one message of a page: what it asks, and which page and question it is."""
        if not isinstance(content, Mapping):
            return
        asked = Asked(content)
        if asked.kind == "reveal":
            self._reveal(asked)
        elif asked.kind == "drop":
            self._drop((asked.client, str(content.get("what")), asked.topic))
        elif asked.kind in self._SEARCHES:
            search: Search = getattr(self, self._SEARCHES[asked.kind])
            self._start(asked, search(asked))

    def _reveal(self, asked: Asked) -> None:
        node = self._shown.node(asked.content.get("number"))
        if node is not None and self._shown.show_next(node):
            self._publish()
        self._tell(asked, {"number": asked.content.get("number")})

    def _publish(self) -> None:
        self.tree = self._shown.data()

    def _tell(self, asked: Asked, what: Mapping[str, Any]) -> None:
        self.send({"kind": asked.kind, "client": asked.client, "seq": asked.seq, **what})

    # -- searching, in slices --------------------------------------------------

    def _start(self, asked: Asked, searching: Searching[Mapping[str, Any]]) -> None:
        """Answer a question: in a task where a kernel runs, at once elsewhere."""
        self._drop(asked.place)
        loop = _running_loop()
        if loop is None:
            self._tell(asked, finish(_safely(searching)))
            return
        task = loop.create_task(self._answer(asked, _safely(searching)))
        self._tasks[asked.place] = task

    async def _answer(self, asked: Asked, searching: Searching[Mapping[str, Any]]) -> None:
        def watch(positions: int) -> None:
            self._tell(asked, {"positions": positions})

        with suppress(asyncio.CancelledError):
            self._tell(asked, await in_slices(searching, watch))

    def _drop(self, place: tuple[str, str, str]) -> None:
        """Stop answering what a page asked before: it has left that position."""
        task = self._tasks.pop(place, None)
        if task is None or task.done():
            return
        if task.get_loop() is _running_loop():
            task.cancel()
        else:  # asked from another thread, such as a cell's that closes the widget
            task.get_loop().call_soon_threadsafe(task.cancel)

    # -- what may be asked -------------------------------------------------------

    def _try(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Judge the last move of a line; if it is the lesson's next move, reveal that."""
        board, move = self._last_move(asked)
        node = self._shown.find(asked.content.get("root"), list(board.move_stack))
        main = node.next() if node is not None else None
        if node is not None and main is not None and main.move == move:
            if self._may_reveal(asked) and self._shown.show_next(node):
                self._publish()
            own = yield from answering_own(main, book=book_of(self.opens_at), depth=TRY_DEPTH)
            return {"answer": own.data()}
        known = (board.epd(), move)
        if known not in self._answers:
            found = yield from answering(
                board,
                move,
                lesson_move=None if main is None else main.move,
                book=book_of(self.opens_at),
                depth=TRY_DEPTH,
            )
            sideline, met = self._shown.lesson_on(node, board, move)
            comment = "" if met is None else self._shown.comment_on(met)
            found = beside_the_lesson(found, sideline, met, comment)
            self._answers[known] = without_hidden(found, board, self._shown.hidden_from(node))
        return {"answer": self._answers[known].data()}

    def _may_reveal(self, asked: Asked) -> bool:
        """Tell whether finding the lesson's move shows it: not where it was found elsewhere."""
        return asked.topic != ELSEWHERE

    def _typed(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Read a move that the page could not read; say why it cannot be played."""
        yield from ()
        board = self._board(asked)
        try:
            text = str(asked.content.get("text") or "")[:80]
            move = read_move(board, text, language=self._language)
        except NotationError as error:
            return {"text": error.reason, "uci": ""}
        return {"text": "", "uci": move.uci()}

    def _remarks(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Say what the last move changed."""
        yield from ()
        return {"changes": list(self._changed(asked))}

    def _changed(self, asked: Asked) -> tuple[str, ...]:
        """Say what the last move changed; where the next one is hidden, not what it gives to do."""
        board = self._board(asked)
        node = self._shown.find(asked.content.get("root"), list(board.move_stack))
        hidden = node is not None and self._shown.is_hidden(node)
        return remarks.changed(board, with_next=not hidden)

    def _tags(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Name the tactics of the last move."""
        yield from ()
        board = self._board(asked)
        node = self._shown.find(asked.content.get("root"), list(board.move_stack))
        if node is None:
            return {"tags": []}
        moment = Moment(lesson=self.lesson, node=node)
        return {"tags": remarks.tags_of(moment, with_later=self.reveal == "all")}

    def _threat(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        with_line = self.reveal == "all"
        sentence = yield from remarks.finding_threat_in_words(
            self._board(asked), with_line=with_line
        )
        return {"sentences": [sentence]}

    def _facts(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        yield from ()
        board = self._board(asked)
        return {"sentences": [*self._changed(asked)[1:], *remarks.facts_of(board)]}

    def _cell(self, asked: Asked) -> Searching[Mapping[str, Any]]:
        """Write what is shown as the code of one cell."""
        what = asked.content.get("what")
        if what == "lesson":
            return {"code": cells.lesson_cell(self.lesson, variable=self.variable)}
        board = self._board(asked)
        node, rest = self._nearest(asked, board)
        moment = Moment(lesson=self.lesson, node=node)
        if what == "line" and not rest:
            raise LessonError("no line was played from here: play its moves on the board first")
        if rest and what in ("line", "moment"):
            return {"code": cells.line_cell(moment, rest, variable=self.variable)}
        if what == "moment":
            return {"code": cells.after(moment, variable=self.variable)}
        if rest:
            raise LessonError("this move is not the lesson's: copy the line as a cell first")
        if what == "replies":
            return {"code": cells.replies_cell(moment, variable=self.variable)}
        if what == "question":
            return asdict(cells.question_cell(moment, variable=self.variable))
        return asdict((yield from self._claim(moment)))

    def _claim(self, moment: Moment) -> Searching[cells.Cell]:
        """Find what to claim: what the move does, else what is threatened, else the material."""
        verdict = yield from self._verdict(moment)
        threat = ""
        # Where moves are hidden, a threat could name one of them.
        silent = verdict is None or verdict.kind in ("nothing", "not settled") or not verdict.kept
        if self.reveal == "all" and silent:
            found = (yield from finding_threat(moment.board)).verdict
            threat = "" if found is None else found.san
        return cells.claim_cell(moment, verdict=verdict, threat=threat, variable=self.variable)

    def _verdict(self, moment: Moment) -> Searching[Verdict | None]:
        if moment.back is None or moment.move is None:
            return None
        board, book = moment.back.board, book_of(moment)
        kept = None if book is None else (yield from finding_kept(book, board, moment.move))
        if kept is not None:
            return kept
        return (yield from judged(board, moment.move, depth=TRY_DEPTH))

    _SEARCHES: Mapping[str, str] = {
        "try": "_try",
        "judge": "_try",
        "typed": "_typed",
        "remarks": "_remarks",
        "tags": "_tags",
        "threat": "_threat",
        "facts": "_facts",
        "cell": "_cell",
    }

    # -- the position of a message --------------------------------------------------

    def _board(self, asked: Asked) -> chess.Board:
        """Return the position that a message is about, its moves from the root behind it.

        Raises
        ------
        LessonError
            If its moves cannot be played.
        """
        root = self._shown.node(asked.content.get("root"))
        if root is None or root.parent is not None:
            raise LessonError("the page asks about a position that the lesson does not have")
        board = root.board()
        for uci in str(asked.content.get("line") or "").split():
            move = _legal(board, uci)
            board.push(move)
        return board

    def _last_move(self, asked: Asked) -> tuple[chess.Board, chess.Move]:
        board = self._board(asked)
        if not board.move_stack:
            raise LessonError("no move was tried")
        move = board.pop()
        return board, move

    def _nearest(
        self, asked: Asked, board: chess.Board
    ) -> tuple[chess.pgn.GameNode, Sequence[chess.Move]]:
        """Return the last position of the lesson on a line, and the moves behind it."""
        moves = list(board.move_stack)
        for length in range(len(moves), -1, -1):
            node = self._shown.find(asked.content.get("root"), moves[:length])
            if node is not None:
                return node, moves[length:]
        raise LessonError("the page asks about a position that the lesson does not have")

    # -- how it is shown ------------------------------------------------------------

    def __repr__(self) -> str:
        reveal = "" if self.reveal == "all" else f", reveal={self.reveal!r}"
        return f"BranchExplorer({self.lesson.title!r}, at={self.opens_at.address!r}{reveal})"

    @property
    def record(self) -> Record:
        """What is compared of an output: the lesson and where it opens."""
        fields = (quoted(self.lesson.title), self.opens_at.fen)
        return Record(place=self.opens_at.place, kind="explore", fields=fields, status="given")

    @property
    def picture(self) -> Diagram:
        """The diagram of the position where it opens."""
        return self.opens_at.picture

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        """Show a diagram and the movetext that is revealed, and the live explorer over it."""
        moves = indented(movetext(self._shown, letters=self.piece_letters))
        plain = str(self.record)
        card = typeset(content(self.opens_at.caption, picture=self.picture) + moves)
        return come_alive({"text/plain": plain, "text/html": sealed(plain, card)}, self), {}

    def close(self) -> None:
        """Close the widget, and stop what is being searched for it."""
        # A widget that was refused (an option misspelt) is closed without ever having begun.
        for place in list(self.__dict__.get("_tasks", ())):
            self._drop(place)
        super().close()


class Asked:
    """A message of a page: what it asks, and which page and question it is."""

    def __init__(self, content: Mapping[str, Any]) -> None:
        self.content = content
        self.kind = str(content.get("kind"))
        self.client = str(content.get("client"))
        self.seq = content.get("seq")
        self.topic = str(content.get("topic") or "")

    @property
    def place(self) -> tuple[str, str, str]:
        """What a later question takes the place of: the same kind, from the same page."""
        return self.client, self.kind, self.topic


Search = Callable[[Asked], Searching[Mapping[str, Any]]]


def _safely(searching: Searching[Mapping[str, Any]]) -> Searching[Mapping[str, Any]]:
    """Turn errors that a reader should see into answers."""
    try:
        return (yield from searching)
    except ChessnbError as error:
        return {"trouble": getattr(error, "reason", "") or str(error)}


def _running_loop() -> asyncio.AbstractEventLoop | None:
    try:
        return asyncio.get_running_loop()
    except RuntimeError:
        return None


def _moment(lesson: Lesson, at: Moment | str | None) -> Moment:
    if at is not None:
        return lesson.at(at)
    if lesson.game is None and lesson.positions:
        return lesson.at(next(iter(lesson.positions)))
    return lesson.start


def _legal(board: chess.Board, uci: str) -> chess.Move:
    with suppress(ValueError):
        move = chess.Move.from_uci(uci)
        if move in board.legal_moves:
            return move
    raise LessonError(f"{uci!r} cannot be played in the position that the page shows")
