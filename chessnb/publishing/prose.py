"""A teacher's Markdown as plain values, so that no place that sets it reads any markup.

Of Markdown it keeps what a book page has: headings, paragraphs, lists, quoted
and literal text, tables, bold and italics.  Links and pictures leave their
words, HTML what stands between its tags.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from chessnb.notebooks.markdown import plain

if TYPE_CHECKING:
    from markdown_it.token import Token

Kind = Literal["heading", "paragraph", "item", "quote", "literal", "row", "rule"]
"""What a block of prose is."""

_TAG = re.compile(r"<[^>]*>")


@dataclass(frozen=True, kw_only=True)
class Run:
    """A stretch of text in one style.

    Attributes
    ----------
    text : str
        The text itself: whatever it holds, it is no markup.
    bold, italic, literal : bool
        How it is set.
    """

    text: str
    bold: bool = False
    italic: bool = False
    literal: bool = False


@dataclass(frozen=True, kw_only=True)
class Block:
    """A block of prose.

    Attributes
    ----------
    kind : str
        What it is.
    runs : tuple of Run
        Its text.
    level : int
        Of a heading, from 1; of an item, how deep its list is, from 1.
    number : int
        Of an item in a numbered list; else 0.
    cells : tuple of tuple of Run
        Of a row of a table.
    """

    kind: Kind
    runs: tuple[Run, ...] = ()
    level: int = 0
    number: int = 0
    cells: tuple[tuple[Run, ...], ...] = field(default=())

    @property
    def text(self) -> str:
        """Its words without their style."""
        return "".join(run.text for run in self.runs)


def blocks_of(source: str) -> list[Block]:
    r"""Return Markdown as blocks of plain text.

    Parameters
    ----------
    source : str
        Markdown, from anywhere.

    Examples
    --------
    >>> [(block.kind, block.text) for block in blocks_of("## The key\n\n**24... Rg1!** wins.")]
    [('heading', 'The key'), ('paragraph', '24... Rg1! wins.')]
    """
    from markdown_it import MarkdownIt

    # Deeper lists than these are nobody's: each level costs as much as all above it.
    reader = MarkdownIt("commonmark", {"maxNesting": 20}).enable("table")
    return list(_Reading(reader.parse(source)).blocks())


class _Reading:
    """Goes through the tokens once, and remembers in which lists and quotes it is."""

    def __init__(self, tokens: Sequence[Token]) -> None:
        self._tokens = tokens
        self._lists: list[int] = []
        self._quotes = 0
        self._heading = 0
        self._fresh_item = False
        self._row: list[tuple[Run, ...]] | None = None

    def blocks(self) -> Iterator[Block]:
        for token in self._tokens:
            if token.nesting:
                yield from self._turn(token)
            elif token.type == "inline":
                runs = tuple(_runs(token.children or ()))
                if self._row is not None:
                    self._row.append(runs)
                elif runs:
                    yield self._block(runs)
            elif token.type in ("fence", "code_block"):
                for line in token.content.splitlines():
                    yield Block(kind="literal", runs=(Run(text=kept(line), literal=True),))
            elif token.type == "html_block":
                if words := plain(html.unescape(_TAG.sub(" ", token.content))):
                    yield Block(kind="paragraph", runs=(Run(text=words),))
            elif token.type == "hr":
                yield Block(kind="rule")

    def _turn(self, token: Token) -> Iterator[Block]:
        """Go into a container or out of it."""
        kind, _, _ = token.type.rpartition("_")
        into = token.nesting > 0
        if kind in ("bullet_list", "ordered_list"):
            if into:
                numbered = kind == "ordered_list"
                self._lists.append(int(token.attrGet("start") or 1) if numbered else 0)
            else:
                self._lists.pop()
        elif kind == "list_item":
            self._fresh_item = into
            if not into and self._lists[-1]:
                self._lists[-1] += 1
        elif kind == "blockquote":
            self._quotes += token.nesting
        elif kind == "heading":
            self._heading = int(token.tag[1:]) if into else 0
        elif kind == "tr":
            if into:
                self._row = []
            elif self._row is not None:
                yield Block(kind="row", cells=tuple(self._row))
                self._row = None

    def _block(self, runs: tuple[Run, ...]) -> Block:
        if self._heading:
            return Block(kind="heading", runs=runs, level=self._heading)
        if self._lists and self._fresh_item:
            self._fresh_item = False
            return Block(kind="item", runs=runs, level=len(self._lists), number=self._lists[-1])
        return Block(kind="quote" if self._quotes else "paragraph", runs=runs)


def _runs(tokens: Sequence[Token]) -> Iterator[Run]:
    """Yield the stretches of a line of text, neighbours of one style joined."""
    bold = italic = 0
    found: list[Run] = []
    for token in tokens:
        if token.type.startswith("strong_"):
            bold += token.nesting
        elif token.type.startswith("em_"):
            italic += token.nesting
        text = _text(token)
        if not text:
            continue
        run = Run(text=text, bold=bold > 0, italic=italic > 0, literal=token.type == "code_inline")
        if found and _style(found[-1]) == _style(run):
            run = Run(
                text=found.pop().text + text,
                bold=run.bold,
                italic=run.italic,
                literal=run.literal,
            )
        found.append(run)
    yield from found


def _style(run: Run) -> tuple[bool, bool, bool]:
    return (run.bold, run.italic, run.literal)


def _text(token: Token) -> str:
    if token.type in ("softbreak", "hardbreak"):
        return " "
    if token.type in ("text", "code_inline", "image", "text_special"):
        return kept(token.content)
    return ""


def kept(text: str) -> str:
    r"""Drop what hides a text or turns it round; leave a blank at either end.

    Examples
    --------
    >>> kept("14. Nd5\u202e wins\n")
    '14. Nd5 wins '
    """
    begin = " " if text[:1].isspace() else ""
    end = " " if text[-1:].isspace() else ""
    words = plain(text)
    return f"{begin}{words}{end}" if words else begin
