"""The one file of measures, colours and shapes."""

import itertools
import json
import math
import re
from importlib.resources import files
from pathlib import Path

import pytest
from diagrams.raster import apart, filled, lines

from chessnb.diagrams.ink import INK, INK_TEXT, number

MARK_COLOURS = (*INK["marks"], *INK["events"])


def luminance(colour: str) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""
    channels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_text_is_the_file_that_ships():
    assert files("chessnb.diagrams").joinpath("ink.json").read_text("utf-8") == INK_TEXT
    assert json.loads(INK_TEXT) == INK


def test_every_theme_has_every_colour():
    names = {"ink", "paper", "tint", "piece", *MARK_COLOURS}
    assert all(set(theme) == names for theme in INK["themes"].values())


def test_the_page_has_its_colours_in_both_themes_under_names_of_its_own():
    light, dark = INK["page"]["light"], INK["page"]["dark"]
    assert set(light) == set(dark)
    # In a style sheet they are custom properties beside the colours of the themes.
    assert not set(light) & {*INK["themes"]["light"], "black", "margin", "text", "soft", "focus"}


def test_colours_stand_nowhere_else():
    """A colour is changed in one file: no module and no style sheet writes one down."""
    for path in Path(str(files("chessnb"))).rglob("*"):
        if path.suffix in (".py", ".js", ".css"):
            text = path.read_text(encoding="utf-8")
            found = re.findall(r"#(?:[0-9a-fA-F]{6}|[0-9a-fA-F]{3})\b(?!\()", text)
            assert not found, (path.name, found)


def test_a_role_is_declared_whole():
    """What it is called, how it is said, and where it lies; a stroke alone leads to a second square."""
    for role, ink in INK["marks"].items():
        assert ink["label"]
        assert ink["layer"]
        assert "{square}" in ink["said"]
        assert ("{to}" in ink["said"]) == (ink["shape"] == "stroke"), role
    assert len({ink["layer"] for ink in INK["marks"].values()}) == len(INK["marks"])


def test_all_twelve_pieces_are_there_and_each_is_drawn_otherwise():
    assert list(INK["contours"]) == list("KQRBNP")
    assert list(INK["pieces"]) == [side + kind for side in "wb" for kind in "KQRBNP"]
    drawings = [json.dumps([INK["contours"][k[1]], shapes]) for k, shapes in INK["pieces"].items()]
    assert len(set(drawings)) == 12


def test_pieces_use_only_roles_and_colours_that_exist():
    for shapes in INK["pieces"].values():
        assert shapes[0] == {"role": "edge"}
        for shape in shapes:
            role = INK["roles"][shape["role"]]
            for theme in INK["themes"].values():
                assert {role["fill"], role["stroke"]} - {None} <= set(theme)


def test_white_pieces_are_paper_in_a_line_of_ink_and_black_pieces_are_full_of_ink():
    for name, shapes in INK["pieces"].items():
        body = {"w": "outline", "b": "solid"}[name[0]]
        assert [s["role"] for s in shapes if "d" not in s] == ["edge", body], name
    assert (INK["roles"]["outline"]["fill"], INK["roles"]["solid"]["fill"]) == ("piece", "ink")


def places(path: str) -> list[complex]:
    return [place for line in lines(path) for place in line]


def test_every_piece_stays_inside_its_square_with_its_rim():
    rim = INK["roles"]["edge"]["width"] / 2
    for kind, path in INK["contours"].items():
        for place in places(path):
            assert rim <= min(place.real, place.imag), (kind, place)
            assert max(place.real, place.imag) <= 45 - rim, (kind, place)


@pytest.mark.thorough
def test_what_is_drawn_inside_a_piece_stays_inside_its_contour():
    for name, shapes in INK["pieces"].items():
        piece = filled(INK["contours"][name[1]], size=90)
        for shape in shapes:
            # Half a pixel of the picture for rounded measures and cut curves.
            for x, y in {(int(p.real * 2), int(p.imag * 2)) for p in places(shape.get("d", ""))}:
                near = [(x + i, y + j) for i in (-1, 0, 1) for j in (-1, 0, 1)]
                assert any(place in piece for place in near), (name, shape["role"], x / 2, y / 2)


def test_every_piece_stands_on_the_same_line():
    for kind, path in INK["contours"].items():
        assert max(place.imag for place in places(path)) == 39.4, kind


@pytest.mark.thorough
def test_the_light_comes_from_the_left():
    """The right edge of each of White's pieces is the heavier one."""
    for kind, path in INK["contours"].items():
        spots = "".join(s["d"] for s in INK["pieces"]["w" + kind] if s["role"] == "spot")
        middle = sum(x * share for (x, _), share in filled(path, size=90).items())
        middle /= sum(filled(path, size=90).values())
        ink = filled(spots, size=90)
        right = sum(share for (x, _), share in ink.items() if x > middle)
        assert right > 0.6 * sum(ink.values()), kind


def test_a_picture_of_pixels_is_right():
    """Against the areas of a circle, of three quarters of one, and of a square with a hole."""
    circle = filled("M10 20a10 10 0 1 1 20 0a10 10 0 1 1 -20 0Z", size=90)
    assert sum(circle.values()) == pytest.approx(4 * math.pi * 100, rel=0.02)
    quarters = filled("M20 20V10A10 10 0 1 1 10 20Z", size=90)
    assert sum(quarters.values()) == pytest.approx(4 * 0.75 * math.pi * 100, rel=0.02)
    other = filled("M20 20V10A10 10 0 0 0 10 20Z", size=90)
    assert sum(other.values()) == pytest.approx(4 * 0.25 * math.pi * 100, rel=0.02)
    hole = filled("M5 5H35V35H5ZM10 10V20H20V10Z", size=45)
    assert sum(hole.values()) == pytest.approx(900 - 100)


@pytest.mark.parametrize(("one", "other"), list(itertools.combinations("KQRBNP", 2)))
def test_pieces_of_different_kinds_have_different_shapes_at_20_pixels(one, other):
    """By their black shape alone, and however they are laid upon each other.

    That 0.15 of the ink is enough to tell them is a rule of thumb
    (common practice, no source); the nearest, king and queen, bishop and pawn, have 0.2.
    """
    pictures = [filled(INK["contours"][kind], size=20) for kind in (one, other)]
    assert apart(*pictures, shift=2) > 0.15


def test_a_small_piece_is_still_the_same_piece():
    """The measure is no trick: the same shape, moved, is not another one."""
    for path in INK["contours"].values():
        picture = filled(path, size=20)
        shifted = {(x + 1, y - 1): share for (x, y), share in picture.items()}
        assert apart(picture, shifted, shift=2) == 0


def test_pieces_by_height():
    """King, queen, bishop, knight, rook, pawn: common practice, no source."""
    tops = {k: min(p.imag for p in places(path)) for k, path in INK["contours"].items()}
    assert sorted(tops, key=tops.__getitem__) == list("KQBNRP")


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_marks_stand_out(theme):
    """WCAG 2.2, success criterion 1.4.11: 3 to 1 for graphics, on their rim and on the tint."""
    colours = INK["themes"][theme]
    for name in MARK_COLOURS:
        assert contrast(colours[name], colours["paper"]) >= 3, name
        assert contrast(colours[name], colours["tint"]) >= 3, name


def test_contrast_is_worked_out_as_wcag_does():
    """WCAG 2.2: black on white is 21 to 1, and #767676 on white is just above 4.5."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert 4.5 < contrast("#767676", "#ffffff") < 4.6


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_the_hatch_darkens_a_square_without_hiding_a_black_piece(theme):
    """A hatched square, seen from afar, differs from paper and leaves ink 4.5 to 1."""
    colours, hatch = INK["themes"][theme], INK["hatch"]
    apart_by = 2 * INK["board"]["square"] / hatch["lines"] / math.sqrt(2)
    share = hatch["width"] / apart_by * hatch["opacity"]
    tone = (1 - share) * luminance(colours["tint"]) + share * luminance(colours["ink"])
    assert (tone + 0.05) / (luminance(colours["ink"]) + 0.05) >= 4.5
    # Printers call it a visible step; common practice, no source.
    assert (luminance(colours["paper"]) + 0.05) / (tone + 0.05) >= 1.2


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_letters_and_pieces_stand_out(theme):
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for text; our ink gives more to pieces."""
    colours = INK["themes"][theme]
    assert contrast(colours["ink"], colours["paper"]) >= 4.5
    assert contrast(colours["ink"], colours["tint"]) >= 4.5
    assert contrast(colours["ink"], colours["piece"]) >= 4.5


def test_print_is_one_colour():
    for name, colour in INK["themes"]["print"].items():
        assert colour[1:3] == colour[3:5] == colour[5:7], name


@pytest.mark.parametrize(
    ("value", "text"),
    [(45, "45"), (22.5, "22.5"), (0.05, "0.1"), (-0.05, "0"), (-1.26, "-1.3"), (404.75, "404.8")],
)
def test_numbers_have_one_decimal_at_most(value, text):
    assert number(value) == text
