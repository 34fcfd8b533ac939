"""The statements of a drafted lesson, each with the half-moves that it is about.

A statement is a record of a page, or a sentence of the lesson's own prose.
Diagrams, the game's moves and what a lesson is called state nothing.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from chessnb.findings.record import Record, read_records

if TYPE_CHECKING:
    from nbformat import NotebookNode

STATES_NOTHING = {"position", "board", "explore", "lesson", "saved"}

_NUMBER = re.compile(r"([0-9]+)\.(\.\.)?")
_SAN = re.compile(r"(?:[KQRBN][a-h]?[1-8]?x?[a-h][1-8]|[a-h](?:x[a-h])?[1-8]|O-O)")
_ORDINAL = re.compile(r"(White|Black)'s ([0-9]+)")
_MOVES = re.compile(r"\*\*([^*]+)\*\*")
_SENTENCE_END = re.compile(r"(?<=[^\d\s.][.!?])\s+|(?<=[a-h][1-8][.!?])\s+(?=[A-Z][a-z ])")


@dataclass(frozen=True, kw_only=True)
class Statement:
    """Something that a lesson says.

    Attributes
    ----------
    plies : tuple of int
        The half-moves that it may be about; none where it names no place.
    place : str
        The place as the lesson writes it.
    text : str
        A record without its place, or a sentence.
    record : Record or None
        The record; None for a sentence.
    """

    plies: tuple[int, ...]
    place: str
    text: str
    record: Record | None = None

    def __str__(self) -> str:
        return f"[{self.place}] {self.text}"


def statements(cells: list[NotebookNode]) -> Iterator[Statement]:
    """Yield what the cells of a lesson state, in their order."""
    for cell in cells:
        if cell.cell_type == "markdown":
            yield from _of_prose(cell.source)
        else:
            yield from _of_code(cell.source)
            yield from _of_outputs(cell)


def _of_code(source: str) -> Iterator[Statement]:
    """Yield what a page is told to remember: words of the draft that are in no record."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call) or getattr(node.func, "id", "") != "page":
            continue
        told = [one.value for one in node.keywords if one.arg == "remember"]
        places = [one.value for one in ast.walk(node.args[0]) if isinstance(one, ast.Constant)]
        for words in told:
            if isinstance(words, ast.Constant) and places:
                plies, place = _of_heading(f"## {places[0]}")
                yield Statement(plies=plies, place=place, text=str(words.value))


def _of_outputs(cell: NotebookNode) -> Iterator[Statement]:
    for output in cell.get("outputs", []):
        if output["output_type"] == "error":
            raise ValueError(f"a cell of the draft failed:\n{cell.source}\n{output['evalue']}")
        text = output.get("data", {}).get("text/plain", "")
        records = read_records(text)
        if text and not records:
            raise ValueError(f"this output is no record: {text!r}")
        for record in records:
            if record.kind not in STATES_NOTHING:
                plies, place = plies_of_record(record), record.place
                words = str(record).partition(" | ")[2]
                yield Statement(plies=plies, place=place, text=words, record=record)


def plies_of(place: str) -> tuple[int, ...]:
    """Return which half-moves a place is about.

    A move is about itself; a sideline about the move that it replaces; a
    position about the move before it and the one that is to be found.

    Examples
    --------
    >>> plies_of("20... Nf3+"), plies_of("21."), plies_of("6. h3 Bh5 7. g4"), plies_of("-")
    ((40,), (40, 41), (11,), ())
    """
    match = _NUMBER.match(place)
    if match is None:
        return ()
    ply = 2 * int(match[1]) - (match[2] is None)
    return (ply,) if place[match.end() :].strip() else (ply - 1, ply)


def plies_of_record(record: Record) -> tuple[int, ...]:
    """Return which half-moves a record is about; a table of replies is about the next one, too."""
    plies = plies_of(record.place)
    return (*plies, plies[-1] + 1) if plies and record.kind == "replies" else plies


def _of_prose(source: str) -> Iterator[Statement]:
    """Yield the sentences of a Markdown cell; the place is the heading's or the last move's."""
    plies: tuple[int, ...] = ()
    place = "-"
    for line in filter(None, source.split("\n")):
        if line.startswith("# ") or line.startswith("*Run the lesson"):
            return  # the title page and how to use the lesson are about no move
        if line.startswith("#"):
            plies, place = _of_heading(line)
            continue
        bold = _MOVES.match(line)
        if line.startswith("- ") and (bold := _MOVES.match(line[2:])):
            plies, place = _end_of(bold[1])
            line = line[2:][bold.end() :]
        elif bold and not line[bold.end() :].strip():
            plies, place = _end_of(bold[1])
            continue
        for sentence in _SENTENCE_END.split(line.replace("\\", "").strip(" —>*")):
            if len(re.findall(r"[^\W\d_]{2,}", sentence)) >= 1:
                yield Statement(plies=plies, place=place, text=sentence)


def _of_heading(line: str) -> tuple[tuple[int, ...], str]:
    title = line.lstrip("# ")
    if match := _ORDINAL.search(title):
        ply = 2 * int(match[2]) - (match[1] == "White")
        return (ply - 1, ply), match[0]
    match = _NUMBER.search(title)
    if match is None:
        return (), title
    return plies_of(title[match.start() :]), title


def _end_of(moves: str) -> tuple[tuple[int, ...], str]:
    """Return the last half-move of a run of moves, such as ``12. Rxe7 Nxe7 13. Qf3``."""
    numbers = list(_NUMBER.finditer(moves))
    if not numbers:
        return (), moves
    last = numbers[-1]
    after = len(_SAN.findall(moves[last.end() :]))
    ply = 2 * int(last[1]) - (last[2] is None) + max(after, 1) - 1
    return (ply,), moves[last.start() :]
