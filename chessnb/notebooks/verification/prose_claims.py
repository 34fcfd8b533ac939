"""Sentences of the prose that claim something which no cell of their section proves.

"The knight is pinned", "the reply is forced", "mate in three": a section that
says such a thing should hold a claim cell, a reply table or a motif tag.
Whether the sentence is true is for that cell to say; here it is only listed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from chessnb.notebooks import cell_key, is_edited
from chessnb.notebooks.answer_cells import proves
from chessnb.notebooks.verification.named_positions import sections
from chessnb.notebooks.verification.prose_moves import visible

_CLAIMING = re.compile(
    r"""\b(?:
        forced | forces | by\ force | forcing\ line
      | pinned | pins | unpinned
      | mates?\ in\ (?:\d+|one|two|three|four|five|six|seven|eight|nine|ten)
      | (?:is|be|will\ be)\ mated
      | only\ (?:legal\ )?(?:move|reply|defence|defense|answer)
      | wins | is\ winning | wins\ by | costs\ the | loses\ (?:a|an|the|at)
      | trapped | cannot\ (?:move|castle|be\ stopped|be\ saved) | may\ not\ (?:move|castle)
      | threatens | is\ threatened
      | zugzwang | perpetual | stalemate
      | forks | forked | skewers | skewered
    )\b""",
    re.VERBOSE | re.IGNORECASE,
)
# A sentence ends at a full stop that is not the dot of a move number ("14. Nd5").
_SENTENCE = re.compile(r"(?<=[^\d\s.][.!?])\s+|\n\s*\n")


@dataclass(frozen=True, kw_only=True)
class UnprovedSentence:
    """A sentence that claims, in a section without a claim.

    Attributes
    ----------
    cell : int
        The cell, counted from 1.
    text : str
        The sentence, shortened if it is long.
    word : str
        What makes it a claim.
    """

    cell: int
    text: str
    word: str


def unproved_sentences(notebook: Mapping[str, Any]) -> list[UnprovedSentence]:
    """List the sentences that claim something in a section that proves nothing.

    Parameters
    ----------
    notebook : notebook
        The lesson, as nbformat reads it.

    Returns
    -------
    list of UnprovedSentence
        In the order of the text.
    """
    cells: Sequence[Mapping[str, Any]] = notebook["cells"]
    found: list[UnprovedSentence] = []
    for section in sections(list(cells)):
        if not any(proves(cells[index]) for index in section):
            for index in section:
                found.extend(_claims_in(cells[index], number=index + 1))
    return found


def _claims_in(cell: Mapping[str, Any], *, number: int) -> Iterator[UnprovedSentence]:
    drafted = cell_key(cell) in ("title", "how to use", "recap") and not is_edited(cell)
    if cell["cell_type"] != "markdown" or drafted:
        return
    for sentence in _SENTENCE.split(visible(str(cell["source"]))):
        words = " ".join(sentence.split()).lstrip("#>-* ")
        match = None if words.endswith("?") else _CLAIMING.search(words)
        if match is not None:
            shown = words if len(words) <= 90 else f"{words[:87].rstrip()}…"
            yield UnprovedSentence(cell=number, text=shown, word=match[0].lower())
