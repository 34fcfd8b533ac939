"""A chess board to play on, in a notebook.

Python is the truth.  The browser shows a move at once and tells Python by a
message of its own, so that no move is lost or overtaken while the kernel is
busy (see :mod:`chessnb.widgets.played_line`).  Messages may be handled outside the
main thread, while a cell is running; one lock guards the line, and functions
that follow the moves are called one after the other, in the order of the
moves, without that lock.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable, Iterable, Mapping
from typing import Any

import anywidget
import chess
import traitlets

from chessnb.board.playable import playable
from chessnb.board.position import Position
from chessnb.diagrams import Diagram, Mark
from chessnb.findings import Record, content, sealed, typeset
from chessnb.findings.record_fields import place_of
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move
from chessnb.notation.letter_choice import piece_letters, reading_language
from chessnb.widgets.display import come_alive
from chessnb.widgets.esm import bundle, style
from chessnb.widgets.played_line import Heard, PlayedLine

MoveCallback = Callable[[chess.Move, chess.Board], object]
"""What follows the moves: it is given the move and a board after it, its own to keep."""


class LiveBoard(anywidget.AnyWidget):
    """A board to play, draw and set up positions on, by hand, by keyboard or by typing.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position to begin with; the start of a game if it is left out.
    turned : bool
        Show the board from Black's side.
    letters : str
        How the board writes moves, and reads typed ones: ``"english"``,
        ``"figurine"``, or a language of :data:`~chessnb.notation.LETTERS`, by
        its English name or its own (``"deutsch"``).
        What is copied is PGN, whose letters are English.
    marks : iterable of Mark
        What is drawn on the position at first.
    words : mapping of str to str, optional
        Translations of the words that the board shows and says; the keys are
        those of ``frontend/words.js``.

    Raises
    ------
    PositionError
        If the position cannot be played on, or needs the castling of Chess960.
    UnknownLanguage
        If the letters of the language are not known.

    Notes
    -----
    A saved notebook shows a still diagram of the position that the board had
    when the cell ran, with what was drawn on it then.

    Examples
    --------
    >>> board = LiveBoard("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1")
    >>> board.play("e4")
    Move.from_uci('e2e4')
    >>> board
    LiveBoard('4k3/8/8/8/4P3/8/8/4K3 b - - 0 1')
    >>> board.moves
    (Move.from_uci('e2e4'),)
    """

    _esm = bundle("board.js")
    _css = style("theme.css")

    state = traitlets.Dict(help="The line and what was heard; set by Python only.").tag(sync=True)
    turned = traitlets.Bool(False, help="Whether Black's side is below.").tag(sync=True)
    letters = traitlets.Unicode("english", help="How moves are written.")
    piece_letters = traitlets.Unicode(help="Six letters, pawn to king; follows `letters`.").tag(
        sync=True
    )
    words = traitlets.Dict(help="Translated words.").tag(sync=True)

    @checked
    def __init__(
        self,
        position: Position = "start",
        *,
        turned: bool = False,
        letters: str = "english",
        marks: Iterable[Mark] = (),
        words: Mapping[str, str] | None = None,
    ) -> None:
        self._lock = threading.RLock()
        self._line = PlayedLine(playable(position))
        self._line.strokes.put("", marks)
        self._callbacks: list[MoveCallback] = []
        self._errors: list[Exception] = []
        self._trouble = ""
        self._told = 0
        self._undelivered: deque[tuple[chess.Move, chess.Board]] = deque()
        self._delivering = False
        super().__init__(
            state=self._state(), turned=turned, letters=letters, words=dict(words or {})
        )
        self.on_msg(self._hear)

    @traitlets.validate("letters")
    def _known_letters(self, proposal: Mapping[str, Any]) -> str:
        piece_letters(proposal["value"])
        return str(proposal["value"])

    @traitlets.observe("letters")
    def _change_letters(self, _change: Any) -> None:
        self._set_letters()

    @traitlets.default("piece_letters")
    def _first_letters(self) -> str:
        return piece_letters(self.letters)

    def _set_letters(self) -> None:
        with self._lock:
            self._line.language = reading_language(self.letters)
        self.piece_letters = piece_letters(self.letters)

    # -- what the board shows ---------------------------------------------

    @property
    def board(self) -> chess.Board:
        """The position shown, with its moves; a board of the caller's own."""
        with self._lock:
            return self._line.board()

    @property
    def moves(self) -> tuple[chess.Move, ...]:
        """The moves from the board's start to the position shown."""
        with self._lock:
            return self._line.moves

    @property
    def marks(self) -> tuple[Mark, ...]:
        """What is drawn on the position shown, in the order it was drawn.

        May be set.  What is drawn on other positions stays with them, and is
        forgotten when another position is set up.
        """
        with self._lock:
            return self._line.strokes.on(self._line.here)

    @marks.setter
    def marks(self, marks: Iterable[Mark]) -> None:
        with self._lock:
            self._line.strokes.put(self._line.here, marks)
            self._publish()

    @property
    def errors(self) -> tuple[Exception, ...]:
        """What the functions given to :meth:`on_move` have raised, oldest first."""
        with self._lock:
            return tuple(self._errors)

    # -- what a teacher does with it --------------------------------------

    def show(self, position: Position) -> None:
        """Set up another position; the moves and the drawing so far are forgotten.

        Raises
        ------
        PositionError
            As for the board itself.
        """
        start = playable(position)
        with self._lock:
            self._line.set_up(start)
            self._trouble = ""
            self._publish()

    def play(self, move: MoveLike) -> chess.Move:
        """Play a move, given in any common notation, and return it.

        Raises
        ------
        NotationError
            If it is not one legal move in the position shown.
        """
        with self._lock:
            played = read_move(self._line.board(), move, language=self._line.language)
            self._line.push(played)
            self._undelivered.append((played, self._line.board()))
            self._publish()
        self._deliver()
        return played

    def back(self, moves: int = 1) -> None:
        """Take moves back, as far as there are any; :meth:`forward` brings them again."""
        self._go(-moves)

    def forward(self, moves: int = 1) -> None:
        """Play again moves that were taken back, as far as there are any."""
        self._go(moves)

    def to_start(self) -> None:
        """Take all moves back."""
        self._go(-len(self._line.line))

    def on_move(self, callback: MoveCallback) -> MoveCallback:
        """Have a function called after every move, the browser's and Python's alike.

        It is called with the move and the board after it, in the order of the
        moves, never twice at a time, and perhaps outside the main thread.  If
        it raises, the move stands, later moves still come, the error is shown
        under the board and kept in :attr:`errors`.

        Returns
        -------
        callable
            The function itself, so that this may be used as a decorator.
        """
        with self._lock:
            self._callbacks.append(callback)
        return callback

    # -- how it is heard and told -----------------------------------------

    def _go(self, moves: int) -> None:
        with self._lock:
            self._line.go(self._line.ply + moves)
            self._publish()

    def _hear(self, _widget: Any, content: Any, _buffers: Any) -> None:
        """Hear one message of a browser; the order of the messages is that of the moves."""
        if not isinstance(content, Mapping):
            return
        with self._lock:
            heard = self._line.hear(content)
            if heard is None:
                return
            if heard.move is not None:
                self._undelivered.append((heard.move, self._line.board()))
            self._publish()
            self._answer(heard)
        self._deliver()

    def _answer(self, heard: Heard) -> None:
        self.send(
            {"kind": "answer", "client": heard.client, "seq": heard.seq, "text": heard.refusal}
        )

    def _deliver(self) -> None:
        """Call the callbacks for all moves that wait, unless that is being done already."""
        with self._lock:
            if self._delivering:
                return
            self._delivering = True
        while (waiting := self._next_delivery()) is not None:
            move, board, callbacks = waiting
            for callback in callbacks:
                self._call(callback, move, board.copy())

    def _next_delivery(self) -> tuple[chess.Move, chess.Board, list[MoveCallback]] | None:
        with self._lock:
            if not self._undelivered:
                self._delivering = False
                return None
            return (*self._undelivered.popleft(), list(self._callbacks))

    def _call(self, callback: MoveCallback, move: chess.Move, board: chess.Board) -> None:
        try:
            callback(move, board)
        except Exception as error:
            with self._lock:
                self._errors.append(error)
                self._trouble = (
                    f"A function that follows the moves failed ({type(error).__name__}: {error}). "
                    "The move stands."
                )
                self._publish()

    def _publish(self) -> None:
        self._told += 1
        self.state = self._state()

    def _state(self) -> dict[str, Any]:
        return {**self._line.state(), "trouble": self._trouble, "told": self._told}

    # -- how it is shown --------------------------------------------------

    def __repr__(self) -> str:
        turned = ", turned=True" if self.turned else ""
        return f"LiveBoard({self.board.fen()!r}{turned})"

    def _repr_mimebundle_(self, **_: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        board = self.board
        picture = Diagram(
            fen=board.fen(), turned=self.turned, last_move=_last_move(board), marks=self.marks
        )
        place, fields = place_of(board), (board.fen(),)
        plain = str(Record(place=place, kind="board", fields=fields, status="given"))
        still = {"text/plain": plain, "text/html": sealed(plain, typeset(content(picture=picture)))}
        return come_alive(still, self), {}


def _last_move(board: chess.Board) -> str | None:
    return board.peek().uci() if board.move_stack else None
