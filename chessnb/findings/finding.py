"""A finding: one record, with a card beside it.

An analysis cell of a lesson ends in a finding.  Its record is the cell's
``text/plain``: what nbval compares when the lesson is checked again.  The
picture and the sentences are the cell's ``text/html``: presentation, which the
shipped sanitize file blanks before comparing, so that a better sentence or
drawing never turns a lesson red.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import Any

from chessnb.diagrams import Diagram
from chessnb.findings.html import content, typeset
from chessnb.findings.record import Record
from chessnb.findings.seal import sealed


class Finding(ABC):
    """Something that was found in a position, shown as a record and a card.

    Subclasses are frozen, keyword-only dataclasses.  Their ``repr`` reads
    back; :attr:`record` is for nbval, and so is ``str``, since a lesson may
    print a finding; :attr:`words` are for people.
    """

    @property
    @abstractmethod
    def record(self) -> Record:
        """The finding as it is compared; the same for the same finding, always."""

    @property
    @abstractmethod
    def words(self) -> str:
        """The finding in one line for people."""

    @property
    def picture(self) -> Diagram | None:
        """The diagram that shows the finding, if one helps."""
        return None

    @property
    def paragraphs(self) -> Sequence[str]:
        """Plain sentences for the reader under the picture; the words alone by default."""
        return (self.words,)

    @property
    def card(self) -> str:
        """What its card shows, as HTML."""
        return content(*self.paragraphs, picture=self.picture)

    def __str__(self) -> str:
        return str(self.record)

    def _repr_html_(self) -> str:
        return sealed(str(self), typeset(self.card))

    def _repr_mimebundle_(self, **_: Any) -> dict[str, Any]:
        return {"text/plain": str(self), "text/html": self._repr_html_()}
