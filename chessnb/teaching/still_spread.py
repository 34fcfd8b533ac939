"""A spread as it is without scripts: printed, untrusted, or before its cell is run.

It shows all that the page tells, in the order of print, beside one diagram.
What styles it stands in the elements themselves, because a notebook that is
not trusted keeps nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from chessnb.diagrams.ink import SERIF
from chessnb.findings import escaped
from chessnb.teaching.paragraphs import Paragraph
from chessnb.teaching.spread import Spread

SIZE = 380
"""The width of the diagram, in CSS pixels."""

_PAGE = "display: flex; flex-wrap: wrap; flex-direction: row-reverse; justify-content: flex-end"
_TEXT = "flex: 1 1 300px; max-width: 600px; padding-right: 30px; padding-bottom: 10px"


def spread_html(spread: Spread, *, hint: str = "", turned: bool = False, told: bool = True) -> str:
    """Return a spread as HTML: a column of text, and the diagram at its right.

    Parameters
    ----------
    spread : Spread
        What stands on the page.
    hint : str
        A sentence at its end, such as how it comes alive.
    turned : bool
        Show the diagram from Black's side.
    told : bool
        Show all that it tells; else what is seen at once: the question.
    """
    picture = replace(spread.moment.picture, turned=turned)
    caption = f"<p>{escaped(spread.moment.caption)}</p>"
    figure = f"<div style='flex: 0 1 {SIZE}px'>{picture.img(size=SIZE)}{caption}</div>"
    words = "".join(_words(spread, told=told))
    last = f"<p><i>{escaped(hint)}</i></p>" if hint else ""
    return f"<div style='{SERIF}; {_PAGE}'>{figure}<div style='{_TEXT}'>{words}{last}</div></div>"


def _words(spread: Spread, *, told: bool) -> Iterator[str]:
    if spread.recalled:
        yield f"<p><b>{escaped(spread.recalled)}</b></p>"
    if spread.question:
        yield f"<p>{escaped(spread.question)}</p>"
    if not told:
        return
    for paragraph in spread.told:
        yield from _told(paragraph, deep=0)
    for note in spread.notes:
        yield f"<p><small>{escaped(note)}</small></p>"


def _told(paragraph: Paragraph, *, deep: int) -> Iterator[str]:
    indent = f" style='margin-left: {1.3 * deep:.1f}em'" if deep else ""
    head = f"<b>{escaped(paragraph.head)}</b> " if paragraph.head else ""
    known = f" <small>({escaped(paragraph.known)})</small>" if paragraph.known else ""
    if head or paragraph.text:
        yield f"<p{indent}>{head}{escaped(paragraph.text)}{known}</p>"
    if paragraph.card:
        yield paragraph.card
    for item in paragraph.items:
        yield from _told(item, deep=min(3, deep + 1))
