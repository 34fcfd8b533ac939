"""Lists of positions: files of FENs or EPDs, one a line, as lessons.

A line is a FEN (PGN standard, 16.1) or an EPD (16.2).  Of an EPD's operations
four are used: ``id`` is the position's name, ``c0`` its note, ``pv`` the line that
answers it, or ``bm`` the first move of it.  Empty lines, and lines that begin
with ``#``, are passed over.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from os import PathLike
from pathlib import Path
from typing import Any

import chess

from chessnb.board.position import read_position
from chessnb.errors import GameFileError, PositionError
from chessnb.lessons.lesson import Lesson

SUFFIXES = (".epd", ".fen")
"""How the names of such files end."""


def is_position_file(path: str | PathLike[str]) -> bool:
    """Tell by its name whether a file is a list of positions."""
    return Path(path).suffix.lower() in SUFFIXES


def read_position_file(path: str | PathLike[str], **about: Any) -> Lesson:
    """Read a list of positions as a lesson that has no game.

    Parameters
    ----------
    path : str or path
        The file.
    **about
        ``title``, ``level``, ``goals``, ``minutes``, as for a `Lesson`; the title is
        the file's name by default.

    Raises
    ------
    GameFileError
        If the file cannot be read, holds no position, or a line is none; with the line.
    """
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise GameFileError(f"cannot be read: {error}", path=str(path)) from None
    lesson = Lesson(**{"title": _spoken(Path(path).stem), **about})
    for number, line in _lines(text):
        board, operations = _read_line(line, number, str(path))
        name = str(operations.get("id", "")).strip() or None
        note = str(operations.get("c0", "")).strip() or None
        if name in lesson.positions:
            name = None  # two of one name: the second is numbered
        moment = lesson.add_position(board, name=name, note=note)
        if answer := _answer(operations):
            lesson.add_line(moment, answer)
    if not lesson.positions:
        raise GameFileError("there is no position in this file", path=str(path))
    return lesson


def _lines(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip() and not line.lstrip().startswith("#"):
            yield number, line.strip()


def _read_line(line: str, number: int, path: str) -> tuple[chess.Board, Mapping[str, Any]]:
    """Return the position of a line, and its operations."""
    fields = line.split()
    try:
        if len(fields) >= 6 and fields[4].isdecimal() and fields[5].isdecimal():
            return read_position(" ".join(fields[:6])), {}
        board = chess.Board(None)
        operations = board.set_epd(line)
        return read_position(board), operations
    except (ValueError, PositionError) as error:
        raise GameFileError(
            f"is no position (FEN or EPD): {error}", path=path, line=number
        ) from None


def _answer(operations: Mapping[str, Any]) -> list[chess.Move]:
    """Return the moves that answer a position."""
    line = operations.get("pv")
    if isinstance(line, list) and line:
        return list(line)
    best = operations.get("bm")
    return [best[0]] if isinstance(best, list) and best else []


def _spoken(stem: str) -> str:
    """Return a file's name as a title: ``"back-rank_mates"`` is ``"Back rank mates"``."""
    words = stem.replace("-", " ").replace("_", " ").strip() or "Positions"
    return words[0].upper() + words[1:]
