"""A teacher's mistakes in a cell: a name or an option that does not exist, an argument left out.

Python's own answer is a traceback about attributes and arguments.  Here it is
one sentence that names the nearest thing that does exist.  Names are answered
by modules that :func:`introduce` themselves and by values that are
:class:`Forgiving`; calls are answered by functions that are :func:`checked`.
Signatures, help and types are what they are without.
"""

from __future__ import annotations

import dis
import functools
import inspect
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from types import ModuleType
from typing import TYPE_CHECKING, Any, TypeVar

from chessnb.errors import ChessnbError, cut_short, listed

Function = TypeVar("Function", bound=Callable[..., Any])

_WORD = re.compile(r"[A-Z]?[a-z0-9]+|[A-Z]+(?![a-z])")
_NEAR, _AS_NEAR = 0.6, 0.1

_MEANT = {
    "attacker": ("side",),
    "before": ("position",),
    "black": ("turned",),
    "by": ("side", "rule"),
    "color": ("side",),
    "colour": ("side",),
    "depth": ("mate", "within"),
    "flip": ("turned",),
    "flipped": ("turned",),
    "guarded": ("defended",),
    "guarded_by": ("defended_by",),
    "hidden": ("reveal",),
    "hide": ("reveal",),
    "key": ("move",),
    "language": ("letters",),
    "moves": ("line", "within", "mate"),
    "piece": ("square",),
    "points": ("at_least",),
}
"""What a name or an option is also called, where the nearest in letters would be another.

Also what it was called once: a lesson that still says so is told the name of today.
"""


class UnknownName(ChessnbError, AttributeError):  # noqa: N818 (a name a teacher reads)
    """A module or a value has nothing of that name.

    Attributes
    ----------
    name : str
        What was asked for.
    nearest : tuple of str
        What there is that comes closest, best first.
    """

    def __init__(self, owner: str, name: str, known: Iterable[str]) -> None:
        # Classes have capitals, all else has none: what was not asked for is not offered.
        names = sorted(known, key=lambda other: (other[:1].isupper() != name[:1].isupper(), other))
        alike = [other for other in names if other[:1].isupper() == name[:1].isupper()]
        meant = [other for other in _MEANT.get(name, ()) if other in alike]
        self.nearest = tuple(meant or nearest(name, alike) or nearest(name, names))
        super().__init__(f"{owner} has no {name!r}{_or_else(self.nearest, alike, 'it has')}")
        self.name = name


class UnknownImport(ChessnbError, ImportError):  # noqa: N818
    """A name is imported that the package does not have; the message names the nearest."""


class CallError(ChessnbError, TypeError):
    """A function was called with an option or an argument that it does not take, or without one."""


# -- what is near --------------------------------------------------------------


def nearest(given: str, known: Iterable[str], *, most: int = 3) -> list[str]:
    """Return the names that come closest to one that is not there, best first.

    Capitals, spaces and plurals do not count; a word in common does.

    Examples
    --------
    >>> nearest("only_move", ["mates", "only_defence", "only_legal_reply"])
    ['only_defence', 'only_legal_reply']
    >>> nearest("replytable", ["Lesson", "reply_table"])
    ['reply_table']
    """
    scored = sorted((-_likeness(given, name), name) for name in known)
    near = [(-score, name) for score, name in scored if -score >= _NEAR]
    if not near or near[0][0] == 1:
        return [name for _, name in near[:1]]
    return [name for score, name in near[:most] if score >= near[0][0] - _AS_NEAR]


def _likeness(one: str, other: str) -> float:
    """Return how alike two names are, from 0 to 1; 1 where they differ in a plural at most."""
    words, others = _words(one), _words(other)
    key, other_key = "".join(words), "".join(others)
    if key == other_key:
        return 1
    ratio = SequenceMatcher(None, key, other_key).ratio()
    common = sum(len(word) > 2 for word in set(words) & set(others))
    shared = 0.6 + 0.8 * common / (len(words) + len(others)) if common else 0
    return min(0.99, max(ratio, shared))


def _words(name: str) -> list[str]:
    return [_singular(word.lower()) for word in _WORD.findall(name)]


def _singular(word: str) -> str:
    """Take the ending of a plural, or of a verb, from a word."""
    if len(word) > 4 and word.endswith("ies"):
        return f"{word[:-3]}y"
    return word[:-1] if len(word) > 3 and word.endswith("s") else word


def same_name(one: str, other: str) -> bool:
    """Tell whether two names differ in capitals, spaces, hyphens or a plural at most.

    Examples
    --------
    >>> same_name("Back rank mates", "back-rank mate")
    True
    """
    return "".join(_words(one)) == "".join(_words(other))


def did_you_mean(near: Sequence[str]) -> str:
    """Return the question that names what is near; empty if nothing is.

    Examples
    --------
    >>> did_you_mean(["mates"])
    'did you mean mates?'
    """
    return f"did you mean {listed(near, joint='or')}?" if near else ""


def _or_else(near: Sequence[str], names: Sequence[str], what: str) -> str:
    """Return the question, or what there is if nothing is near."""
    if near or not names:
        return f": {did_you_mean(near)}" if near else ""
    return f"; {what} {listed(names)}"


# -- names ---------------------------------------------------------------------


class Forgiving:
    """A value that answers a misspelt name with the nearest that it has."""

    if not TYPE_CHECKING:  # a type checker is to complain of the name itself

        def __getattr__(self, name: str) -> Any:
            """Answer a misspelt name with the nearest that there is."""
            if name.startswith("_"):
                raise AttributeError(name)
            if name in dir(type(self)):  # a property that failed: its own error is the one to tell
                return object.__getattribute__(self, name)
            known = [other for other in dir(self) if not other.startswith("_")]
            raise UnknownName(type(self).__name__, name, known)


class _ForgivingModule(ModuleType):
    """A module that does the same, for what it gives out."""

    def __getattr__(self, name: str) -> Any:
        short = self.__name__.rpartition(".")[2]
        if name.startswith("_"):
            raise AttributeError(f"module {self.__name__!r} has no attribute {name!r}")
        error = UnknownName(short, name, self.__all__)
        if _is_import(sys._getframe(1)):
            raise UnknownImport(str(error))
        raise error


def _is_import(frame: Any) -> bool:
    """Tell whether a frame is carrying out ``from … import …``, which hides AttributeErrors."""
    return bool(frame.f_code.co_code[frame.f_lasti] == dis.opmap["IMPORT_FROM"])


def introduce(module: str) -> None:
    """Have a module answer misspelt names; what it gives out is its ``__all__``."""
    sys.modules[module].__class__ = _ForgivingModule


# -- calls ---------------------------------------------------------------------


def checked(function: Function) -> Function:
    """Have a function answer a wrong call with what to write.

    A decorator, also for ``__init__``, where the class is what is called.

    Examples
    --------
    >>> @checked
    ... def mates(position, *, within, move=None): ...
    >>> mates("start", 4)
    Traceback (most recent call last):
    chessnb.mistakes.CallError: mates: write within=4
    """

    @functools.wraps(function)
    def call(*args: Any, **options: Any) -> Any:
        try:
            return function(*args, **options)
        except TypeError as error:
            wrong = fault_of_call(function, args, options, error)
        raise wrong

    return call  # type: ignore[return-value]


def fault_of_call(
    function: Callable[..., Any], args: Sequence[Any], options: Mapping[str, Any], error: TypeError
) -> Exception:
    """Return what a teacher is told of a call that failed.

    The error itself, if it is not the call that is wrong but something
    further in.
    """
    if error.__traceback__ is None or error.__traceback__.tb_next is not None:
        return error
    faults = list(_Call(function, args, options).faults())
    return CallError(f"{_name(function, args)}: {'; '.join(faults)}") if faults else error


def check_options(call: str, given: Iterable[str], known: Sequence[str]) -> None:
    """Refuse options that a function hands on and that nobody knows.

    Raises
    ------
    CallError
        With the nearest.
    """
    for option in given:
        if option not in known:
            raise CallError(f"{call}: {_no_option(option, known, known)}")


def _name(function: Callable[..., Any], args: Sequence[Any]) -> str:
    """Return what a teacher calls a function: the class that is made, for an ``__init__``."""
    name = function.__qualname__.rpartition(".")[2]
    return type(args[0]).__name__ if name == "__init__" else name


def _no_option(given: str, known: Sequence[str], takes: Sequence[str]) -> str:
    """Say what is near: of all that a function takes what is meant, else of what is `known`."""
    meant = [option for option in _MEANT.get(given, ()) if option in takes]
    there = "its only option is" if len(known) == 1 else "its options are"
    return f"there is no option {given!r}{_or_else(meant or nearest(given, known), known, there)}"


class _Call:
    """A call that does not fit a function."""

    def __init__(
        self, function: Callable[..., Any], args: Sequence[Any], options: Mapping[str, Any]
    ) -> None:
        parameters = [*inspect.signature(function).parameters.values()]
        own = parameters[:1] and parameters[0].name in ("self", "cls")
        self.name = _name(function, args)
        self.parameters = parameters[1:] if own else parameters
        self.args = args[1:] if own else args
        self.options = options
        self.places = [one.name for one in self.parameters if one.kind == one.POSITIONAL_OR_KEYWORD]
        self.named = [one.name for one in self.parameters if one.kind == one.KEYWORD_ONLY]

    def faults(self) -> Iterator[str]:
        """Yield what is wrong, each as a clause."""
        wrong = [name for name in self.options if name not in (*self.places, *self.named)]
        for name in wrong:
            free = [one for one in self.named or self.places if one not in self.options]
            yield _no_option(name, free, [*self.places[len(self.args) :], *self.named])
        placed = self.places[: len(self.args)]
        for name in placed:
            if name in self.options:
                yield f"{name} is given twice, by its place and as {name}=…"
        extra = self.args[len(self.places) :]
        free = sorted(
            (name for name in self.named if name not in self.options),
            key=lambda name: name not in self._required,
        )
        named = free[: len(extra)]
        if named:
            pairs = zip(named, extra, strict=False)
            yield f"write {listed(f'{name}={_short(value)}' for name, value in pairs)}"
        if len(extra) > len(free):
            yield f"that is more than it takes: {self._form()}"
        given = {*placed, *named, *self.options}
        missing = [name for name in self._required if name not in given]
        if missing and not wrong:
            yield f"{listed(missing)} {_is(missing)} missing: {self._form()}"

    @property
    def _required(self) -> list[str]:
        plain = (inspect.Parameter.POSITIONAL_OR_KEYWORD, inspect.Parameter.KEYWORD_ONLY)
        return [p.name for p in self.parameters if p.default is p.empty and p.kind in plain]

    def _form(self) -> str:
        """Return how the function is called, with what it needs."""
        needed = [name if name in self.places else f"{name}=…" for name in self._required]
        return f"{self.name}({', '.join(needed)})"


def _is(words: Sequence[str]) -> str:
    return "is" if len(words) == 1 else "are"


def _short(value: Any) -> str:
    """Return a value as it can be typed, if it is a plain one."""
    plain = isinstance(value, int | float | str)
    return cut_short(repr(value)) if plain else "…"
