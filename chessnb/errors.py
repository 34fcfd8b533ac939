"""What can go wrong, and what a teacher is told about it.

::

    ChessnbError
    ├── NotationError (ValueError)      a move that could not be read
    │   ├── MalformedMove               the text is not a move
    │   ├── IllegalMove                 a move, but not legal here, and why
    │   └── AmbiguousMove               two or more legal moves fit
    ├── InputError (ValueError)         a side, a square, a piece that cannot be read
    ├── PositionError (ValueError)      what was given is not a position
    ├── GameFileError (ValueError)      a game file that cannot be used, and where
    ├── AddressError (LookupError)      a lesson has no such position
    ├── LessonError (ValueError)        a lesson that would contradict itself
    ├── UnknownName (AttributeError)    a module or a value has no such name (in mistakes)
    ├── UnknownImport (ImportError)     the package has nothing of that name (in mistakes)
    ├── CallError (TypeError)           a function called with what it does not take (in mistakes)
    ├── NotebookError (ValueError)      a notebook that cannot be used, and why
    │   └── CellFailed                  a cell of it failed (in notebooks.runner)
    ├── UnknownLanguage (ValueError)    no such piece letters (in notation.letters)
    ├── GoalError (ValueError)          a goal or a number that has no meaning (in proof.goals)
    ├── RecordError (ValueError)        a text that is no record (in findings.record)
    ├── PageError                       all that is wrong with a page (in findings.gathering)
    ├── BrokenProof                     a proof that proves nothing (in proof.checker)
    ├── TooWild                         a balance that nobody can work out (in proof.balances)
    ├── ClaimError (ValueError)         a claim that has no meaning (in claims.claim)
    ├── FalseClaim                      a claim that is wrong, and why (in claims.claim)
    ├── UnprovedClaim                   a claim that is not proved (in claims.claim)
    ├── QuestionError (ValueError)      a question that cannot be asked as it stands \
(in teaching.questions.question_values)
    ├── AnswerError (ValueError)        an answer that cannot be read \
(in teaching.questions.question_values)
    ├── ClassRecordError (ValueError)   a class record or a slip that cannot be used \
(in teaching.class_record.kept_answers)
    ├── ScheduleError (ValueError)      a text that is no schedule (in teaching.recall.schedule)
    └── EngineError                     a UCI engine that cannot be asked (in engine)

Every message says what was expected, what came, in which position (a FEN in
square brackets), and what to do; the same stands in the exception's fields.
In a notebook an error of this tree shows as its sentence alone: without a
traceback, and with the position in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from inspect import isroutine

import chess

_BRACKETED = re.compile(r" \[([^][]+)\]")
_LONGEST, _LONGEST_FEN = 60, 200
_NOT_TYPED = re.compile(r"^<|<class |\b0x")


class ChessnbError(Exception):
    """The root of every error that this package raises on purpose."""

    @property
    def shown(self) -> str:
        """What a notebook shows: the message, with positions in words instead of their FEN.

        A position that cannot be played on stays as it was given, because it
        is what must be mended.

        Examples
        --------
        >>> ChessnbError(f"nothing is threatened [{chess.STARTING_FEN}]").shown
        'nothing is threatened (White to move, move 1).'
        """
        return ended(_BRACKETED.sub(_in_words, str(self)))

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows (an IPython hook)."""
        return [self.shown]


def _in_words(bracketed: re.Match[str]) -> str:
    words = _position_in_words(bracketed[1])
    return f" ({words})" if words else bracketed[0]


def _position_in_words(fen: str) -> str:
    """Say whose move it is; nothing for what is no position that can be played on."""
    try:
        board = chess.Board(fen)
    except ValueError:
        return ""
    if not board.is_valid():
        return ""
    return f"{'White' if board.turn else 'Black'} to move, move {board.fullmove_number}"


def ended(text: str) -> str:
    """Return a sentence with its full stop, or the mark that it ends with."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def _quoted(text: str) -> str:
    """Put what was typed in quotation marks: on one line, and cut where it is long."""
    shown = text if text.isprintable() else repr(text)[1:-1]
    return f"“{cut_short(shown)}”"


def cut_short(text: str) -> str:
    """Return a text as a message quotes it: its beginning, where it is long."""
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"


def as_given(given: object) -> str:
    """Return what came as a message names it: as it is typed, else what kind of thing it is.

    Examples
    --------
    >>> as_given("e9"), as_given(None), as_given(object())
    ("'e9'", 'None', 'an object')
    """
    typed = " ".join(repr(given).split())
    return kind_of(given) if _NOT_TYPED.search(typed) else cut_short(typed)


def kind_of(given: object) -> str:
    """Say what kind of thing came: ``"a Board"``, ``"the class Board"``, ``"a function"``."""
    if given is None:
        return "None"
    if isinstance(given, type):
        return f"the class {given.__name__}"
    kind = "function" if isroutine(given) else type(given).__name__
    return f"{'an' if kind[0].lower() in 'aeiou' else 'a'} {kind}"


def listed(items: Iterable[str], *, joint: str = "and") -> str:
    """Join words as a sentence does: ``"a, b and c"``.

    Examples
    --------
    >>> listed(["a", "b", "c"]), listed(["a"]), listed(["a", "b"], joint="or")
    ('a, b and c', 'a', 'a or b')
    """
    words = list(items)
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"


class NotationError(ChessnbError, ValueError):
    """A text could not be read as a move in a position.

    Attributes
    ----------
    text : str
        What was read.
    fen : str
        The position in which it was read.
    reason : str
        The teacher's answer, without text and position.
    """

    _opening = "cannot be read"

    def __init__(self, reason: str, *, text: str, fen: str) -> None:
        super().__init__(f"{cut_short(text)!r}: {reason} [{fen}]")
        self.text = text
        self.fen = fen
        self.reason = reason

    @property
    def shown(self) -> str:
        """What a notebook shows: what was typed, the reason, and whose move it is.

        Examples
        --------
        >>> IllegalMove("White has no queen", text="Qd5", fen="4k3/8/8/8/8/8/8/4K3 w - -").shown
        '“Qd5” cannot be played: White has no queen. White to move, move 1.'
        """
        said = f"{_quoted(self.text)} {self._opening}: {self.reason}"
        position = _position_in_words(self.fen)
        return f"{ended(said)} {position}." if position else f"{said} [{self.fen}]."


class MalformedMove(NotationError):  # noqa: N818 (a name a teacher reads)
    """The text has not the form of a move in any notation that is understood."""


class IllegalMove(NotationError):  # noqa: N818
    """The text names a move that the rules do not allow in the position."""

    _opening = "cannot be played"


class AmbiguousMove(NotationError):  # noqa: N818
    """The text fits two or more legal moves.

    Attributes
    ----------
    candidates : tuple of str
        The moves that fit, in SAN, sorted.
    """

    _opening = "can mean several moves"

    def __init__(self, reason: str, *, text: str, fen: str, candidates: Sequence[str]) -> None:
        super().__init__(reason, text=text, fen=fen)
        self.candidates = tuple(candidates)


class PositionError(ChessnbError, ValueError):
    """What was given is not a position of chess, or not a legal one.

    Attributes
    ----------
    given : str
        What was given, as text.
    reason : str
        What is wrong with it.
    instead : str
        What to write instead, if something else was meant; else empty.
    """

    def __init__(self, reason: str, *, given: str, instead: str = "") -> None:
        hint = f": write {instead}" if instead else ""
        shown = given if len(given) <= _LONGEST_FEN else cut_short(given)
        super().__init__(f"{reason}{hint} [{shown}]")
        self.reason = reason
        self.given = given
        self.instead = instead

    @property
    def shown(self) -> str:
        """What a notebook shows; see :attr:`ChessnbError.shown`."""
        shown = super().shown
        return shown[0].upper() + shown[1:]


class InputError(ChessnbError, ValueError):
    """A small thing that was given, such as a side, a square or a piece, cannot be read.

    Attributes
    ----------
    expected : str
        What it is and how it is written: ``"a side is 'White' or 'Black'"``.
    given : object
        What came.

    Examples
    --------
    >>> str(InputError("a side is 'White' or 'Black'", given="green"))
    "a side is 'White' or 'Black', not 'green'"
    """

    def __init__(self, expected: str, *, given: object) -> None:
        super().__init__(f"{expected}, not {as_given(given)}")
        self.expected = expected
        self.given = given

    @property
    def reason(self) -> str:
        """The whole message, as other errors call what is told of them."""
        return str(self)

    @property
    def shown(self) -> str:
        """What a notebook shows; see :attr:`ChessnbError.shown`."""
        shown = super().shown
        return shown[0].upper() + shown[1:]


class GameFileError(ChessnbError, ValueError):
    """A game file cannot be read, or what it holds cannot be used.

    Attributes
    ----------
    path : str
        The file, or what stands for it (``"the text"``).
    line : int or None
        The line of the file, counted from 1, where that is known.
    """

    def __init__(self, reason: str, *, path: str, line: int | None = None) -> None:
        where = path if line is None else f"{path}, line {line}"
        super().__init__(f"{where}: {reason}")
        self.reason = reason
        self.path = path
        self.line = line


class AddressError(ChessnbError, LookupError):
    """A lesson has no position at the address given.

    Attributes
    ----------
    address : str
        The address that was looked for.
    nearest : tuple of str
        Real addresses of the lesson that come closest, best first.
    """

    def __init__(self, reason: str, *, address: str, nearest: Sequence[str] = ()) -> None:
        hint = f" The nearest positions are: {', '.join(nearest)}." if nearest else ""
        super().__init__(f"{cut_short(address)!r}: {ended(reason) if hint else reason}{hint}")
        self.reason = reason
        self.address = address
        self.nearest = tuple(nearest)


class LessonError(ChessnbError, ValueError):
    """A lesson was told something that does not fit with what it holds."""


class NotebookError(ChessnbError, ValueError):
    """A notebook cannot be read, written or checked.

    Attributes
    ----------
    path : str
        The notebook.
    """

    def __init__(self, reason: str, *, path: str) -> None:
        super().__init__(f"{path}: {reason}")
        self.reason = reason
        self.path = path
