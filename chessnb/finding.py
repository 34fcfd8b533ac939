"""A finding: one exact line, with a picture beside it.

An analysis cell of a lesson ends in a finding.  Its line is the cell's
``text/plain``: what nbval compares when the lesson is checked again.  The
picture and the sentence are the cell's ``text/html``: presentation, which the
shipped sanitize file blanks before comparing, so that a better drawing never
turns a lesson red.
"""

from __future__ import annotations

import html
import re
from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import Any

from chessnb.diagram import Diagram

OPENING, CLOSING = "<div class='chessnb'>", "<!--/chessnb--></div>"
"""What stands around all HTML that a lesson's output holds (the sanitize file matches it)."""


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


def card(*paragraphs: str, picture: Diagram | None = None) -> str:
    """Return the HTML of a finding: its picture, then its paragraphs, escaped.

    Nothing in it needs a style sheet or a script, so it looks the same in an
    untrusted notebook.
    """
    figure = "" if picture is None else picture.img()
    words = "".join(f"<p>{escaped(text)}</p>" for text in paragraphs)
    return f"{OPENING}{figure}{words}{CLOSING}"


def escaped(text: str) -> str:
    """Write any text as HTML that shows just that text.

    JupyterLab looks for formulas in an output after it is rendered, and an
    entity is a dollar again by then; but it does not join text across
    elements, so each character that could open a formula gets its own.

    Examples
    --------
    >>> escaped("<b> costs $5")
    '&lt;b&gt; costs <span>$</span>5'
    """
    return re.sub(r"[$\\\\]", r"<span>\g<0></span>", html.escape(text))
