"""Blocks of prose as HTML: escaped here, and nothing in it that needs a script."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Sequence
from itertools import groupby

from chessnb.diagrams.svg import escaped
from chessnb.publishing.card_text import Card
from chessnb.publishing.prose import Block, Run

_SORTS = {"paragraph": "p", "quote": "blockquote", "literal": "pre"}


def blocks_html(blocks: Sequence[Block]) -> str:
    """Return prose as HTML.

    Examples
    --------
    >>> blocks_html([Block(kind="paragraph", runs=(Run(text="1 < 2", bold=True),))])
    '<p><b>1 &lt; 2</b></p>'
    """
    parts = []
    for kind, group in groupby(blocks, key=_sort):
        parts.append("".join(_group(kind, list(group))))
    return "".join(parts)


def card_html(card: Card) -> str:
    """Return what a card says and shows."""
    pictures = "".join(
        f'<img alt="{escaped(one.words)}" src="data:image/svg+xml;base64,'
        f'{base64.b64encode(one.svg.encode()).decode("ascii")}">'
        for one in card.pictures
    )
    return pictures + "".join(f"<p>{escaped(text)}</p>" for text in card.paragraphs)


def _sort(block: Block) -> str:
    """Return what neighbours must share to stand in one element."""
    if block.kind == "item":
        return "ol" if block.number else "ul"
    return block.kind


def _group(kind: str, blocks: list[Block]) -> Iterator[str]:
    if kind in ("ol", "ul"):
        yield f'<{kind} start="{blocks[0].number}">' if kind == "ol" else f"<{kind}>"
        yield from (f'<li class="deep{min(one.level, 3)}">{_runs(one.runs)}</li>' for one in blocks)
        yield f"</{kind}>"
    elif kind == "row":
        rows = ("".join(f"<td>{_runs(cell)}</td>" for cell in one.cells) for one in blocks)
        yield f"<table>{''.join(f'<tr>{row}</tr>' for row in rows)}</table>"
    elif kind == "heading":
        for one in blocks:
            level = min(max(one.level, 1), 4)
            yield f"<h{level}>{_runs(one.runs)}</h{level}>"
    elif kind == "rule":
        yield "<hr>"
    else:
        yield from (f"<{_SORTS[kind]}>{_runs(one.runs)}</{_SORTS[kind]}>" for one in blocks)


def _runs(runs: Sequence[Run]) -> str:
    return "".join(map(_run, runs))


def _run(run: Run) -> str:
    text = escaped(run.text)
    for wanted, tag in ((run.literal, "code"), (run.italic, "i"), (run.bold, "b")):
        if wanted:
            text = f"<{tag}>{text}</{tag}>"
    return text
