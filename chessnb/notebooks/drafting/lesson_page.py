"""The cells of a drafted lesson, in the order of the class.

Title page; the lesson itself; then by turns a stretch of the story and a
position to stop at, with a live board and what its move changed; the recap.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import chess
import chess.pgn

from chessnb.board.naming import listed
from chessnb.board.sides import SIDES
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.comments import line_name, readable, spoken_name
from chessnb.notebooks import code_cell, escape, markdown_cell
from chessnb.notebooks.drafting.story import Story, glyphs
from chessnb.teaching.cell_code import after, call, first_cell
from chessnb.teaching.signs import reply_table_cell
from chessnb.teaching.turning_points import TurningPoint, reasons_in_words

if TYPE_CHECKING:
    from nbformat import NotebookNode

_SETTING = ("Event", "Site", "Date", "Round")


def lesson_cells(
    lesson: Lesson, points: Sequence[TurningPoint], *, reading: str, name: str
) -> list[NotebookNode]:
    """Return the cells of a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson, read as `reading` says.
    points : sequence of TurningPoint
        Where it stops, in the order of the game.
    reading : str
        The Python expression that reads the lesson again.
    name : str
        The notebook's file name, for the words about checking it.
    """
    cells = [
        markdown_cell("title", title_page(lesson)),
        markdown_cell("how to use", _HOW_TO_USE.format(name=escape(name))),
        code_cell("lesson", first_cell(reading)),
    ]
    if introduction := readable(lesson.start.node.comment):
        cells.insert(1, markdown_cell("introduction", escape(introduction)))
    cells.append(code_cell("start", "lesson.start"))
    cells.extend(_course(lesson, points))
    cells.extend(_recap(lesson, points))
    return cells


_HOW_TO_USE = (
    "*Run the lesson (menu Run, “Run All Cells”) and every diagram becomes a board: drag a "
    "piece, click or type a move. What stands under a board is computed; "
    "`chessnb verify` on {name} computes it again and says what has changed.*"
)


def title_page(lesson: Lesson) -> str:
    """Return the title page as Markdown: title, players, setting, result, plan."""
    lines = [f"# {escape(lesson.title)}"]
    setting = ", ".join(escape(value) for tag in _SETTING if (value := _shown(lesson, tag)))
    players = " – ".join(_player(lesson, side) for side in chess.COLORS)
    if lesson.players and players != escape(lesson.title):
        lines.append(f"**{players}**")
    if setting:
        lines.append(setting)
    if result := _result(lesson):
        lines.append(result)
    if annotator := spoken_name(lesson.header("Annotator")):
        lines.append(f"Annotated by {escape(annotator)}.")
    lines.extend(_plan(lesson))
    return "\n\n".join(lines)


def _shown(lesson: Lesson, tag: str) -> str:
    value = lesson.header(tag)
    if tag == "Round" and value:
        return f"round {value}"
    if tag == "Date":
        return ".".join(part for part in value.split(".") if "?" not in part)
    return value


def _player(lesson: Lesson, side: chess.Color) -> str:
    name = escape(lesson.player(side) or "?")
    rating = lesson.header(f"{SIDES[side]}Elo")
    return f"{name} ({escape(rating)})" if rating.isdecimal() and rating != "0" else name


def _result(lesson: Lesson) -> str:
    words = {
        "1-0": "White won", "0-1": "Black won", "1/2-1/2": "the game was drawn",
        "*": "the game is unfinished",
    }  # fmt: skip
    result = lesson.header("Result") or "*"
    said = words.get(result, escape(result))
    return f"{said[0].upper()}{said[1:]}."


def _plan(lesson: Lesson) -> Iterator[str]:
    about = []
    if lesson.level:
        about.append(f"**Level:** {escape(lesson.level)}")
    if lesson.minutes:
        about.append(f"**Time:** {lesson.minutes} minutes")
    if about:
        yield " · ".join(about)
    if lesson.goals:
        yield "**What to take home:**\n\n" + "\n".join(
            f"- {escape(goal[:1].upper() + goal[1:])}" for goal in lesson.goals
        )


def _course(lesson: Lesson, points: Sequence[TurningPoint]) -> Iterator[NotebookNode]:
    """Yield the game: stretches of its story, and the positions where it stops."""
    stops = {point.moment.node: point for point in points}
    stretch: list[chess.pgn.ChildNode] = []
    for node in lesson.start.node.mainline():
        if node not in stops:
            stretch.append(node)
            continue
        if stretch:
            yield _stretch(lesson, stretch)
            stretch = []
        yield from _stop(lesson, stops[node])
    if stretch:
        yield _stretch(lesson, stretch)


def _stretch(lesson: Lesson, nodes: Sequence[chess.pgn.ChildNode]) -> NotebookNode:
    story = Story()
    for node in nodes:
        story.tell(node)
    first, last = (Moment(lesson=lesson, node=node).numbered for node in (nodes[0], nodes[-1]))
    heading = f"## From {first} to {last}" if len(nodes) > 1 else f"## {first}"
    return markdown_cell(f"story from {first}", f"{heading}\n\n{story.text()}")


def _stop(lesson: Lesson, point: TurningPoint) -> Iterator[NotebookNode]:
    moment = point.moment
    address, here = moment.address, after(moment)
    story = Story()
    assert isinstance(moment.node, chess.pgn.ChildNode)
    story.tell(moment.node)
    why = f"*Why stop here: {_lower(reasons_in_words(point.reasons))}*"
    heading = f"## After {moment.numbered}{glyphs(moment.node)}{_titled(point)}"
    yield markdown_cell(f"stop {address}", "\n\n".join((heading, story.text(), why)))
    yield code_cell(f"board {address}", here)
    yield code_cell(f"changes {address}", f"{here}.changes()")
    yield code_cell(f"material {address}", call("facts.material", here))
    if point.motifs:
        yield code_cell(f"tactics {address}", call("MotifTags", here))
    for sign in point.signs:
        if sign.cell:
            yield code_cell(f"{sign.kind} {address}", sign.cell)
    if table := reply_table_cell(moment, point.signs):
        yield code_cell(f"replies {address}", table)
    for sideline in _sidelines(lesson, moment):
        end = _end_of(sideline)
        key = f"sideline {sideline.address}"
        yield code_cell(key, after(end))


def _titled(point: TurningPoint) -> str:
    """Return the names of the tactics as a heading ends in them."""
    return f" — {listed(point.motifs)}" if point.motifs else ""


def _lower(sentence: str) -> str:
    if sentence.startswith(tuple(SIDES.values())):
        return sentence
    return sentence[:1].lower() + sentence[1:]


def _sidelines(lesson: Lesson, moment: Moment) -> Iterator[Moment]:
    parent = moment.node.parent
    for node in parent.variations[1:] if parent is not None else []:
        yield Moment(lesson=lesson, node=node)


def _end_of(moment: Moment) -> Moment:
    while moment.next is not None:
        moment = moment.next
    return moment


def _recap(lesson: Lesson, points: Sequence[TurningPoint]) -> Iterator[NotebookNode]:
    lines = ["## Recap"]
    lines.extend(
        f"- **{point.moment.numbered}{glyphs(point.moment.node)}** — "
        f"{_lower(reasons_in_words(point.reasons))}"
        for point in points
    )
    names = [name for node in _main(lesson) for name in _names(node)]
    if names:
        lines.append("\nSidelines: " + "; ".join(escape(name) for name in names) + ".")
    lines.append(f"\n{_result(lesson)}")
    yield markdown_cell("recap", "\n".join(lines))
    if lesson.end == lesson.start:
        return  # there is nothing to look back on
    if not points or points[-1].moment != lesson.end:
        yield code_cell("end", "lesson.end")
    yield code_cell("end material", "facts.material(lesson.end)")
    if lesson.header("Result") == "1/2-1/2":
        yield code_cell("end draws", "facts.draws(lesson.end)")


def _main(lesson: Lesson) -> Iterator[chess.pgn.GameNode]:
    yield lesson.start.node
    yield from lesson.start.node.mainline()


def _names(node: chess.pgn.GameNode) -> Iterator[str]:
    for variation in node.variations[1:]:
        if (name := line_name(variation)) is not None:
            yield name
