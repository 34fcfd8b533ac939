"""The one file of measures, colours and shapes."""

import json
import re
from importlib.resources import files

import pytest

from chessnb.diagram.ink import INK, INK_TEXT, number

MARK_COLOURS = ("actor", "target", "force", "blocked", "lure", "last", "check")


def luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_text_is_the_file_that_ships():
    assert files("chessnb.diagram").joinpath("ink.json").read_text("utf-8") == INK_TEXT
    assert json.loads(INK_TEXT) == INK


def test_all_twelve_men_are_there_and_each_has_its_own_shape():
    assert list(INK["pieces"]) == [side + kind for side in "wb" for kind in "KQRBNP"]
    drawings = [json.dumps(shapes) for shapes in INK["pieces"].values()]
    assert len(set(drawings)) == 12


def test_men_use_only_roles_and_colours_that_exist():
    for shapes in INK["pieces"].values():
        assert shapes[0]["role"] == "edge"
        for shape in shapes:
            role = INK["roles"][shape["role"]]
            for theme in INK["themes"].values():
                assert {role["fill"], role["stroke"]} - {None} <= set(theme)


def corners(path: str) -> list[tuple[float, float]]:
    """Return the points of a path; those that steer a curve count as well."""
    lengths = {"M": 2, "L": 2, "C": 6, "A": 7, "a": 7, "H": 1, "V": 1, "Z": 0}
    x = y = 0.0
    found = []
    for command, text in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        numbers = [float(number) for number in text.split()]
        assert len(numbers) == lengths[command], path
        if command == "a":
            x, y = x + numbers[5], y + numbers[6]
        elif command in "HV":
            x, y = (numbers[0], y) if command == "H" else (x, numbers[0])
        elif command == "C":
            found += [(numbers[0], numbers[1]), (numbers[2], numbers[3])]
            x, y = numbers[4:]
        elif command != "Z":
            x, y = numbers[-2:]
        found.append((x, y))
    return found


def test_every_man_stays_inside_its_square_with_its_rim():
    rim = INK["roles"]["edge"]["width"] / 2
    for name, shapes in INK["pieces"].items():
        for shape in shapes:
            for place in corners(shape["d"]):
                assert rim <= min(place), (name, place)
                assert max(place) <= 45 - rim, (name, place)


def test_every_man_stands_on_the_same_line():
    for name, shapes in INK["pieces"].items():
        assert max(y for _, y in corners(shapes[0]["d"])) == 39.4, name


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_marks_stand_out_from_paper(theme):
    """WCAG 2.2, success criterion 1.4.11: 3 to 1 for graphics."""
    colours = INK["themes"][theme]
    for name in MARK_COLOURS:
        assert contrast(colours[name], colours["paper"]) >= 3, name


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_letters_and_black_men_stand_out(theme):
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text."""
    colours = INK["themes"][theme]
    assert contrast(colours["ink"], colours["paper"]) >= 4.5
    assert contrast(colours["ink"], colours["tint"]) >= 4.5
    assert contrast(colours["ink"], colours["man"]) >= 4.5


def test_print_is_one_colour():
    for name, colour in INK["themes"]["print"].items():
        assert colour[1:3] == colour[3:5] == colour[5:7], name


@pytest.mark.parametrize(
    ("value", "text"),
    [(45, "45"), (22.5, "22.5"), (0.05, "0.1"), (-0.05, "0"), (-1.26, "-1.3"), (404.75, "404.8")],
)
def test_numbers_have_one_decimal_at_most(value, text):
    assert number(value) == text
