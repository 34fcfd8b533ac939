"""The cells of a lesson of positions: each has its heading, its question and its page.

A list of positions (FEN or EPD) is written as a game file beside the notebook
first: the moves that were found stand there, and not in the notebook, where
a class would see them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import chess

from chessnb.board.naming import counted
from chessnb.errors import GameFileError, NotebookError
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.position_files import read_position_file
from chessnb.notebooks import code_cell, escape, markdown_cell
from chessnb.teaching.cell_code import Expression, call, first_cell
from chessnb.teaching.position_points import PositionPoint, position_point

if TYPE_CHECKING:
    from nbformat import NotebookNode

Points = dict[str, PositionPoint]
"""What is asked and told, by the names of the positions."""


def points_of(lesson: Lesson, on_move: Callable[[int, int], None] | None) -> Points:
    """Return what is to be found in each position of a lesson."""
    points = {}
    for number, name in enumerate(lesson.positions, 1):
        if on_move is not None:
            on_move(number, len(lesson.positions))
        points[name] = position_point(lesson.at(name))
    return points


def place_of(target: Path, *, force: bool) -> Path:
    """Return where a list of positions is kept as a game file, beside its notebook.

    Raises
    ------
    NotebookError
        If another file is in its place.
    """
    place = target.with_suffix(".pgn")
    if place.exists() and not (force and _is_of_positions(place)):
        raise NotebookError(
            f"the positions are kept in {place.name!r} beside the lesson, and there is such a "
            "file already; choose another name for the lesson",
            path=str(place),
        )
    return place


def _is_of_positions(place: Path) -> bool:
    try:
        return Lesson.read(place).game is None
    except GameFileError:
        return False


def write_positions(
    source: Path,
    place: Path,
    *,
    about: Mapping[str, Any],
    on_move: Callable[[int, int], None] | None,
) -> None:
    """Write a list of positions, with the moves that were found, as a game file.

    What a teacher has added to an earlier file stays; the positions that it lacks are added.
    """
    listed = read_position_file(source, **about)
    lesson = Lesson.read(place, **about) if place.exists() else listed
    held = {game.board().fen() for game in lesson.positions.values()}
    for name, game in listed.positions.items() if lesson is not listed else ():
        if game.board().fen() not in held:
            added = lesson.add_position(
                game.board(), name=None if name in lesson.positions else name, note=game.comment
            )
            if moves := list(game.mainline_moves()):
                lesson.add_line(added, moves)
    for name, point in points_of(lesson, on_move).items():
        moment = lesson.at(name)
        if point.key is not None and moment.next is None:
            lesson.add_line(moment, [point.key])
    lesson.save(place, overwrite=True)


@contextmanager
def gone_on_error(path: Path | None) -> Iterator[None]:
    """Take a file away again if what it was written for does not come about."""
    try:
        yield
    except BaseException:
        if path is not None:
            path.unlink(missing_ok=True)
        raise


def position_cells(
    lesson: Lesson, points: Points, *, reading: str, how_to_use: str
) -> list[NotebookNode]:
    """Return the cells of a lesson of positions."""
    return [
        markdown_cell("title", _title(lesson)),
        markdown_cell("how to use", how_to_use),
        code_cell("lesson", first_cell(reading)),
        *(cell for name, point in points.items() for cell in _stop(lesson.at(name), name, point)),
    ]


def _title(lesson: Lesson) -> str:
    plan = [f"# {escape(lesson.title)}", f"{counted(len(lesson.positions), 'position')}."]
    if lesson.level:
        plan.append(f"**Level:** {escape(lesson.level)}")
    if lesson.minutes:
        plan.append(f"**Time:** {lesson.minutes} minutes")
    if lesson.goals:
        goals = "\n".join(f"- {escape(goal)}" for goal in lesson.goals)
        plan.append(f"**What to take home:**\n\n{goals}")
    return "\n\n".join(plan)


def _stop(moment: Moment, name: str, point: PositionPoint) -> Iterator[NotebookNode]:
    """Yield the heading of a position, with its note, and its page."""
    heading = f"## {escape(name[:1].upper() + name[1:])}"
    note = escape(moment.comment)
    yield markdown_cell(f"stop {name}", "\n\n".join(filter(None, (heading, note))))
    yield code_cell(f"page {name}", _page(moment, name, point))


def _page(moment: Moment, name: str, point: PositionPoint) -> str:
    """Return the cell of a page: what is asked, and below it what is told."""
    asked: dict[str, object] = {"question": point.question}
    lines = list(point.cells)
    if point.key is not None:
        asked = {"ask": "find the move", **asked}
        here = Expression(f"m.after({moment.board.san(point.key)!r})")
        lines += [f"{here}.changes()", call("motifs.tag", here)]
    if moment.turn == chess.BLACK:
        asked["turned"] = True
    opened = _one_line("page", Expression(call("lesson.at", name)), asked)
    body = "\n".join(f"    {line}" for line in lines)
    return f"with {opened} as m:\n{body}"


def _one_line(name: str, given: Expression, options: Mapping[str, object]) -> str:
    said = "".join(f", {option}={value!r}" for option, value in options.items())
    return f"{name}({given}{said})"
