"""A game that was written down as one says it becomes a game file beside its lesson."""

from __future__ import annotations

from pathlib import Path

from chessnb.errors import GameFileError, NotebookError
from chessnb.lessons.game_files import open_game_file
from chessnb.lessons.move_files import read_move_file
from chessnb.whole_files import write_whole

SOURCE = "Source"
"""The header that says from which file a game was written."""


def write_game(said: Path, place: Path, *, force: bool) -> tuple[Path, Path | None]:
    """Write a file of spoken moves as a game file.

    Parameters
    ----------
    said : Path
        The moves as one says them.
    place : Path
        The game file.
    force : bool
        Write it again, if it was written from the same file.

    Returns
    -------
    (Path, Path or None)
        The game file, and once more if it was not there before.

    Raises
    ------
    GameFileError
        With every place that cannot be read; nothing is written then.
    NotebookError
        If another file is in its place.
    """
    game = read_move_file(said)
    is_there = place.exists()
    if is_there and not (force and _is_from(place, said.name)):
        raise NotebookError(
            f"the game is kept in {place.name!r} beside the lesson, and there is such a file "
            "already; choose another name for the lesson",
            path=str(place),
        )
    game.headers[SOURCE] = said.name
    write_whole(place, f"{game}\n".encode())
    return place, None if is_there else place


def _is_from(place: Path, name: str) -> bool:
    """Tell whether a game file was written from a file of this name."""
    try:
        with open_game_file(place) as handle:
            return f'[{SOURCE} "{name}"]' in "".join(handle)
    except (GameFileError, OSError):
        return False
