"""A lesson's revealed movetext in plain text, for a page without scripts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from chessnb.findings import escaped
from chessnb.notation import write_line
from chessnb.teaching.revealed_tree import RevealedTree

DEEPEST = 4
"""Deeper sidelines are not indented any further."""


def movetext(shown: RevealedTree, *, letters: str = "PNBRQK") -> list[tuple[int, str]]:
    """Return the revealed movetext as paragraphs of plain text, for a page without scripts.

    As on the live page, a line breaks off after a move that has sidelines,
    each of them follows, and the line is taken up again.

    Returns
    -------
    list of (int, str)
        How deep a paragraph is indented, and its words.
    """
    rows = shown.data()["nodes"]
    table = str.maketrans("NBRQK", letters[1:])
    for row in rows:
        row[2] = row[2].translate(table)
    children: dict[int, list[int]] = {}
    for number, row in enumerate(rows):
        children.setdefault(row[0], []).append(number)
    paragraphs: list[tuple[int, list[str]]] = []
    pending = [(0, number, True) for number in reversed(children.get(-1, []))]
    while pending:
        deep, number, begins = pending.pop()
        name = rows[number][4] if begins else ""
        words = [f"{name}:"] if name else []
        paragraphs.append((deep, words))
        fresh = True
        while True:
            words.append(_printed(shown, number, rows[number], fresh=fresh))
            fresh = bool(rows[number][5])
            siblings = children.get(rows[number][0], []) if rows[number][0] >= 0 else []
            sidelines = siblings[1:] if siblings[:1] == [number] else []
            following = children.get(number, [])[:1]
            if sidelines:
                pending.extend((deep, one, False) for one in following)
                pending.extend((deep + 1, one, True) for one in reversed(sidelines))
                break
            if not following:
                break
            number = following[0]
    return [(deep, line) for deep, words in paragraphs if (line := " ".join(filter(None, words)))]


def indented(paragraphs: Iterable[tuple[int, str]]) -> str:
    """Return movetext as HTML, each paragraph as deep as it is."""
    return "".join(
        f"<p style='margin-left: {1.4 * min(deep, DEEPEST):.1f}em'>{escaped(text)}</p>"
        for deep, text in paragraphs
    )


def _printed(shown: RevealedTree, number: int, row: Sequence[Any], *, fresh: bool) -> str:
    """Return a move as it is printed, with its number where that is due, and its comment."""
    node = shown.node(number)
    assert node is not None
    _, _, san, glyphs, _, comment, _ = row
    if node.parent is None or node.move is None:
        return str(comment)
    before = node.parent.board()
    count = write_line(before, (node.move,)).split()[0] if fresh or before.turn else ""
    signs = glyphs if set(glyphs) <= set("!?") else f" {glyphs}"
    return " ".join(filter(None, (count, f"{san}{signs}", comment)))
