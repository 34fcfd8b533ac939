"""A finding: one exact line, with a picture beside it.

An analysis cell of a lesson ends in a finding.  Its line is the cell's
``text/plain``: what nbval compares when the lesson is checked again.  The
picture and the sentence are the cell's ``text/html``: presentation, which the
shipped sanitize file blanks before comparing, so that a better drawing never
turns a lesson red.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import Any

from chessnb.diagrams import Diagram
from chessnb.findings.html import card


class Finding(ABC):
    """Something that was found in a position, shown as one line and a picture.

    Subclasses are frozen, keyword-only dataclasses.  Their ``repr`` reads
    back; :attr:`line` is for people and for nbval.
    """

    @property
    @abstractmethod
    def line(self) -> str:
        """The finding in one line of plain text; the same for the same finding, always."""

    @property
    def picture(self) -> Diagram | None:
        """The diagram that shows the finding, if one helps."""
        return None

    @property
    def paragraphs(self) -> Sequence[str]:
        """Plain sentences for the reader under the picture; the line alone by default."""
        return (self.line,)

    def __str__(self) -> str:
        return self.line

    def _repr_html_(self) -> str:
        return card(*self.paragraphs, picture=self.picture)

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": self.line, "text/html": self._repr_html_()}
