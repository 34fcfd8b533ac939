"""The sealed file of a student edition: a lesson whose steps cannot be read before they open.

It is a curtain, not a lock.  Nobody reads a move, a heading or a claim in it
by looking, searching, or decoding it once; whoever takes this module can.

The file is one JSON object::

    {"format": "chessnb sealed lesson", "version": 1,
     "title": "The loose rook", "steps": 14, "check": "5f0c…",
     "parts": {"files": "…", "first": "…", "step 1": "…", …}}

Each part is JSON, as UTF-8, packed by zlib, veiled and written as base64.  The
veil is the SHA-256 of ``part's name:0``, ``part's name:1`` and so on, one
after the other, added bit by bit (exclusive or).  ``check`` is the SHA-256 of
all parts, so that a damaged file is told from a whole one.  A part is one of

``files``
    the game files that the lesson reads, by the path that it names, and the
    proofs that were kept beside them;
``first``
    the cells that come before the first step and are run unseen;
``step 1`` …
    the cells of a step.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import Any, Literal

from chessnb.errors import LessonError
from chessnb.whole_files import write_whole

FORMAT = "chessnb sealed lesson"
VERSION = 1


@dataclass(frozen=True, kw_only=True)
class SealedCell:
    """A cell of the teacher's.

    Attributes
    ----------
    kind : {"words", "code"}
        What it is.
    source : str
        Markdown, or Python.
    places : int
        How many things it shows.
    """

    kind: Literal["words", "code"]
    source: str
    places: int = 1


@dataclass(frozen=True, kw_only=True)
class Step:
    """What opens together: the teacher's words and findings, and the page they lead to.

    Attributes
    ----------
    cells : tuple of SealedCell
        In order.
    """

    cells: tuple[SealedCell, ...]

    @property
    def places(self) -> int:
        """How many things it shows."""
        return sum(cell.places for cell in self.cells)


@dataclass(frozen=True, kw_only=True)
class GameText:
    """A game file, and the proofs that were kept beside it, as their texts."""

    games: str
    proofs: str = ""


@dataclass(frozen=True, kw_only=True)
class SealedLesson:
    """A lesson as a student edition holds it.

    Attributes
    ----------
    title : str
        What it is called; it can be read in the file.
    files : mapping of str to GameText
        The game files, by the path that the lesson names.
    first : Step
        What is run before the first step, unseen.
    steps : tuple of Step
        In order.
    """

    title: str
    files: Mapping[str, GameText]
    first: Step
    steps: tuple[Step, ...]


def seal(name: str, value: Any) -> str:
    """Return a part as it stands in the file.

    Examples
    --------
    >>> unseal("step 1", seal("step 1", ["20... Nf3+"]))
    ['20... Nf3+']
    """
    packed = zlib.compress(json.dumps(value, ensure_ascii=False).encode(), 9)
    return base64.b64encode(_veiled(name, packed)).decode()


def unseal(name: str, text: str) -> Any:
    """Return what a part holds.

    Raises
    ------
    ValueError
        If it is damaged.
    """
    try:
        packed = _veiled(name, base64.b64decode(text, validate=True))
        return json.loads(zlib.decompress(packed))
    except (binascii.Error, zlib.error) as error:
        raise ValueError(f"the part {name!r} is damaged") from error


def _veiled(name: str, data: bytes) -> bytes:
    """Draw the veil over bytes, or away from them: it is the same."""
    blocks = range(-(-len(data) // 32))
    veil = b"".join(hashlib.sha256(f"{name}:{count}".encode()).digest() for count in blocks)
    both = int.from_bytes(data) ^ int.from_bytes(veil[: len(data)])
    return both.to_bytes(len(data))


# -- the file ----------------------------------------------------------------------


def sealed_text(lesson: SealedLesson) -> str:
    """Return the text of a sealed file; the same for the same lesson."""
    values: dict[str, Any] = {
        "files": {path: [one.games, one.proofs] for path, one in lesson.files.items()},
        "first": _data(lesson.first),
    }
    for number, step in enumerate(lesson.steps, start=1):
        values[f"step {number}"] = _data(step)
    parts = {name: seal(name, value) for name, value in values.items()}
    whole = {
        "format": FORMAT,
        "version": VERSION,
        "title": lesson.title,
        "steps": len(lesson.steps),
        "check": _check(parts),
        "parts": parts,
    }
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def write_sealed(lesson: SealedLesson, path: str | PathLike[str]) -> None:
    """Write a sealed file, whole or not at all."""
    write_whole(path, sealed_text(lesson))


def read_sealed(path: str | PathLike[str]) -> SealedLesson:
    """Return the lesson in a sealed file.

    Raises
    ------
    LessonError
        If it is not there, no sealed lesson, of another version, damaged or
        cut off; the message says what to do.
    """
    try:
        data = json.loads(Path(path).read_bytes())
    except FileNotFoundError:
        raise LessonError(
            f"{path}: there is no such file here. It belongs beside this notebook: copy it "
            "into the same folder."
        ) from None
    except OSError as error:
        raise LessonError(f"{path}: it cannot be read ({error.strerror})") from None
    except (ValueError, RecursionError):
        raise LessonError(f"{path}: {_DAMAGED}") from None
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise LessonError(f"{path}: this is no sealed lesson. Ask your teacher which file it is.")
    if data.get("version") != VERSION:
        raise LessonError(
            f"{path}: this lesson was sealed in version {data.get('version')!r}, and version "
            f"{VERSION} is understood here. Update chessnb, or ask your teacher to seal it again."
        )
    try:
        return _read(data)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise LessonError(f"{path}: {_DAMAGED}") from None


_DAMAGED = "this file is damaged or cut off. Ask your teacher for it again."


def is_sealed_file(path: Path) -> bool:
    """Tell whether a file is a sealed lesson, of whatever version, as far as it can be read."""
    try:
        return FORMAT in path.read_text(encoding="utf-8")[:200]
    except (OSError, ValueError):
        return False


def _read(data: Mapping[str, Any]) -> SealedLesson:
    parts = data["parts"]
    if data["check"] != _check(parts):
        raise ValueError("the parts are not what was written")
    files = unseal("files", parts["files"])
    names = [f"step {number}" for number in range(1, int(data["steps"]) + 1)]
    return SealedLesson(
        title=str(data["title"]),
        files={path: GameText(games=games, proofs=kept) for path, (games, kept) in files.items()},
        first=_step(unseal("first", parts["first"])),
        steps=tuple(_step(unseal(name, parts[name])) for name in names),
    )


def _check(parts: Mapping[str, str]) -> str:
    return hashlib.sha256(json.dumps(parts, sort_keys=True).encode()).hexdigest()


def _data(step: Step) -> list[list[Any]]:
    return [[cell.kind, cell.source, cell.places] for cell in step.cells]


def _step(data: list[list[Any]]) -> Step:
    cells = (SealedCell(kind=kind, source=source, places=count) for kind, source, count in data)
    return Step(cells=tuple(cells))
