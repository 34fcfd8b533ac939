"""Blocks, paragraphs and diagrams as the typesetter takes them: ready for JSON, and no markup."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from chessnb.diagrams import Diagram
from chessnb.diagrams.ink import INK
from chessnb.publishing.card_text import Card
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.prose import Block, Run
from chessnb.teaching.page_copy import PageCopy, Told

SERIF = "Libertinus Serif"
"""The typeface, which comes with the typesetter."""


def set_block(block: Block, lettering: Lettering) -> dict[str, Any]:
    """Return a block of prose as it is set."""
    return {
        "kind": block.kind,
        "level": block.level,
        "number": block.number,
        "runs": lettering.runs(block.runs),
        "cells": [lettering.runs(cell) for cell in block.cells],
    }


def set_diagram(page: PageCopy, *, last_move: str) -> dict[str, Any]:
    """Return the diagram of a page as it is set, with its words for those who do not see it."""
    picture = Diagram(fen=page.fen, turned=page.turned, last_move=last_move or None)
    return {"svg": for_print(picture.svg(theme="print")), "words": picture.words}


def for_print(svg: str) -> str:
    """Give a picture of ours the typeface of the page."""
    return svg.replace(INK["letters"]["family"], SERIF)


def set_told(told: Told, lettering: Lettering, *, deep: int = 0) -> Iterator[dict[str, Any]]:
    """Yield a paragraph of a page as it is set, and its lines."""
    runs = []
    if told.head:
        runs.append(Run(text=f"{told.head} ", bold=True))
    runs.append(Run(text=told.text))
    if told.known:
        runs.append(Run(text=f" ({told.known})", italic=True))
    if told.head or told.text:
        yield {"kind": "told", "deep": deep, "runs": lettering.runs(runs)}
    for item in told.items:
        yield from set_told(item, lettering, deep=min(deep + 1, 3))


def set_card(card: Card, lettering: Lettering) -> Iterator[dict[str, Any]]:
    """Yield what a card says and shows."""
    for picture in card.pictures:
        yield {"kind": "picture", "svg": for_print(picture.svg), "words": picture.words}
    for paragraph in card.paragraphs:
        yield {"kind": "paragraph", "runs": lettering.text(paragraph)}
