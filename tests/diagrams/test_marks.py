"""Marks: what may be drawn, and what it looks like."""

import itertools
import re
import xml.etree.ElementTree as ElementTree

import chess
import pytest
from diagrams.raster import Pixels, apart, inked

from chessnb.diagrams import Mark, diagram
from chessnb.diagrams.ink import INK, number
from chessnb.diagrams.marks import ROLES, STROKES, event, over_pieces, under_pieces
from chessnb.diagrams.pen import Pen
from chessnb.errors import InputError

EMPTY = "4k3/8/8/8/8/8/8/4K3 w - - 0 1"
BOARD = INK["board"]


def strokes(svg: str, role: str) -> list[dict[str, str]]:
    """Return the attributes of everything inked in the colour of a role."""
    root = ElementTree.fromstring(svg)
    colour = INK["themes"]["light"][role]
    return [e.attrib for e in root.iter() if e.get("stroke") == colour]


def drawn(*marks: Mark, turned: bool = False) -> str:
    return diagram(EMPTY, marks=marks, turned=turned).svg(theme="light")


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"[ML]([-\d.]+) ([-\d.]+)", path)]


def middle(square: str, *, turned: bool = False) -> tuple[float, float]:
    """Where a square's middle is, worked out from the measures of the board."""
    column, row = "abcdefgh".index(square[0]), 8 - int(square[1])
    if turned:
        column, row = 7 - column, 7 - row
    side = BOARD["square"]
    return BOARD["left"] + side * (column + 0.5), BOARD["top"] + side * (row + 0.5)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("role", [role for role in ROLES if role not in STROKES])
def test_a_mark_on_a_square_is_drawn_within_that_square(role, turned):
    (stroke,) = strokes(drawn(Mark(role=role, square="c6"), turned=turned), role)
    centre = middle("c6", turned=turned)
    for x, y in points(stroke["d"]):
        assert abs(x - centre[0]) < BOARD["square"] / 2
        assert abs(y - centre[1]) < BOARD["square"] / 2


def pictures(end: str) -> dict[str, Pixels]:
    """Return every mark on c3 (strokes go to `end`) as pixels, 45 for each square."""
    pen = Pen(theme="print")
    drawings = {name: event(pen, name, chess.C3) for name in INK["events"]}
    for role in ROLES:
        mark = Mark(role=role, square="c3", to=end if role in STROKES else None)
        drawings[role] = under_pieces(pen, [mark]) + over_pieces(pen, [mark])
    return {role: ink_of(drawing, role) for role, drawing in drawings.items()}


def ink_of(drawing: str, role: str) -> Pixels:
    """Return the pixels under the pen, without the rims of paper."""
    wide = f'stroke-width="{(INK["marks"] | INK["events"])[role]["width"]}"'
    paths = re.findall(rf'd="([^"]*)"[^>]*{wide}(?: stroke-dasharray="([\d. ]+)")?', drawing)
    assert paths, role
    touched: Pixels = {}
    for path, dash in paths:
        touched |= inked(path, dash=dash or None, size=45)
    return touched


@pytest.mark.parametrize("end", ["c4", "d3", "d4", "f6", "e4", "c8"])
def test_shapes_differ_without_colour(end):
    """Of the ink of two marks, laid on each other, two fifths at least is in one of them only."""
    drawn = pictures(end)
    for one, other in itertools.combinations(drawn, 2):
        assert apart(drawn[one], drawn[other], shift=1) > 0.4, (one, other)


def test_a_dotted_outline_is_dots_and_a_dashed_stroke_is_dashes():
    """Against a whole line in the same place: what is left out tells them apart."""
    drawn = pictures("f6")
    for role, most in (("lure", 0.35), ("blocked", 0.7)):
        whole = ink_of(re.sub(' stroke-dasharray="[^"]*"', "", _drawing(role)), role)
        assert drawn[role].keys() <= whole.keys()
        assert len(drawn[role]) < most * len(whole)


def _drawing(role: str) -> str:
    pen = Pen(theme="print")
    return under_pieces(pen, [Mark(role=role, square="c3", to="f6" if role in STROKES else None)])


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(("start", "end"), [("d1", "h5"), ("e4", "e5"), ("g1", "f3"), ("h8", "a1")])
def test_a_line_of_force_points_at_its_target(start, end, turned):
    (stroke,) = strokes(drawn(Mark(role="force", square=start, to=end), turned=turned), "force")
    tail, tip, wing, again, other = points(stroke["d"])
    goal = middle(end, turned=turned)

    def away(point: tuple[float, float]) -> float:
        return ((point[0] - goal[0]) ** 2 + (point[1] - goal[1]) ** 2) ** 0.5

    assert tip == again
    assert away(tip) < BOARD["square"] / 2
    assert away(tip) < away(wing)
    assert away(wing) == pytest.approx(away(other), abs=0.2)
    assert away(tip) < away(tail)


def test_a_blocked_line_is_dashed_and_has_no_head():
    (stroke,) = strokes(drawn(Mark(role="blocked", square="b5", to="e8")), "blocked")
    assert stroke["stroke-dasharray"]
    assert len(points(stroke["d"])) == 2


def test_marks_do_not_depend_on_the_order_in_which_roles_are_given():
    one, other = Mark(role="actor", square="e1"), Mark(role="lure", square="e8")
    pictures = [re.sub("<desc>.*?</desc>", "", drawn(*m)) for m in ((one, other), (other, one))]
    assert pictures[0] == pictures[1]


def test_a_check_rings_the_king_twice_and_no_check_does_not():
    checked = diagram("4k3/8/8/8/8/8/4r3/4K3 w - - 0 1").svg(theme="print")
    calm = diagram("4k3/8/8/8/8/8/3r4/4K3 b - - 0 1").svg(theme="print")
    for radius in (INK["events"]["check"]["radius"], INK["events"]["check"]["inner"]):
        arc = f"a{number(radius)} {number(radius)}"
        assert checked.count(arc) == 4  # two half circles, each over its rim of paper
        assert arc not in calm


def test_the_last_move_underlines_its_two_squares():
    board = chess.Board()
    move = board.push_san("Nf3")
    lines = strokes(diagram(board, last_move=move).svg(theme="light"), "last")
    ink, half = INK["events"]["last"], BOARD["square"] / 2
    lines = [
        line["d"] for line in lines if re.fullmatch(r"M[\d.]+ [\d.]+h[\d.]+", line.get("d", ""))
    ]
    starts = [points(line)[0] for line in lines]
    assert [(x - ink["inset"] + half, y - ink["drop"] + half) for x, y in starts] == [
        pytest.approx(middle("g1")),
        pytest.approx(middle("f3")),
    ]


def test_the_last_move_is_not_guessed():
    board = chess.Board()
    board.push_san("Nf3")
    assert diagram(board).last_move is None


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"role": "star", "square": "e4"}, "a mark's role is one of actor, target"),
        ({"role": "actor", "square": "i9"}, "a square is a letter from a to h"),
        ({"role": "actor", "square": 64}, "such as 'e4'"),
        ({"role": "force", "square": "e4"}, "say where it ends"),
        ({"role": "force", "square": "e4", "to": "e9"}, "a square is a letter from a to h"),
        ({"role": "blocked", "square": "e4", "to": "e4"}, "two different squares"),
        ({"role": "lure", "square": "e4", "to": "e5"}, "is on one square; only 'force' and"),
    ],
)
def test_a_wrong_mark_is_refused_in_words(fields, words):
    with pytest.raises(InputError, match=re.escape(words)):
        Mark(**fields)


def test_what_is_not_a_mark_is_refused():
    with pytest.raises(InputError, match="a mark is written Mark"):
        diagram(EMPTY, marks=["e4"])


def test_marks_of_one_square_are_equal_however_it_is_given():
    assert Mark(role="force", square=chess.E4, to="E5 ") == Mark(role="force", square="e4", to="e5")
