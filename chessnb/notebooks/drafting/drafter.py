"""Drafting: a game file goes in, a lesson notebook with its outputs comes out."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

from chessnb.board.naming import counted
from chessnb.errors import LessonError, NotebookError
from chessnb.lessons import Lesson
from chessnb.lessons.move_files import is_move_file
from chessnb.lessons.position_files import is_position_file
from chessnb.notebooks import (
    cell_key,
    is_lesson,
    new_notebook,
    read_notebook,
    write_notebook,
)
from chessnb.notebooks.drafting.lesson_page import how_to_use, lesson_cells
from chessnb.notebooks.drafting.position_lesson import (
    gone_on_error,
    place_of,
    points_of,
    position_cells,
    write_positions,
)
from chessnb.notebooks.drafting.redraft import Kept, is_thrown_out, merge, removed_keys
from chessnb.notebooks.drafting.spoken_game import write_game
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.runner import CellFailed, run_through
from chessnb.teaching.adviser import Adviser
from chessnb.teaching.cell_code import reading_expression
from chessnb.teaching.kept_reading import Reading
from chessnb.teaching.turning_points import TurningPoint, game_length

MOST_MOMENTS = 12
"""How many turning points a lesson stops at, unless the teacher says otherwise."""

MOST_MOVES = 500
"""How long a game may be; no game of a tournament comes near."""


@dataclass(frozen=True, kw_only=True)
class Draft:
    """What was drafted.

    Attributes
    ----------
    path : Path
        The notebook.
    title : str
        The lesson's title.
    moves : int
        How many moves the game has, Black's counted with White's.
    stops : int
        How many turning points the lesson stops at.
    found : int
        How many were found in the game.
    kept : Kept or None
        What was kept of an earlier lesson at the same place; ``None`` if
        there was none.
    failures : tuple of CellFailed
        What is wrong in cells of the teacher's own, and in cells that the
        teacher touched; the lesson stands all the same.
    """

    path: Path
    title: str
    moves: int
    stops: int
    found: int
    kept: Kept | None = None
    failures: tuple[CellFailed, ...] = ()

    @property
    def in_words(self) -> str:
        """Say it in one sentence or two."""
        words = f"it stops at {counted(self.stops, 'position')}."
        if not self.found:
            words = (
                "nothing in the game asks for a stop."
                if self.moves
                else "the game has no moves yet."
            )
        if (more := self.found - self.stops) > 0:
            worth = "is worth a stop too" if more == 1 else "are worth one too"
            words = (
                f"{words} {counted(more, 'other position')} {worth}: "
                f"--stops {self.found} takes them all."
            )
        if self.kept is not None and self.kept.in_words:
            words = f"{words} {self.kept.in_words}"
        return words


def draft(
    game_path: str | os.PathLike[str],
    notebook_path: str | os.PathLike[str],
    *,
    game: int | None = None,
    where: Mapping[str, str] | None = None,
    title: str | None = None,
    level: str | None = None,
    goals: Sequence[str] | None = None,
    minutes: int | None = None,
    most: int = MOST_MOMENTS,
    force: bool = False,
    on_move: Callable[[int, int], None] | None = None,
    on_cell: Callable[[int, int], None] | None = None,
    adviser: str | None = None,
) -> Draft:
    """Write and run a lesson notebook from a game, or from positions.

    Parameters
    ----------
    game_path : path
        A PGN file: a game, or a lesson of positions.  Or a list of positions, a
        FEN or an EPD a line (``.fen``, ``.epd``), or a game as one says it
        (``.txt``: :mod:`chessnb.lessons.move_files`); these are written as a PGN
        file beside the notebook, positions with the moves that were found.
    notebook_path : path
        The notebook to write, in a folder that exists.
    game, where : int, mapping, optional
        Which game of the file; see :meth:`chessnb.Lesson.read`.
    title, level, goals, minutes : optional
        What the title page says of the lesson.
    most : int
        At how many turning points the lesson stops at most.
    force : bool
        Draft again although the notebook exists.  Cells that the teacher
        added or edited are kept, drafted cells that the teacher took out
        stay out.
    on_move : callable, optional
        Called before each move of the game is looked at, with its number
        (White's and Black's counted as one) and how many there are.
    on_cell : callable, optional
        Called before each cell is run, with its number and how many there are.
    adviser : str, optional
        A UCI engine, by path or name, that helps to choose where to stop.

    Returns
    -------
    Draft
        What was drafted.

    Raises
    ------
    GameFileError
        If the game cannot be used.
    LessonError
        If there is nothing to teach in it, or it is longer than any lesson.
    EngineError
        If the adviser does not work.
    NotebookError
        If the notebook exists (without `force`), cannot be written, or
        cannot be run.  Nothing is written then.

    Notes
    -----
    Some seconds, most of them for starting Python in the notebook.  With an
    adviser some tenths of a second a move more.
    """
    target = Path(notebook_path)
    _check_target(target)
    check_hiding(target.parent, shown=str(target))
    # Whether there is a lesson already is asked first: drafting takes seconds.
    old = _old_lesson(target, force=force)
    lesson_about = {"title": title, "level": level, "goals": goals, "minutes": minutes}
    about = {name: value for name, value in lesson_about.items() if value}
    source, made = Path(game_path), None
    if is_position_file(source):
        if game is not None or where is not None:
            raise LessonError(f"{game_path}: a list of positions holds no games to choose from")
        source = place_of(target, force=force)
        made = None if source.exists() else source
        write_positions(Path(game_path), source, about=about, on_move=on_move)
    elif is_move_file(source):
        if game is not None or where is not None:
            raise LessonError(f"{game_path}: a file of spoken moves holds one game")
        source, made = write_game(Path(game_path), target.with_suffix(".pgn"), force=force)
    with gone_on_error(made):
        lesson = Lesson.read(source, game=game, where=where, **about)
        number = game if where is None else _number_in_file(source, where)
        reader: Reading | None = None
        reading = reading_expression(source, target.parent, game=number, about=about)
        if lesson.game is None:
            asked = points_of(lesson, on_move)
            stops = found = len(asked)
            words = how_to_use(target.name)
            cells = position_cells(lesson, asked, reading=reading, how_to_use=words)
        else:
            _check_length(lesson, str(game_path))
            reader, points, found = _read(lesson, old, most, adviser, on_move)
            stops = len(points)
            cells = lesson_cells(lesson, points, reading=reading, name=target.name)
        keys = [cell_key(cell) for cell in cells]
        merged, kept = (cells, None) if old is None else merge(cells, old)
        notebook = new_notebook(merged, notes=_notes(keys, old))
        done, failures = run_through(
            notebook, folder=target.parent, name=str(target), on_cell=on_cell
        )
        if failures and old is None:
            raise failures[0]  # nobody but we wrote these cells
        write_notebook(done, target)
        if reader is not None:
            reader.keep()
    return Draft(
        path=target,
        title=lesson.title,
        moves=0 if lesson.game is None else game_length(lesson),
        stops=stops,
        found=found,
        kept=kept,
        failures=failures,
    )


def _read(
    lesson: Lesson,
    old: Mapping[str, object] | None,
    most: int,
    adviser: str | None,
    on_move: Callable[[int, int], None] | None,
) -> tuple[Reading, tuple[TurningPoint, ...], int]:
    """Return the reading of a game, where the lesson stops, and how many stops were found."""
    with nullcontext() if adviser is None else Adviser(adviser) as helper:
        reading = Reading(lesson, most=most, adviser=helper)
        points, found = reading.turning_points(on_move)
    if old is not None:  # a stop that was taken out does not come back; its move is told again
        points = tuple(one for one in points if not is_thrown_out(old, one.moment.address))
    return reading, points, found


def _check_length(lesson: Lesson, shown: str) -> None:
    moves = game_length(lesson)
    if moves > MOST_MOVES:
        raise LessonError(
            f"{shown}: this game has {moves} moves, and a lesson is drafted from {MOST_MOVES} at "
            "most. Cut the file to the part that the class is to see"
        )


def _notes(keys: Sequence[str | None], old: Mapping[str, object] | None) -> dict[str, object]:
    notes: dict[str, object] = {"cells": list(keys)}
    if old is not None and (removed := sorted(removed_keys(old))):
        notes["removed"] = removed
    return notes


def _number_in_file(path: str | os.PathLike[str], where: Mapping[str, str]) -> int:
    """Return the number of the game that `where` found: what the notebook names for good."""
    from chessnb.lessons.game_files import find_game, open_game_file, raw_games

    with open_game_file(path) as handle:
        return find_game(raw_games(handle, path=str(path)), path=str(path), where=where).number


def _check_target(target: Path) -> None:
    if target.suffix != ".ipynb":
        raise NotebookError(
            "a lesson is a notebook: give it a name that ends in .ipynb", path=str(target)
        )
    if not target.parent.is_dir():
        raise NotebookError(
            f"there is no folder {str(target.parent)!r} to write it in", path=str(target)
        )
    if not os.access(target.parent, os.W_OK):
        raise NotebookError(
            f"the folder {str(target.parent)!r} cannot be written in", path=str(target)
        )


def _old_lesson(target: Path, *, force: bool) -> Mapping[str, object] | None:
    if not target.exists():
        return None
    if not force:
        raise NotebookError(
            "there is such a file already. With --force it is drafted again; cells that you "
            "added or edited are kept",
            path=str(target),
        )
    old = read_notebook(target)
    if not is_lesson(old):
        raise NotebookError(
            "this notebook is not a lesson that chessnb drafted, so it is left alone; "
            "choose another name",
            path=str(target),
        )
    return dict(old)
