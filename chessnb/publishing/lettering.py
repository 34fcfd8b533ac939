"""Text as a compositor sets it: figurines or a country's letters, and what stays on one line."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from chessnb.diagrams.svg import figurine_svg
from chessnb.notation.letter_choice import FIGURINE_LETTERS, piece_letters
from chessnb.notation.letters import ENGLISH, MOVE_LETTER
from chessnb.publishing.prose import Run, kept

_NO_BREAK = "\u00a0"

# What stays on one line: "20... Nf3", "14. O-O", the h3-c8 diagonal, a short last word.
_NUMBERED = re.compile(r"(?<![\w.])(\d{1,3}(?:\.\.\.|\.)) (?=[a-hKQRBNO])")
_DIAGONAL = re.compile(r"(?<=\b[a-h][1-8])-(?=[a-h][1-8]\b)")
_SHORT_LAST = re.compile(r" (\S{1,3})$")
_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)")


class Lettering:
    r"""How moves are written on paper.

    Parameters
    ----------
    letters : str
        A language whose piece letters are known, or ``"figurine"``.

    Raises
    ------
    UnknownLanguage
        If its letters are not known.

    Examples
    --------
    >>> Lettering("german").runs((Run(text="then 20... Nf3+"),))
    [{'text': 'then 20...\xa0Sf3+'}]
    >>> Lettering("figurine").runs((Run(text="Nf3", bold=True),))
    [{'piece': 'N', 'bold': True}, {'text': 'f3', 'bold': True}]
    """

    def __init__(self, letters: str = "figurine") -> None:
        wanted = piece_letters(letters)
        self._drawn = wanted == FIGURINE_LETTERS
        self._table = str.maketrans(ENGLISH, wanted)

    def text(self, text: str) -> list[dict[str, Any]]:
        """Return plain text as it is set."""
        return self.runs((Run(text=text),))

    def runs(self, runs: Sequence[Run]) -> list[dict[str, Any]]:
        """Return stretches of text as they are set, ready for JSON."""
        clean = [replace(run, text=kept(run.text)) for run in runs]
        if clean and not clean[-1].literal:
            tied = _SHORT_LAST.sub(rf"{_NO_BREAK}\1", clean[-1].text)
            clean[-1] = replace(clean[-1], text=tied)
        return [one for run in clean for one in self._run(run)]

    def figurines(self) -> dict[str, str]:
        """Return the pictures that stand for letters, by the letters; none where letters stand."""
        return {letter: figurine_svg(letter) for letter in ENGLISH[1:]} if self._drawn else {}

    def _run(self, run: Run) -> Iterator[dict[str, Any]]:
        style = {name: True for name in ("bold", "italic", "literal") if getattr(run, name)}
        if run.literal:
            yield {"text": run.text, **style}
            return
        text = _NUMBERED.sub(rf"\1{_NO_BREAK}", run.text)
        text = _DIAGONAL.sub("\u2011", _APOSTROPHE.sub("’", text))
        if not self._drawn:
            yield {"text": MOVE_LETTER.sub(self._lettered, text), **style}
            return
        yield from _with_figurines(text, style)

    def _lettered(self, found: re.Match[str]) -> str:
        return found.group().translate(self._table)


def _with_figurines(text: str, style: Mapping[str, bool]) -> Iterator[dict[str, Any]]:
    start = 0
    for found in MOVE_LETTER.finditer(text):
        if found.start() > start:
            yield {"text": text[start : found.start()], **style}
        yield {"piece": found.group(), **style}
        start = found.end()
    if text[start:]:
        yield {"text": text[start:], **style}
