"""The HTML of a cell's output: the one place where it is made and escaped."""

from __future__ import annotations

import html
import re

from chessnb.diagrams import Diagram
from chessnb.diagrams.ink import SERIF


def typeset(shown: str) -> str:
    """Set HTML in the one typeface; within an element, since nothing else survives everywhere."""
    return f"<div style='{SERIF}'>{shown}</div>"


def content(*paragraphs: str, picture: Diagram | None = None) -> str:
    """Return what a finding shows: its picture, then its paragraphs, escaped.

    Nothing in it needs a style sheet or a script, so it looks the same in an
    untrusted notebook.
    """
    figure = "" if picture is None else picture.img()
    return figure + "".join(f"<p>{escaped(text)}</p>" for text in paragraphs)


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
