"""What went wrong in a cell, as a teacher reads it in the notebook."""

from __future__ import annotations

import re
from collections.abc import Sequence

_COLOURS = re.compile(r"\x1b\[[0-9;]*m")
_NOT_KNOWN = re.compile(r"name '(?P<name>\w+)' is not defined")
_LONG = 400

ALL_OF_A_PAGE = "PageError"
"""The error that tells all that is wrong with a page, and is never cut."""


def error_sentence(name: str, value: str, traceback: Sequence[str] = ()) -> str:
    r"""Return an error as one line.

    Parameters
    ----------
    name, value : str
        What Python calls the error, and what it says.
    traceback : sequence of str
        What the notebook shows; where that is one sentence (as for this
        package's errors), it is taken.

    Returns
    -------
    str
        A sentence without its full stop.

    Examples
    --------
    >>> error_sentence("IllegalMove", "'Nd5': no knight [8/8]", ["“Nd5” cannot be played."])
    '“Nd5” cannot be played'
    >>> error_sentence("ValueError", "no\nsuch square")
    'ValueError: no such square'
    >>> error_sentence("NameError", "name 'clams' is not defined")
    'there is nothing called “clams” here'
    """
    shown = " ".join(_COLOURS.sub("", "\n".join(traceback)).split())
    if len(traceback) == 1 and shown and not shown.startswith(name):
        return (shown if name == ALL_OF_A_PAGE else _cut(shown)).removesuffix(".")
    if missing := name_that_is_missing(name, value):
        return f"there is nothing called “{missing}” here"
    sentence = _cut(" ".join(value.split()))
    return f"{name}: {sentence}" if sentence else name


def name_that_is_missing(name: str, value: str) -> str:
    """Return the name that an error says is not defined; empty for any other error.

    Examples
    --------
    >>> name_that_is_missing("NameError", "name 'lesson' is not defined")
    'lesson'
    """
    found = _NOT_KNOWN.match(value) if name == "NameError" else None
    return found["name"] if found else ""


def _cut(sentence: str) -> str:
    return sentence if len(sentence) <= _LONG else f"{sentence[:_LONG]}…"
