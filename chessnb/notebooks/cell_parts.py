"""Putting a teacher's changes of one cell into its new draft, part by part.

A cell's text is taken apart into paragraphs (Markdown) or lines (code).  Of
the first draft only fingerprints are kept, which is enough to tell which
parts the teacher touched, and which the new draft words otherwise.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Sequence
from difflib import SequenceMatcher
from itertools import zip_longest

from chessnb.findings.seal import fingerprint

_LENGTH = 8

Edit = tuple[int, int, Sequence[str]]
"""What takes the place of the first draft's parts from one number up to another."""


def parts_of(source: str, cell_type: str) -> list[str]:
    """Take a cell's text apart: paragraphs of Markdown, lines of code."""
    if cell_type == "code":
        return source.split("\n")
    return re.split(r"\n{2,}", source)


def marks_of(source: str, cell_type: str) -> list[str]:
    """Return a fingerprint of each part of a cell's text, as its metadata keeps them."""
    return [fingerprint(part.rstrip())[:_LENGTH] for part in parts_of(source, cell_type)]


def merged(first: Sequence[str], mine: str, new: str, *, cell_type: str) -> str:
    r"""Return a new draft's text with what the teacher has changed in the old one.

    Where both have changed the same part, the teacher's stays.

    Parameters
    ----------
    first : sequence of str
        The fingerprints of the first draft's parts.
    mine : str
        The text as the teacher left it.
    new : str
        The text as it is drafted now.

    Examples
    --------
    >>> first = marks_of("a()\nb()\nc()", "code")
    >>> merged(first, "a()\nc()\nd()", "a(1)\nb()\nc()", cell_type="code")
    'a(1)\nc()\nd()'
    """
    own = _edits(first, mine, cell_type)
    drafted = [edit for edit in _edits(first, new, cell_type) if not _touches_any(edit, own)]
    known = _known(first, (mine, new), cell_type)
    parts: list[str] = []
    at = 0
    for start, end, instead in sorted((*drafted, *own), key=lambda edit: edit[:2]):
        parts += known[at:start]
        parts += instead
        at = max(at, end)
    parts += known[at:]
    text = ("\n" if cell_type == "code" else "\n\n").join(parts)
    return text if cell_type != "code" or _can_be_read(text) else mine


def _edits(first: Sequence[str], text: str, cell_type: str) -> list[Edit]:
    """Return how a text differs from the first draft, each edit as small as it can be."""
    parts, marks = parts_of(text, cell_type), marks_of(text, cell_type)
    matcher = SequenceMatcher(None, list(first), marks, autojunk=False)
    edits: list[Edit] = []
    for sort, start, end, begin, stop in matcher.get_opcodes():
        if sort == "equal":
            continue
        more = max(0, (stop - begin) - (end - start))
        if more:  # what is more than before was put in before the rest
            edits.append((start, start, parts[begin : begin + more]))
        pairs = zip_longest(range(start, end), parts[begin + more : stop])
        edits += [(at, at + 1, () if now is None else (now,)) for at, now in pairs]
    return edits


def _touches_any(edit: Edit, others: Sequence[Edit]) -> bool:
    start, end, _ = edit
    return any(
        max(start, other[0]) < min(end, other[1])
        or (start == end and other[0] < start < other[1])
        or (other[0] == other[1] and start < other[0] < end)
        for other in others
    )


def _known(first: Sequence[str], texts: Sequence[str], cell_type: str) -> list[str]:
    """Return the first draft's parts, as far as a later text still has them."""
    found: dict[str, str] = {}
    for text in texts:
        marks = marks_of(text, cell_type)
        found.update(zip(marks, parts_of(text, cell_type), strict=True))
    # A part that no text has any more has been replaced in both, and is not asked for.
    return [found.get(mark, "") for mark in first]


def _can_be_read(code: str) -> bool:
    try:
        ast.parse(code)
    except SyntaxError:
        return False
    return True
