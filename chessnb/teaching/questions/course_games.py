"""Every lesson of a folder of game files, as an exercise sheet looks through them."""

from __future__ import annotations

from collections.abc import Iterator
from os import PathLike
from pathlib import Path

from chessnb.errors import GameFileError
from chessnb.lessons import Lesson
from chessnb.lessons.game_files import open_game_file, raw_games
from chessnb.lessons.game_writer import POSITION_TAG


def lessons_in(path: str | PathLike[str]) -> Iterator[Lesson]:
    """Yield the lessons of a game file, or of a folder's game files by their names.

    Every game of a file is one; the positions that were saved behind a game
    are read with it.  Folders inside the folder are not looked into.

    Parameters
    ----------
    path : str or path
        The folder or the file.

    Raises
    ------
    GameFileError
        If a file cannot be used, or there is none in the folder.
    """
    place = Path(path)
    if not place.is_dir():
        yield from _of_file(place)
        return
    files = sorted(one for one in place.iterdir() if one.suffix.lower() == ".pgn")
    if not files:
        raise GameFileError("there is no game file (.pgn) in this folder", path=str(place))
    for file in files:
        yield from _of_file(file)


def _of_file(path: Path) -> Iterator[Lesson]:
    with open_game_file(path) as handle:
        numbers = [
            game.number
            for game in raw_games(handle, path=str(path))
            if game.number == 1 or not game.tag(POSITION_TAG)
        ]
    for number in numbers:
        yield Lesson.read(path, game=number)
