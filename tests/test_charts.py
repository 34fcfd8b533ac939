"""Charts: their numbers, their words, and that a point leads to its position."""

import xml.etree.ElementTree as ET

import pytest

from chessnb import Lesson, charts
from chessnb.errors import InputError, LessonError

GAME = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. Nxe5 Qd4 6. Nf3 Qxe4+ *")


def test_material_is_the_count_after_every_move():
    chart = charts.material(GAME)
    assert [point.value for point in chart.points] == [0, 0, 0, 0, 0, 0, 0, 3, 0, 1, 1, 1, 0]
    assert chart.summary == "even at the end, at most White +3 after 4. Bxc6"


def test_every_point_leads_to_its_moment():
    for point in charts.material(GAME).points[1:]:
        assert GAME.at(point.address).address == point.address


def test_pressure_on_a_square_counts_both_sides():
    chart = charts.pressure_on("e5", start=GAME.after("1... e5"), end=GAME.after("2... Nc6"))
    assert [(point.value, point.other) for point in chart.points] == [(0, 0), (1, 0), (1, 1)]
    assert chart.names == ("White attacks", "Black defends")


def test_a_piece_is_followed_until_it_is_taken():
    chart = charts.mobility("f1", start=GAME.start, end=GAME.end)
    assert [point.value for point in chart.points][:3] == [0, 5, 5]
    assert chart.points[-1].address == "4. Bxc6"


def test_a_chart_is_one_svg_with_words_and_no_script():
    chart = charts.material(GAME)
    root = ET.fromstring(chart.svg())
    assert root.get("role") == "img"
    assert chart.svg() == charts.material(GAME).svg()
    html = chart._repr_html_()
    assert "<script" not in html
    assert html.count("<tr>") == len(chart.points) + 1
    assert "chart, material" in chart.words


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (
            lambda: charts.mobility("e4", start=GAME.start, end=GAME.end),
            "nothing stands on e4 start",
        ),
        (lambda: charts.mobility("z9", start=GAME.start, end=GAME.end), "a square is a letter"),
        (
            lambda: charts.pressure_on("e5", start=GAME.end, end=GAME.start),
            "does not follow",
        ),
        (lambda: charts.material(Lesson.from_text("*")), "at least one move"),
    ],
)
def test_what_cannot_be_charted_is_said(make, words):
    with pytest.raises((LessonError, InputError), match=words):
        make()
