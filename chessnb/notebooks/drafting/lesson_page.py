"""The cells of a drafted lesson, in the order of the class.

Title page; the lesson itself; then by turns a stretch of the story and a
stop: a heading that does not tell, and a page.  A stop stands before its move
wherever there is something to find, else after it.  At the end, what to remember.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import chess
import chess.pgn

from chessnb.board.naming import ordinal
from chessnb.board.sides import SIDES
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.comments import line_name, readable, spoken_name
from chessnb.lessons.openings import opening_of
from chessnb.notebooks import code_cell, escape, markdown_cell
from chessnb.notebooks.drafting.story import Story, glyphs
from chessnb.teaching.cell_code import Expression, after, before, call, first_cell
from chessnb.teaching.questions.asked_at_stop import question_at
from chessnb.teaching.reply_signs import reply_table_cell
from chessnb.teaching.signs import ADVICE, TURNS
from chessnb.teaching.spread import RECALLED
from chessnb.teaching.statements.comment_claims import claims_of_comment
from chessnb.teaching.thread.choosing import place_in_game, thread_of
from chessnb.teaching.tries import BAD_GLYPHS, GOOD_GLYPHS
from chessnb.teaching.turning_points import TurningPoint, reasons_in_words, says_something

if TYPE_CHECKING:
    from nbformat import NotebookNode

_NAMED = 4
"""From so many moves on, of either side, an opening's name says something."""

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
        markdown_cell("how to use", how_to_use(name)),
        code_cell("lesson", first_cell(reading)),
    ]
    if introduction := readable(lesson.start.node.comment):
        cells.insert(1, markdown_cell("introduction", escape(introduction)))
    cells.extend(_course(lesson, points))
    cells.extend(_recap(lesson, points))
    return cells


_HOW_TO_USE = (
    "*Run the lesson (menu Run, “Run All Cells”) and every diagram becomes a board: drag a "
    "piece, click or type a move. What stands beside a board is computed; "
    "`chessnb verify` on {name} computes it again and says what has changed.*"
)


def how_to_use(name: str) -> str:
    """Return the words about running a lesson and checking it."""
    return _HOW_TO_USE.format(name=escape(name))


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
    opening = opening_of(lesson) if lesson.game is not None else None
    if opening is not None and opening.moment.node.ply() >= _NAMED:
        lines.append(f"Opening: {escape(opening.name.replace(': ', ', '))}.")
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
    """Yield the game: the pages where it stops, each under the story since the one before."""
    stops = {point.moment.node: point for point in points}
    places = {place_in_game(node): asks(point) for node, point in stops.items()}
    asked_for = {place for place, asked in places.items() if asked}
    thread = thread_of(lesson, asked=asked_for, shown=set(places))
    story = Story(thread)
    first = None
    counted = _count(lesson.start.board)
    for node in lesson.start.node.mainline():
        point = stops.get(node)
        first = first or node
        if point is None:
            story.tell(node)
            continue
        asked = asks(point)
        is_told = not _is_bare(story, asked=asked)
        told = _before(point, story, asked=asked)
        now = _count(point.moment.board)
        yield from _stop(point, told, asked=asked, recall=not is_told, material=now != counted)
        counted = now
        story, first = Story(thread), None
        if asked:  # the page tells the rest
            story.tell(node, comment=False, sidelines=False)
            first = node
    over = bool(points) and points[-1].moment == lesson.end
    if first is not None and not over:
        begin, end = (Moment(lesson=lesson, node=at).numbered for at in (first, node))
        heading = f"## From {begin} to {end}" if begin != end else f"## {begin}"
        yield markdown_cell(f"story from {begin}", f"{heading}\n\n{story.text()}")


def _is_bare(story: Story, *, asked: bool) -> bool:
    """Tell whether there are only a few bare moves, which the page recalls."""
    return story.is_bare and story.count + (not asked) <= RECALLED


def _before(point: TurningPoint, story: Story, *, asked: bool) -> str:
    """Return what has happened since the last stop; a few bare moves stand on the page itself."""
    node = point.moment.node
    assert isinstance(node, chess.pgn.ChildNode)
    if _is_bare(story, asked=asked):
        return "" if asked else escape(point.moment.comment)
    if not asked:
        story.tell(node, sidelines=False)
    return story.text()


def _count(board: chess.Board) -> tuple[int, ...]:
    """Return by how many of each piece White is ahead."""
    return tuple(
        len(board.pieces(kind, chess.WHITE)) - len(board.pieces(kind, chess.BLACK))
        for kind in chess.PIECE_TYPES
    )


def _stop(
    point: TurningPoint, told: str, *, asked: bool, recall: bool, material: bool
) -> Iterator[NotebookNode]:
    """Yield a stop: its heading, what has happened, and its page.

    It stands before a move that the class is to find, else after the move.
    How the material stands is told where it has changed since the last stop.
    """
    moment = point.moment
    assert moment.back is not None
    if asked:
        # Neither the heading nor the line that is seen of a folded cell tells the move.
        place = f"{SIDES[moment.back.turn]}'s {ordinal(moment.back.board.fullmove_number)}"
        heading = f"## {place} move"
        options: dict[str, Any] = {} if recall else {"recall": False}
        advice = next((sign for sign in point.signs if sign.kind == ADVICE), None)
        if advice is not None:
            options = {"remember": f"{_upper(advice.words)}.", **options}
        question = {"ask": "find the move"}
        if advice is not None and not _seeks_move(point):
            question = {"ask": "think", "question": advice.question}
        opened = call("page", Expression(call("lesson.before", place)), **question, **options)
        here, there = f"m.after({moment.san!r})", "m"
    else:
        heading = f"## After {moment.numbered}"
        opened, here, there = _asking(point, recall=recall), "m", "m.back"
    words = "\n\n".join(filter(None, (heading, told)))
    yield markdown_cell(f"stop {moment.address}", words)
    yield _page(point, opened, here=here, there=there, material=material)


def _asking(point: TurningPoint, *, recall: bool) -> str:
    """Return the call that opens a page after a move: its question first, the answer folded."""
    here = after(point.moment)
    options: dict[str, Any] = {} if recall else {"recall": False}
    question = next((sign.question for sign in point.signs[:1] if sign.question), "")
    if not question:
        told = bool(readable(point.moment.comment))  # what stands above the page may tell it
        asked = None if told else question_at(point.moment, [one.kind for one in point.signs])
        if asked is not None:
            name, given = asked
            code = Expression(call(f"questions.{name}", here, *given))
            options = {"ask": code, **options}
        return call("page", here, **options)
    said = [f"{_upper(sign.words)}." for sign in point.signs if sign.question and not sign.cell]
    remember = {"remember": " ".join(said)} if said else {}
    return call("page", here, ask="think", question=question, **remember, **options)


def asks(point: TurningPoint) -> bool:
    """Tell whether there is something to find in a move: a good one, or a better one."""
    return _seeks_move(point) or any(sign.kind == ADVICE for sign in point.signs)


def _seeks_move(point: TurningPoint) -> bool:
    marked = set(point.moment.nags) & (GOOD_GLYPHS | BAD_GLYPHS)
    found = any(
        sign.kind in {*TURNS, "offer"} or sign.kind.startswith("mates") for sign in point.signs
    )
    return bool(marked) or found or point.moment.board.is_checkmate()


def _page(
    point: TurningPoint, opened: str, *, here: str, there: str, material: bool
) -> NotebookNode:
    """Return the cell of a page: `here` is the position after the move, `there` before it."""
    moment = point.moment
    lines = [] if moment.changes().is_quiet else [f"{here}.changes()"]
    lines += [sign.cell for sign in point.signs if sign.cell]
    lines += claims_of_comment(moment)
    if point.motifs:
        lines.append(call("motifs.tag", Expression(here)))
    if table := reply_table_cell(moment, point.signs):
        lines.append(table)
    if (material or not lines) and not any("claims.material" in line for line in lines):
        lines.append(call("facts.material", Expression(here)))
    names: dict[str, str] = {after(moment): here, before(moment): there}
    if moment.back is not None:
        names[after(moment.back)] = there
    shortened = dict.fromkeys(_short(line, names) for line in lines)
    body = "\n".join(f"    {line}" for line in shortened)
    return code_cell(f"page {moment.address}", f"with {opened} as m:\n{body}")


def _short(code: str, names: Mapping[str, str]) -> str:
    """Return a call on one line, with the page's own names for its positions."""
    for long, short in names.items():
        code = code.replace(long, short)
    return ast.unparse(ast.parse(code))


def _lower(sentence: str) -> str:
    if sentence.startswith(tuple(SIDES.values())):
        return sentence
    return sentence[:1].lower() + sentence[1:]


def _upper(sentence: str) -> str:
    return f"{sentence[:1].upper()}{sentence[1:]}"


def _recap(lesson: Lesson, points: Sequence[TurningPoint]) -> Iterator[NotebookNode]:
    lines = ["## What to remember"]
    for point in points:
        if words := _worth_remembering(point):
            lines.append(f"- **{point.moment.numbered}{glyphs(point.moment.node)}** — {words}")
    names = [name for node in _main(lesson) for name in _names(node)]
    if names:
        lines.append("\nSidelines: " + "; ".join(escape(name) for name in names) + ".")
    lines.append(f"\n{_result(lesson)}")
    yield markdown_cell("recap", "\n".join(lines))
    if lesson.end == lesson.start or (points and points[-1].moment == lesson.end):
        return  # there is nothing to look back on, or it stands on the last page
    drawn = lesson.header("Result") == "1/2-1/2"
    body = "    facts.material(m)" + ("\n    facts.draws(m)" if drawn else "")
    yield code_cell("end", f"with page(lesson.end) as m:\n{body}")


# A full stop behind a square ends a sentence, the one behind the number of a move does not.
_SENTENCE_END = re.compile(r"(?<=[^\d\s.][.!?])\s+|(?<=[a-h][1-8][.!?])\s+(?=[A-Z][a-z ])")


def _worth_remembering(point: TurningPoint) -> str:
    """Return what a class takes home: the annotator's first sentence, or what is proved."""
    comment = point.moment.comment
    if says_something(comment):
        first = _SENTENCE_END.split(comment)[0]
        return escape(first)
    told = [sign.words for sign in point.signs if sign.cell]
    if point.moment.board.is_checkmate():
        told.append("checkmate")
    return _lower(reasons_in_words(told))


def _main(lesson: Lesson) -> Iterator[chess.pgn.GameNode]:
    yield lesson.start.node
    yield from lesson.start.node.mainline()


def _names(node: chess.pgn.GameNode) -> Iterator[str]:
    for variation in node.variations[1:]:
        if (name := line_name(variation)) is not None:
            yield name
