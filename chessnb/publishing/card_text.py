"""What a finding's card says and shows, read from its HTML."""

from __future__ import annotations

import base64
import binascii
from dataclasses import dataclass
from html.parser import HTMLParser

from chessnb.diagrams.ink import INK
from chessnb.notebooks.markdown import plain

_SVG = "data:image/svg+xml;base64,"
_ENDS = frozenset({"p", "div", "li", "tr", "h1", "h2", "h3", "h4", "figcaption", "table"})
_SILENT = frozenset({"style", "script", "title"})


@dataclass(frozen=True, kw_only=True)
class Picture:
    """A picture of a card.

    Attributes
    ----------
    svg : str
        The picture, in black and white.
    words : str
        What it shows, for those who do not see it.
    """

    svg: str
    words: str


@dataclass(frozen=True, kw_only=True)
class Card:
    """A card without its HTML.

    Attributes
    ----------
    paragraphs : tuple of str
        What it says.
    pictures : tuple of Picture
        What it shows.
    """

    paragraphs: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()


def card_of(html: str) -> Card:
    """Return what a card says and shows.

    Examples
    --------
    >>> card_of("<p>Black is <b>a pawn</b> ahead.</p><p>1 &lt; 2</p>").paragraphs
    ('Black is a pawn ahead.', '1 < 2')
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    reader.end_paragraph()
    return Card(paragraphs=tuple(reader.paragraphs), pictures=tuple(reader.pictures))


def in_print(svg: str) -> str:
    """Return a picture of ours with its colours as one prints them in black and white."""
    light, dark = INK["themes"]["light"], INK["themes"]["print"]
    for name, colour in light.items():
        svg = svg.replace(f'"{colour}"', f'"{dark[name]}"')
    return svg


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.paragraphs: list[str] = []
        self.pictures: list[Picture] = []
        self._words = ""
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _SILENT:
            self._silent += 1
        if tag in _ENDS:
            self.end_paragraph()
        if tag in ("br", "td", "th"):
            self._words += " "
        if tag == "img":
            self._picture(dict(attrs))

    def handle_endtag(self, tag: str) -> None:
        if tag in _SILENT:
            self._silent -= 1
        if tag in _ENDS:
            self.end_paragraph()

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self._words += data

    def end_paragraph(self) -> None:
        """Keep what was said so far as a paragraph."""
        if words := plain(self._words):
            self.paragraphs.append(words)
        self._words = ""

    def _picture(self, attributes: dict[str, str | None]) -> None:
        source = attributes.get("src") or ""
        if not source.startswith(_SVG):
            return
        try:
            svg = base64.b64decode(source.removeprefix(_SVG), validate=True).decode()
        except (binascii.Error, UnicodeDecodeError):
            return
        if "<image" in svg:  # a picture of somebody else's could ask for files
            return
        self.pictures.append(Picture(svg=in_print(svg), words=plain(attributes.get("alt") or "")))
