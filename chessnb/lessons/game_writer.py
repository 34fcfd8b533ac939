"""Saving a game file: whole or not at all, and never over somebody else's games."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import chess.pgn

from chessnb.errors import GameFileError, LessonError
from chessnb.findings import Finding, Record
from chessnb.findings.record import quoted
from chessnb.lessons.about import holds_in_words
from chessnb.lessons.game_files import open_game_file, raw_games
from chessnb.whole_files import write_whole

POSITION_TAG = "LessonPosition"
"""The tag of a game that is a position of a lesson: its name."""

SOURCE_TAG = "LessonSource"
"""The tag of a lesson that was saved: what it was made from, so that it may be saved again."""

_WORDS = re.compile(r"\[%[^\]]*\]|\S+")


@dataclass(frozen=True, kw_only=True)
class Saved(Finding):
    """What was written.

    Attributes
    ----------
    path : str
        The file, as it was named.
    holds : tuple of str
        What is in it, as fields of a record: ``"moves 30"``.
    """

    path: str
    holds: tuple[str, ...]

    @property
    def record(self) -> Record:
        """The file and what is in it."""
        return Record(place=quoted(self.path), kind="saved", fields=self.holds, status="given")

    @property
    def words(self) -> str:
        """The file and what is in it."""
        return f"saved {self.path}: {holds_in_words(self.holds) or 'an empty lesson'}"


class Exporter(chess.pgn.StringExporter):
    """Writes a game in lines of at most 80 characters; a comment breaks between its words alone."""

    def visit_comment(self, comment: str) -> None:
        """Write a comment; the line breaks that it had are white space like any other."""
        words = _WORDS.findall(comment.replace("}", ""))
        whole = " ".join(("{", *words, "}"))
        if self.columns is None or len(whole) < self.columns:
            self.write_token(f"{whole} ")
        else:
            words[0] = f"{{ {words[0]}"
            words[-1] += " }"
            self._write_long(words)
        self.force_movenumber = True

    def _write_long(self, words: Sequence[str]) -> None:
        """Write a comment that no line holds: from the beginning of a line on."""
        self.flush_current_line()
        for word in words:
            self.write_token(f"{word} ")


def source_of(path: Path | None, *, number: int, title: str) -> str:
    """Say what a lesson is made from: a game of a file, or moves that were typed."""
    if path is None:
        return f"typed: {title}"
    return path.name if number == 1 else f"{path.name}, game {number}"


def check_own(target: Path, source: str, *, read_from: Path | None, shown: str) -> None:
    """Refuse to write over a file that this lesson did not write.

    Parameters
    ----------
    target : Path
        The file, in full.
    source : str
        What the lesson is made from, as its tag says.
    read_from : Path or None
        The file that it was read from, in full.
    shown : str
        The file, as it was named.

    Raises
    ------
    LessonError
        With how to write over it all the same.
    """
    if not target.is_file():
        return
    if target == read_from:
        why = f"{shown} is the file that this lesson was read from"
    elif _source_in(target, shown) != source:
        why = f"{shown} is there already, and this lesson did not write it"
    else:
        return
    raise LessonError(
        f"{why}: save it under another name, or write over it with save({shown!r}, overwrite=True)"
    )


def _source_in(target: Path, shown: str) -> str:
    try:
        with open_game_file(target) as handle:
            first = next(raw_games(handle, path=shown), None)
    except GameFileError:
        return ""
    return "" if first is None else first.tag(SOURCE_TAG)


def check_alone(target: Path, *, shown: str) -> None:
    """Refuse to write over a file that holds other games than a lesson's own.

    Raises
    ------
    LessonError
        If more than one game would go; positions of a lesson do not count.
    """
    if not target.is_file():
        return
    with open_game_file(target) as handle:
        games = sum(not raw.tag(POSITION_TAG) for raw in raw_games(handle, path=shown))
    if games > 1:
        raise LessonError(
            f"{shown} holds {games} games, and saving would keep this one alone: "
            "save the lesson under another name"
        )


def write_games(target: Path, text: str, *, shown: str) -> None:
    """Write a game file, whole or not at all.

    Raises
    ------
    GameFileError
        If it cannot be written; what was there is then unchanged.
    """
    try:
        write_whole(target, text)
    except OSError as error:
        raise GameFileError(f"it cannot be written ({error.strerror})", path=shown) from None
