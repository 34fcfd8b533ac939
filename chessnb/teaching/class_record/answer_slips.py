"""Answer slips: a small file that carries one student's answers to the teacher's record.

A slip is JSON in UTF-8::

    {"chessnb slip": 1, "id": "…", "nickname": "…", "answers": [{…}, …], "checksum": "…"}

The checksum is SHA-256 over all the rest, written without blanks and with
sorted keys.  It finds damage and careless editing; whoever makes another slip
can make its checksum too, so a slip is as trustworthy as whoever sends it.
Each slip is imported once, and each answer in it once.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chessnb.board.naming import counted
from chessnb.errors import ChessnbError
from chessnb.teaching.class_record.kept_answers import ClassRecordError, KeptAnswer, read_nickname
from chessnb.teaching.class_record.record_file import ClassRecord
from chessnb.whole_files import write_whole

ENDING = ".slip.json"
"""How the name of a slip's file ends."""

VERSION = 1
_MARK = "chessnb slip"
_FIELDS = {_MARK, "id", "nickname", "answers", "checksum"}

MOST_BYTES = 1_000_000
"""So large a slip may be."""

MOST_ANSWERS = 2_000


@dataclass(frozen=True, kw_only=True)
class SlipReport:
    """What became of one slip.

    Attributes
    ----------
    name : str
        Its file's name.
    new : int
        How many answers were new.
    known : bool
        Whether it had been imported before.
    refused : str
        Why it was not imported; empty if it was.
    """

    name: str
    new: int = 0
    known: bool = False
    refused: str = ""

    @property
    def words(self) -> str:
        """The same as a line."""
        shown = self.name if self.name.isprintable() else repr(self.name)
        if self.refused:
            return f"{shown}: not imported, {self.refused}"
        if self.known:
            return f"{shown}: imported before"
        return f"{shown}: {counted(self.new, 'new answer')}"


def write_slip(record: ClassRecord, nickname: str, path: str | os.PathLike[str]) -> Path:
    """Write a slip with all answers of one student.

    Returns
    -------
    Path
        The file, whose name ends in ``.slip.json``.

    Raises
    ------
    ClassRecordError
        If there are no answers of that nickname, or too many for a slip.
    """
    name = read_nickname(nickname)
    answers = record.answers(name)
    if not answers:
        raise ClassRecordError(f"there are no answers of {name!r}")
    if len(answers) > MOST_ANSWERS:
        raise ClassRecordError(f"a slip holds {MOST_ANSWERS} answers at most")
    target = Path(path)
    if not target.name.endswith(ENDING):
        target = target.with_name(f"{target.name}{ENDING}")
    body: dict[str, Any] = {
        _MARK: VERSION,
        "id": secrets.token_hex(16),
        "nickname": name,
        "answers": [one.data() for one in answers],
    }
    write_whole(target, json.dumps({**body, "checksum": checksum_of(body)}, ensure_ascii=False))
    return target


def checksum_of(body: dict[str, Any]) -> str:
    """Return the checksum of a slip's other fields."""
    plain = json.dumps(body, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(plain.encode()).hexdigest()


def import_slips(record: ClassRecord, folder: str | os.PathLike[str]) -> tuple[SlipReport, ...]:
    """Import every slip of a folder, each once, and say what became of each.

    Raises
    ------
    ClassRecordError
        If there is no such folder, or the record cannot be used.
    """
    place = Path(folder)
    if not place.is_dir():
        raise ClassRecordError(f"{place} is no folder")
    return tuple(_imported(record, path) for path in _slips_in(place))


def _slips_in(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.iterdir()):
        if path.name.endswith(ENDING) and path.is_file():
            yield path


def _imported(record: ClassRecord, path: Path) -> SlipReport:
    try:
        slip, checksum, answers = read_slip(path)
    except ChessnbError as error:
        return SlipReport(name=path.name, refused=str(error))
    try:
        new = record.add_slip(slip, checksum, answers)
    except ClassRecordError as error:
        if "calls itself" not in str(error):
            raise  # the record itself cannot be used
        return SlipReport(name=path.name, refused=str(error))
    return SlipReport(name=path.name, new=new or 0, known=new is None)


def read_slip(path: Path) -> tuple[str, str, tuple[KeptAnswer, ...]]:
    """Read a slip: its number, its checksum, its answers.

    Raises
    ------
    ClassRecordError
        If it is not whole, was changed, or holds what no slip holds.
    """
    body = _json(path)
    if not isinstance(body, dict) or set(body) != _FIELDS:
        raise ClassRecordError("this is not an answer slip")
    checksum = body.pop("checksum")
    if body[_MARK] != VERSION or isinstance(body[_MARK], bool):
        raise ClassRecordError("this slip was made by another version of chessnb")
    if checksum != checksum_of(body):
        raise ClassRecordError("it was changed or damaged since it was written")
    slip, answers = body["id"], body["answers"]
    if not isinstance(slip, str) or not 16 <= len(slip) <= 64 or not slip.isalnum():
        raise ClassRecordError("its number is none")
    if not isinstance(answers, list) or not 0 < len(answers) <= MOST_ANSWERS:
        raise ClassRecordError(f"a slip holds from 1 to {MOST_ANSWERS} answers")
    name = read_nickname(body["nickname"])
    read = tuple(map(KeptAnswer.read, answers))
    if any(one.nickname != name for one in read):
        raise ClassRecordError("a slip holds the answers of one student")
    return slip, checksum, read


def _json(path: Path) -> Any:
    try:
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise ClassRecordError(error.strerror or str(error)) from None
    if len(data) > MOST_BYTES:
        raise ClassRecordError(f"it is larger than {MOST_BYTES:,} bytes")
    try:
        return json.loads(data.decode("utf-8"), parse_constant=_no_constant)
    except (ValueError, RecursionError):  # what is no UTF-8 is a ValueError too
        raise ClassRecordError("this is not an answer slip") from None


def _no_constant(name: str) -> float:
    raise ValueError(f"{name} is no number")
