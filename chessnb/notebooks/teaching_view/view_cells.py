"""What of a lesson stands on its page, and what the page says of it in the margin."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from chessnb.notebooks.cell_errors import ALL_OF_A_PAGE, error_sentence, name_that_is_missing
from chessnb.notebooks.lesson_cells import cell_id, cell_key
from chessnb.notebooks.markdown import unescape

if TYPE_CHECKING:
    from nbformat import NotebookNode

_HEADING = re.compile(r"^ {0,3}(#{1,2})\s+(.+?)\s*#*\s*$")
_FENCE = re.compile(r"^ {0,3}(```|~~~)")
_EMPHASIS = re.compile(r"(?<!\\)(\*{1,3}|_{1,3}|`)(?=\S)(.+?)(?<=\S)\1")
_LINK = re.compile(r"!?\[([^\]]*)\]\([^)]*\)")

_FOR_THE_TEACHER = "how to use"
"""The drafted cell about running the lesson: here it runs by itself."""

_READS_THE_GAME = "lesson"
"""The drafted cell that reads the game: a class needs nothing of what it shows."""

_SOMETHING_WRONG = "Something on this page does not hold. “chessnb verify” on the lesson says what."


def prepare(handler: object, *, notebook: NotebookNode, cwd: str) -> NotebookNode:
    """Return a lesson as its page shows it (what voila calls before it runs one).

    Parameters
    ----------
    handler : object
        The request; not looked at.
    notebook : NotebookNode
        The lesson, which is changed in place.
    cwd : str
        Its folder; not looked at.
    """
    notebook.cells = [cell for cell in notebook.cells if cell_key(cell) != _FOR_THE_TEACHER]
    found = list(contents(notebook.cells))
    title = next((text for _, level, text in found if level == 1), "")
    notebook.metadata["chessnb_view"] = {
        "title": title,
        "contents": [{"cell": number, "text": text} for number, level, text in found if level > 1],
        "boards": sum(
            cell.cell_type == "code" and cell_key(cell) != _READS_THE_GAME
            for cell in notebook.cells
        ),
        "silent": cell_id(_READS_THE_GAME),
    }
    return notebook


def contents(cells: Sequence[Any]) -> Iterator[tuple[int, int, str]]:
    r"""Yield the headings of a lesson: in which cell, of which level, and what it says.

    Examples
    --------
    >>> from chessnb.notebooks import markdown_cell
    >>> cells = [markdown_cell("t", "# The *loose* rook"), markdown_cell("s", "## After 7\\. Re1")]
    >>> list(contents(cells))
    [(0, 1, 'The loose rook'), (1, 2, 'After 7. Re1')]
    """
    for number, cell in enumerate(cells):
        if cell["cell_type"] != "markdown":
            continue
        fenced = False
        for line in cell["source"].splitlines():
            fenced ^= bool(_FENCE.match(line))
            if not fenced and (found := _HEADING.match(line)):
                yield number, len(found[1]), heading_text(found[2])


def heading_text(source: str) -> str:
    r"""Return what a heading's Markdown reads as.

    Examples
    --------
    >>> heading_text(r"**Black's** 20th \*move\*, see [the game](game.pgn)")
    "Black's 20th *move*, see the game"
    """
    source = _LINK.sub(r"\1", source)
    return unescape(_EMPHASIS.sub(r"\2", source))


class Faults:
    """What the page says of cells that failed: each its sentence, once.

    A name that is missing because an earlier cell failed is not told again.
    """

    def __init__(self) -> None:
        self._failed = False

    def __call__(self, output: Any) -> str:
        """Return the sentence for a cell's error, empty where there is nothing new to say."""
        name, value = output["ename"], output["evalue"]
        follows = self._failed and bool(name_that_is_missing(name, value))
        self._failed = True
        if follows:
            return ""
        if name == ALL_OF_A_PAGE:  # the page tells it beside its board, once the answer is told
            return _SOMETHING_WRONG
        sentence = error_sentence(name, value, output["traceback"])
        if sentence.partition(" ")[0].isalpha():  # a file keeps the name that it has
            sentence = f"{sentence[:1].upper()}{sentence[1:]}"
        return f"{sentence}."
