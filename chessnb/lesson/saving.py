"""Saving a game file: whole or not at all, and never over somebody else's games."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from chessnb.errors import GameFileError, LessonError
from chessnb.lesson.reading import open_game_file, raw_games

POSITION_TAG = "LessonPosition"
"""The tag of a game that is a position of a lesson: its name."""


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


def write_whole(target: Path, text: str, *, shown: str) -> None:
    """Write a text file beside its place and move it there, with the permissions it had.

    Raises
    ------
    GameFileError
        If it cannot be written; what was there is then unchanged.
    """
    try:
        handle, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
                stream.write(text)
            os.chmod(temporary, _mode_for(target))
            os.replace(temporary, target)
        except BaseException:
            os.unlink(temporary)
            raise
    except OSError as error:
        raise GameFileError(f"it cannot be written ({error.strerror})", path=shown) from None


def _mode_for(target: Path) -> int:
    """Return the permissions that a file has, or would get if it were made new."""
    if target.exists():
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
