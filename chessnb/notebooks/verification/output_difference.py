"""How the outputs of a cell differ from those that are saved, in a teacher's words.

Whether they differ is decided by nbval; here it is said how.  What nbval does
not compare (widget views, pictures in pixels, metadata) is left out here too.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any, Literal

from chessnb.findings import Record
from chessnb.findings.record import read_records
from chessnb.notebooks.verification.earlier_form import CLAIM_ERRORS, says_the_same
from chessnb.notebooks.verification.report import NOTHING
from chessnb.notebooks.verification.stronger_records import found_more

SANITIZE_FILE = Path(__file__).with_name("sanitize.cfg")
"""The file for ``--nbval-sanitize-with``: it blanks the presentation of findings."""

_IGNORED = frozenset({"application/vnd.jupyter.widget-view+json", "image/png", "image/jpeg"})
_MESSAGES = {
    "error": "the error that is shown on purpose changed",
    "text/plain": "the finding changed",
    "stdout": "what the cell prints changed",
    "stderr": "the warnings that the cell prints changed",
    "text/html": "the shown HTML changed, though its record did not",
}
_LONG = 200


@dataclass(frozen=True, kw_only=True)
class Difference:
    """How two runs of a cell differ.

    Attributes
    ----------
    kind : {"changed", "found-more", "earlier-form"}
        Whether something else was found, only more, or the same that was
        saved before findings had records.
    message : str
        What changed, without a full stop.
    saved, now : str
        The two texts, or the part of them around the first difference.
    """

    kind: Literal["changed", "found-more", "earlier-form"] = "changed"
    message: str
    saved: str
    now: str


def difference(
    saved: Sequence[Mapping[str, Any]],
    now: Sequence[Mapping[str, Any]],
    *,
    earlier_form: bool = False,
) -> Difference | None:
    """Return how the outputs of a cell differ, or None if they agree.

    Parameters
    ----------
    saved, now : sequence of outputs
        As a notebook holds them.
    earlier_form : bool
        Whether the lesson may have been saved before findings had records.
    """
    found = _first_of(saved, now)
    if found is None:
        return None
    if earlier_form and says_the_same(saved, now):
        return replace(found, kind="earlier-form", message=_EARLIER)
    before, after = _records(saved), _records(now)
    if before and after and found_more(before, after):
        told = [
            "\n".join(str(one) for one in mine if one not in other)
            for mine, other in ((before, after), (after, before))
        ]
        return Difference(kind="found-more", message=_MORE, saved=told[0], now=told[1])
    return found


_EARLIER = "the finding has a record now, and says the same"
_MORE = "nothing is wrong, but more was found than is saved: chessnb verify --update saves it"


def _records(outputs: Sequence[Mapping[str, Any]]) -> list[Record]:
    """Return all that outputs say, each record once; nothing if they hold anything else."""
    found: dict[Record, None] = {}
    for sort, texts in _by_sort(outputs).items():
        if sort == "text/html":
            continue
        for text in texts:
            name, colon, message = text.partition(": ")
            told = message if sort == "error" and colon and name in CLAIM_ERRORS else text
            records = read_records(told.rstrip("\n"))
            if not records:
                return []
            found.update(dict.fromkeys(records))
    return list(found)


def _first_of(
    saved: Sequence[Mapping[str, Any]], now: Sequence[Mapping[str, Any]]
) -> Difference | None:
    """Return the first difference, of the sort that says most about the lesson."""
    before, after = _by_sort(saved), _by_sort(now)
    sorts = [*_MESSAGES, *sorted((before.keys() | after.keys()) - _MESSAGES.keys())]
    for sort in sorts:
        if before.get(sort) != after.get(sort):
            message = _MESSAGES.get(sort, f"the shown {sort} changed")
            texts = _around_difference(_text(before.get(sort)), _text(after.get(sort)))
            return Difference(message=message, saved=texts[0], now=texts[1])
    return None


def _by_sort(outputs: Sequence[Mapping[str, Any]]) -> dict[str, list[str]]:
    """Return the texts of outputs by what they are, each blanked of presentation."""
    found: dict[str, list[str]] = {}
    for output in outputs:
        sort = output["output_type"]
        if sort == "error":
            found.setdefault("error", []).append(f"{output['ename']}: {output['evalue']}")
        elif sort == "stream":
            text = "".join([*found.get(output["name"], []), output["text"]])
            found[output["name"]] = [text]
        else:
            for mime in output["data"].keys() - _IGNORED:
                found.setdefault(mime, []).append(_blanked(output["data"][mime]))
    return found


def _blanked(value: Any) -> str:
    text = value if isinstance(value, str) else repr(value)
    for pattern, replacement in _patterns():
        text = pattern.sub(replacement, text)
    return text


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    """Return the pairs of the sanitize file, read as nbval reads it."""
    lines = SANITIZE_FILE.read_text(encoding="utf-8")
    pairs = re.findall(r"^regex: (.*)$\n^replace: (.*)$", lines, flags=re.MULTILINE)
    return tuple((re.compile(regex), replacement) for regex, replacement in pairs)


def _text(texts: list[str] | None) -> str:
    return NOTHING if texts is None else "\n".join(texts).rstrip("\n")


def _around_difference(saved: str, now: str) -> tuple[str, str]:
    """Return two texts, or where they are long, the lines in which they part."""
    if "\n" not in saved + now and max(len(saved), len(now)) <= _LONG:
        return saved, now
    left, right = saved.split("\n"), now.split("\n")
    parted = _first_difference(left, right)
    lines = [side[parted] if parted < len(side) else "(no such line)" for side in (left, right)]
    start = max(0, _first_difference(*lines) - 40)
    label = "" if len(left) == len(right) == 1 else f"line {parted + 1}: "
    return f"{label}{_cut(lines[0], start)}", f"{label}{_cut(lines[1], start)}"


def _first_difference(left: Sequence[str], right: Sequence[str]) -> int:
    """Return the first index at which two sequences differ; the shorter length if none does."""
    pairs = enumerate(zip(left, right, strict=False))
    return next((index for index, (a, b) in pairs if a != b), min(len(left), len(right)))


def _cut(line: str, start: int) -> str:
    if len(line) <= _LONG:
        return line
    end = start + _LONG
    return ("…" if start else "") + line[start:end] + ("…" if end < len(line) else "")
