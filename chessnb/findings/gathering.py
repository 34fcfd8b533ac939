"""Gathering: while a page is open, findings go to it instead of being shown one by one.

A public function that makes a finding is decorated with :func:`gathered`, one
that leads to a position with :func:`forgiven`.  Outside a page they do what
they do without.  While a page is open, a finding is handed to it, and so is
what goes wrong: a claim that is false or not proved, a move that is not legal.
The block goes on then with :data:`NOTHING`, so that everything that is wrong
with a page is told in one run.

Only the outermost call counts: what a claim asks other functions for is its
own affair.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, TypeVar

from chessnb.errors import ChessnbError, LessonError
from chessnb.findings.announcing import announce

Function = TypeVar("Function", bound=Callable[..., Any])


class PageError(ChessnbError):
    """What of a page is wrong, not proved, or could not be read: all of it, once.

    Its message is a line for each: the record of a claim, the message of a slip.

    Attributes
    ----------
    errors : tuple of ChessnbError
        What was raised, in the order of the page.
    """

    def __init__(self, errors: tuple[ChessnbError, ...]) -> None:
        super().__init__("\n".join(map(str, errors)))
        self.errors = errors

    @property
    def shown(self) -> str:
        """What a notebook shows: a sentence for each, on a line of its own."""
        return "\n".join(error.shown for error in self.errors)


class Nothing:
    """What a call gives whose error was gathered; every further call on it gives the same."""

    def __getattr__(self, name: str) -> Nothing:
        if name.startswith("_"):
            raise AttributeError(name)
        return self

    def __call__(self, *_: object, **__: object) -> Nothing:
        """Give nothing again."""
        return self

    def __repr__(self) -> str:
        return "NOTHING"

    def __bool__(self) -> bool:
        return False

    def __iter__(self) -> Iterator[Any]:
        return iter(())


NOTHING = Nothing()
"""What stands in a page for what could not be found."""


class Gathering:
    """What an open page has been handed so far, in order: findings and errors."""

    def __init__(self) -> None:
        self.parts: list[Any] = []

    def take(self, part: Any) -> None:
        """Take a finding or an error; the same object only once."""
        if all(part is not other for other in self.parts):
            self.parts.append(part)

    @property
    def errors(self) -> tuple[ChessnbError, ...]:
        """What went wrong."""
        return tuple(part for part in self.parts if isinstance(part, ChessnbError))

    @property
    def findings(self) -> tuple[Any, ...]:
        """What was found."""
        return tuple(part for part in self.parts if not isinstance(part, ChessnbError))


_open: ContextVar[Gathering | None] = ContextVar("_open", default=None)
"""What gathers now: None outside a page, and within a call that is being gathered."""

_page: ContextVar[Gathering | None] = ContextVar("_page", default=None)
"""The page that is open, also within its calls."""


def open_page() -> Gathering:
    """Begin to gather.

    Raises
    ------
    LessonError
        If a page is open already.
    """
    if _page.get() is not None:
        raise LessonError(
            "a page is open already, and pages do not stand within each other: end its block "
            "(the lines set in below “with page(…)”) before the next one begins"
        )
    gathering = Gathering()
    _page.set(gathering)
    _open.set(gathering)
    return gathering


def close_page() -> None:
    """Gather no more."""
    _page.set(None)
    _open.set(None)


@contextmanager
def aside() -> Iterator[None]:
    """Gather nothing meanwhile: what a call asks for is its own affair."""
    token = _open.set(None)
    try:
        yield
    finally:
        _open.reset(token)


def gathered(function: Function) -> Function:
    """Hand what a function finds to the page that is open, and what goes wrong too."""
    return _decorated(function, keep=True)


def forgiven(function: Function) -> Function:
    """Hand what goes wrong in a function to the page that is open; what it gives is its own."""
    return _decorated(function, keep=False)


def _decorated(function: Function, *, keep: bool) -> Function:
    @functools.wraps(function)
    def call(*args: Any, **options: Any) -> Any:
        gathering = _open.get()
        if gathering is None:
            return _announced(function, keep, *args, **options)
        if any(isinstance(given, Nothing) for given in (*args, *options.values())):
            return NOTHING  # what was meant is gathered as an error already
        try:
            with aside():
                found = _announced(function, keep, *args, **options)
        except ChessnbError as error:
            gathering.take(error)
            return NOTHING
        if keep:
            gathering.take(found)
        return found

    return call  # type: ignore[return-value]


def _announced(function: Callable[..., Any], keep: bool, *args: Any, **options: Any) -> Any:
    """Call a function, and tell a check that listens what it found, or what it refused."""
    try:
        found = function(*args, **options)
    except ChessnbError as error:
        announce(error)
        raise
    if keep:
        announce(found)
    return found
