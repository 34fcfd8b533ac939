"""The collection of kinds: whatever module lies in :mod:`chessnb.teaching.questions.kinds` is one.

No kind is named here: a module that is added there is found, and its answers are graded.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from chessnb.teaching.questions import kinds as folder
from chessnb.teaching.questions.question_kind import Kind


def _collected() -> Iterator[Kind]:
    for module in iter_modules(folder.__path__):
        yield import_module(f"{folder.__name__}.{module.name}").KIND


KINDS: dict[str, Kind] = {kind.name: kind for kind in _collected()}
"""Every kind by its name; not to be changed."""


def names() -> tuple[str, ...]:
    """Return the names of all kinds of questions.

    Examples
    --------
    >>> "find the move" in names()
    True
    """
    return tuple(KINDS)
