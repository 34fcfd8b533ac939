"""Small charts in the ink of the diagrams: what went on over a stretch of moves.

Each chart is a finding: its line says what a reader should see in it, its
table holds every number as text, and every point has the address of its
position, so that a class can go there.
"""

from __future__ import annotations

import base64
import html
from collections.abc import Sequence
from dataclasses import dataclass

import chess

from chessnb.board.naming import counted, the_piece
from chessnb.board.sides import SIDES
from chessnb.board.squares import Square, read_square
from chessnb.diagrams.pen import Pen, Theme
from chessnb.errors import LessonError
from chessnb.facts import material as material_of
from chessnb.facts import pressure as pressure_at
from chessnb.findings import Finding, Record, content, escaped, gathered
from chessnb.findings.record_fields import piece_on, side_word
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.slips import check_lesson, check_moment, check_square
from chessnb.mistakes import checked, introduce

__all__ = ["Chart", "Point", "material", "mobility", "pressure_on"]

WIDTH, HEIGHT, LEFT, TOP, BOTTOM = 480, 180, 34, 14, 26
"""The size of a chart and of what stands around its field, in units of the drawing."""


@dataclass(frozen=True, kw_only=True)
class Point:
    """One value of a chart.

    Attributes
    ----------
    address : str
        Its position, as :meth:`chessnb.Lesson.at` takes it; ``"start"`` for the start.
    value : int
        The value there.
    other : int or None
        The second value, where the chart has two lines.
    move : str
        The move that led there, in UCI; empty at a start.
    numbered : str
        The same with its number, in SAN.
    """

    address: str
    value: int
    other: int | None = None
    move: str = ""
    numbered: str = ""


@dataclass(frozen=True, kw_only=True)
class Chart(Finding):
    """A chart over a stretch of moves.

    Attributes
    ----------
    title : str
        What is counted.
    names : tuple of str
        The names of its lines, one or two.
    points : tuple of Point
        The values, in the order of the moves.
    summary : str
        What a reader should see.
    counts : str
        What is counted, as a record has it: ``"pressure white f3"``.
    place : str
        Where the stretch ends, as a record has it.
    fen : str
        The position of the first point; the moves of the others lead on from it.
    """

    title: str
    names: tuple[str, ...]
    points: tuple[Point, ...]
    summary: str
    counts: str
    place: str
    fen: str = chess.STARTING_FEN

    @property
    def record(self) -> Record:
        """The numbers at the start, and after each move that changed them."""
        fields = [self.counts]
        last = ""
        for point in self.points:
            numbers = f"{point.value}" if point.other is None else f"{point.value}/{point.other}"
            if numbers != last:
                fields.append(f"{point.numbered or 'start'}: {numbers}")
            last = numbers
        return Record(place=self.place, kind="chart", fields=tuple(fields), status="rules")

    @property
    def words(self) -> str:
        """The title and what there is to see."""
        return f"chart, {self.title}: {self.summary}"

    def svg(self, *, theme: Theme = "auto") -> str:
        """Return the chart as one SVG element; the same bytes every time."""
        return _Drawing(self, Pen(theme=theme)).svg()

    @property
    def places(self) -> tuple[tuple[float, ...], ...]:
        """Where each point stands in :meth:`svg`: its x, and the y of each of its values."""
        drawing = _Drawing(self, Pen(theme="auto"))
        return tuple(
            (
                drawing.x(number),
                *(drawing.y(value) for value in (point.value, point.other) if value is not None),
            )
            for number, point in enumerate(self.points)
        )

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The table: address and values, as text."""
        return tuple(
            (point.address, str(point.value), *(() if point.other is None else (str(point.other),)))
            for point in self.points
        )

    @property
    def card(self) -> str:
        """The drawing, what there is to see in it, and the numbers."""
        data = base64.b64encode(self.svg().encode()).decode("ascii")
        image = (
            f"<img src='data:image/svg+xml;base64,{data}' width='{WIDTH}' "
            f"alt='{html.escape(self.words, quote=True)}'>"
        )
        head = "".join(f"<th>{escaped(name)}</th>" for name in ("after", *self.names))
        body = "".join(
            "<tr>" + "".join(f"<td>{escaped(cell)}</td>" for cell in row) + "</tr>"
            for row in self.rows
        )
        table = f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
        words = content(f"{self.title[0].upper()}{self.title[1:]}: {self.summary}.")
        return f"{image}{words}<details><summary>the numbers</summary>{table}</details>"


class _Drawing:
    """One chart on its way to an SVG."""

    def __init__(self, chart: Chart, pen: Pen) -> None:
        self.chart, self.pen = chart, pen
        values = [value for point in chart.points for value in (point.value, point.other or 0)]
        self.low, self.high = min(0, *values), max(0, *values)
        if self.low == self.high:
            self.high += 1

    def svg(self) -> str:
        title = html.escape(self.chart.words)
        parts = (self._frame(), self._scale(), self._lines(), self._moves())
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{WIDTH}" '
            f'height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}"><title>{title}</title>'
            f"{self.pen.style()}{''.join(parts)}</svg>"
        )

    def x(self, number: int) -> float:
        field = WIDTH - LEFT - 10
        return round(LEFT + field * number / max(1, len(self.chart.points) - 1), 1)

    def y(self, value: int) -> float:
        field = HEIGHT - TOP - BOTTOM
        return round(TOP + field * (self.high - value) / (self.high - self.low), 1)

    def number(self, value: int) -> str:
        """Return a number of the scale: with a plus only where some are below 0."""
        return f"+{value}" if value > 0 > self.low else f"−{-value}" if value < 0 else str(value)

    def _frame(self) -> str:
        paper = self.pen.paint(fill="paper")
        zero = self.pen.paint(stroke="ink", width=0.8)
        line = f'<path d="M{LEFT} {self.y(0)}H{WIDTH - 10}"{zero}/>'
        return f'<rect width="{WIDTH}" height="{HEIGHT}"{paper}/>{line}'

    def _scale(self) -> str:
        """Return the numbers at the left: the highest, the lowest, and 0."""
        ink = self.pen.paint(fill="ink")
        font = 'font-family="Georgia,Palatino,serif" font-size="12" text-anchor="end"'
        return "".join(
            f'<text x="{LEFT - 6}" y="{self.y(value) + 4}" {font}{ink}>{self.number(value)}</text>'
            for value in sorted({self.low, 0, self.high})
        )

    def _lines(self) -> str:
        first = [(number, point.value) for number, point in enumerate(self.chart.points)]
        drawn = [self._line(first, None), self._name(first, 0)]
        if len(self.chart.names) > 1:
            second = [(number, point.other or 0) for number, point in enumerate(self.chart.points)]
            drawn += [self._line(second, "5 4"), self._name(second, 1)]
        return "".join(drawn)

    def _line(self, values: Sequence[tuple[int, int]], dash: str | None) -> str:
        """Return one line as steps: a value holds until the next move."""
        path = f"M{self.x(values[0][0])} {self.y(values[0][1])}"
        for number, value in values[1:]:
            path += f"H{self.x(number)}V{self.y(value)}"
        ink = self.pen.paint(stroke="ink", width=2, dash=dash)
        return f'<path d="{path}"{ink} stroke-linejoin="round"/>'

    def _name(self, values: Sequence[tuple[int, int]], which: int) -> str:
        """Return the name of a line, where the chart has two."""
        if len(self.chart.names) < 2:
            return ""
        ink = self.pen.paint(fill="ink")
        style = 'font-family="Georgia,Palatino,serif" font-size="12" font-style="italic"'
        x = LEFT + 8 + 150 * which
        stroke = self.pen.paint(stroke="ink", width=2, dash="5 4" if which else None)
        rule = f'<path d="M{x} {HEIGHT - 8}h22"{stroke}/>'
        name = html.escape(self.chart.names[which])
        return f'{rule}<text x="{x + 27}" y="{HEIGHT - 4}" {style}{ink}>{name}</text>'

    def _moves(self) -> str:
        """Return the addresses of the first and the last position, under the field."""
        ink = self.pen.paint(fill="ink")
        last = len(self.chart.points) - 1
        font = 'font-family="Georgia,Palatino,serif" font-size="11"'
        if len(self.chart.names) > 1:
            return ""
        ends = ((0, "start"), (last, "end"))
        return "".join(
            f'<text x="{self.x(number)}" y="{HEIGHT - 6}" text-anchor="{anchor}" {font}{ink}>'
            f"{html.escape(self.chart.points[number].address)}</text>"
            for number, anchor in ends
        )


@gathered
@checked
def material(lesson: Lesson) -> Chart:
    """Chart the material over a lesson's game, in points, White's view.

    Raises
    ------
    LessonError
        If the lesson has no game with moves.

    Examples
    --------
    >>> game = Lesson.from_text("1. e4 d5 2. exd5 Qxd5 3. Nc3")
    >>> print(material(game))
    3. Nc3 | chart | material | start: 0 | 2. exd5: 1 | 2... Qxd5: 0 | rules
    >>> material(game).words
    'chart, material: even at the end, at most White +1 after 2. exd5'
    """
    check_lesson(lesson, call="charts.material")
    points = tuple(
        _point(moment, material_of(moment.board).balance)
        for moment in _stretch(lesson.start, lesson.end)
    )
    widest = max(points, key=lambda point: abs(point.value))
    end = _ahead(points[-1].value)
    summary = f"{end} at the end"
    if abs(widest.value) > abs(points[-1].value):
        summary += f", at most {_ahead(widest.value)} after {widest.address}"
    return Chart(
        title="material",
        names=("points, White's view",),
        points=points,
        summary=summary,
        counts="material",
        place=lesson.end.place,
        fen=lesson.start.board.fen(),
    )


@gathered
@checked
def pressure_on(square: Square, *, start: Moment, end: Moment) -> Chart:
    """Chart how many attack a square and how many defend it, from one position to a later one.

    The sides keep their parts: who attacks is decided at the end of the stretch.

    Raises
    ------
    LessonError
        If `end` does not follow from `start`.
    InputError
        If there is no such square.
    """
    check_square(square, call="charts.pressure_on")
    _check_stretch(start, end)
    at_end = pressure_at(end, square)
    side, name = at_end.side, at_end.square
    points = []
    for moment in _stretch(start, end):
        found = pressure_at(moment, name, side=side)
        points.append(_point(moment, found.attacked_by, found.defended_by))
    first, last = points[0], points[-1]
    summary = (
        f"{first.value} against {first.other} at first, {last.value} against {last.other} "
        f"after {last.address}"
    )
    names = (f"{SIDES[side]} attacks", f"{SIDES[not side]} defends")
    return Chart(
        title=f"pressure on {name}",
        names=names,
        points=tuple(points),
        summary=summary,
        counts=f"pressure {side_word(side)} {at_end.square}",
        place=end.place,
        fen=start.board.fen(),
    )


@gathered
@checked
def mobility(square: Square, *, start: Moment, end: Moment) -> Chart:
    """Chart how many squares a piece can go to, from one position until a later one or its end.

    Parameters
    ----------
    square : str or chess.Square
        Where the piece stands at `start`; it is followed wherever it goes.
    start, end : Moment
        The stretch.

    Raises
    ------
    LessonError
        If no piece stands there, or `end` does not follow from `start`.
    InputError
        If there is no such square.
    """
    check_square(square, call="charts.mobility")
    _check_stretch(start, end)
    place = read_square(square)
    if start.board.piece_at(place) is None:
        raise LessonError(f"nothing stands on {chess.square_name(place)} {start.label}")
    name, counts = the_piece(start.board, place), f"mobility {piece_on(start.board, place)}"
    points = []
    for moment in _stretch(start, end):
        followed = place if moment == start else _follow(moment, place)
        if followed is None:
            break
        place = followed
        points.append(_point(moment, _reach(moment.board, place)))
    most = max(points, key=lambda point: point.value)
    summary = (
        f"{counted(points[0].value, 'square')} at first, at most {most.value} after {most.address}"
    )
    return Chart(
        title=f"mobility of {name}",
        names=("squares",),
        points=tuple(points),
        summary=summary,
        counts=counts,
        place=end.place,
        fen=start.board.fen(),
    )


def _follow(moment: Moment, square: chess.Square) -> chess.Square | None:
    """Return where a piece stands after the move that led to a position; None if it was taken."""
    move, parent = moment.move, moment.node.parent
    if move is None or parent is None:
        return square
    if move.from_square == square:
        return move.to_square
    before, after = parent.board(), moment.board
    return square if after.piece_at(square) == before.piece_at(square) else None


def _reach(board: chess.Board, square: chess.Square) -> int:
    """Return to how many squares a piece can go, as if its side were to move."""
    color = board.color_at(square)
    other = board.copy(stack=False)
    if color is not None and color != other.turn:
        other.turn = color
        other.ep_square = None
    return len({move.to_square for move in other.legal_moves if move.from_square == square})


def _point(moment: Moment, value: int, other: int | None = None) -> Point:
    return Point(
        address=moment.address,
        value=value,
        other=other,
        move="" if moment.move is None else moment.move.uci(),
        numbered=moment.numbered,
    )


def _check_stretch(start: object, end: object) -> None:
    check_moment(start, name="start")
    check_moment(end, name="end")


def _stretch(start: Moment, end: Moment) -> list[Moment]:
    """Return the positions from one to a later one."""
    moments = [end]
    while moments[-1] != start:
        earlier = moments[-1].back
        if earlier is None:
            raise LessonError(f"{end.label} does not follow from {start.label}")
        moments.append(earlier)
    if len(moments) < 2:
        raise LessonError("a chart needs a stretch of at least one move")
    return moments[::-1]


def _ahead(points: int) -> str:
    return "even" if not points else f"{SIDES[points > 0]} +{abs(points)}"


introduce(__name__)
