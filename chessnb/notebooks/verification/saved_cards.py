"""Whether the cards of a lesson still say what their records say.

A card is what students read, and nbval does not compare it.  Each carries a
seal over its record, all that it shows, and the sentence of an error beneath
it (see :mod:`chessnb.findings.seal`).  A card that was worded or drawn by an
earlier version has that version's seal and is as good as any; one that was
changed by hand, or whose seal was taken out, is a complaint.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from chessnb.findings.record import read_records
from chessnb.findings.seal import is_sealed
from chessnb.notebooks import section_of
from chessnb.notebooks.verification.report import Complaint

_LONGEST = 160
_HIDDEN = re.compile(r"<!--.*?-->|<[^>]*>", re.DOTALL)


def check_cards(notebook: Mapping[str, Any]) -> list[Complaint]:
    """List the cards that do not say what their records say.

    Parameters
    ----------
    notebook : notebook
        The lesson as it is saved; nothing is run.
    """
    cells: Sequence[Mapping[str, Any]] = notebook["cells"]
    return [
        Complaint(
            kind="card",
            message=f"the card was changed by hand. It says “{_cut(shown)}”; "
            f"the finding is: {_cut(plain)}",
            cell=index + 1,
            section=section_of(cells, index),
        )
        for index, cell in enumerate(cells)
        for plain, shown in _unsealed(cell.get("outputs", ()))
    ]


def _unsealed(outputs: Sequence[Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    """Yield the records and the words of each card whose seal does not fit."""
    errors = [one for one in outputs if one["output_type"] == "error"]
    beside = "\n".join(errors[0]["traceback"]) if errors else ""
    for output in outputs:
        data = output.get("data", {})
        plain, card = str(data.get("text/plain", "")), str(data.get("text/html", ""))
        if not card or not read_records(plain):
            continue
        if not is_sealed(plain, card) and not is_sealed(plain, card, beside=beside):
            told = [visible(card)] + [beside for error in errors if error["evalue"] == plain]
            yield plain, " ".join(told)


def visible(markup: str) -> str:
    """Return what a reader of a card sees, without its pictures.

    Examples
    --------
    >>> visible("<p>White &amp; Black<!-- x --></p><p>mate</p>")
    'White & Black mate'
    """
    return " ".join(html.unescape(_HIDDEN.sub(" ", markup)).split())


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…"
