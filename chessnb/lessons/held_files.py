"""Game files that are held in memory: a sealed lesson reads them, and no file is written.

What is held stands for the file of its path, and for that path alone, until
the program ends.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path

_held: dict[Path, str] = {}


def hold(path: str | PathLike[str], text: str) -> None:
    """Have a path read as this text from now on."""
    _held[Path(path).resolve()] = text


def held_text(path: str | PathLike[str]) -> str | None:
    """Return the text that is held for a path; None if it is to be read from the disk."""
    return _held.get(Path(path).resolve()) if _held else None
