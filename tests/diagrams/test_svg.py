"""The board's SVG: every piece in its place, safe, and the same every time."""

import itertools
import random
import re
import xml.etree.ElementTree as ElementTree

import chess
import pytest
from diagrams.raster import lines

from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.diagrams.ink import INK, number

THEMES = ["auto", "light", "dark", "print"]
SVG = "{http://www.w3.org/2000/svg}"
BOARD = INK["board"]
SIDE = BOARD["square"]
NASTY = "<script>alert(\"x\")</script> & 'quotes' ]]> --> $x$ \x00\x1b \ud800 \N{WHITE CHESS KING}"


def random_boards(count: int) -> list[chess.Board]:
    """Return positions reached by random legal moves, always the same ones."""
    dice = random.Random(64)
    boards = []
    for _ in range(count):
        board = chess.Board()
        for _ in range(dice.randrange(120)):
            moves = list(board.legal_moves)
            if not moves:
                break
            board.push(dice.choice(moves))
        boards.append(board)
    return boards


def pieces_seen(svg: str, *, turned: bool) -> dict[chess.Square, str]:
    """Read the pieces back from where they are drawn."""
    pieces = {}
    for use in ElementTree.fromstring(svg).iter(f"{SVG}use"):
        if not re.search("-[wb][KQRBNP]$", use.get("href")):
            continue
        column = (int(use.get("x")) - BOARD["left"]) // SIDE
        row = (int(use.get("y")) - BOARD["top"]) // SIDE
        square = chess.square(7 - column, row) if turned else chess.square(column, 7 - row)
        side, kind = use.get("href")[-2:]
        assert square not in pieces
        pieces[square] = kind if side == "w" else kind.lower()
    return pieces


@pytest.mark.parametrize("turned", [False, True])
def test_every_piece_is_on_its_square(turned):
    """Against python-chess's ``piece_map``."""
    for board in random_boards(40):
        svg = diagram(board, turned=turned).svg(theme="light")
        expected = {square: piece.symbol() for square, piece in board.piece_map().items()}
        assert pieces_seen(svg, turned=turned) == expected


def dark_corners() -> set[tuple[int, int]]:
    """Where the dark squares are.

    FIDE Laws of Chess, article 2.1: the near corner square to the right of the
    player is light, from either side; so the one to the left is dark.
    """
    left = {(column, row) for row in range(8) for column in range(8) if (7 - row + column) % 2 == 0}
    assert (0, 7) in left
    return {(BOARD["left"] + SIDE * column, BOARD["top"] + SIDE * row) for column, row in left}


@pytest.mark.parametrize("turned", [False, True])
def test_dark_squares_are_tinted_and_hatched(turned):
    root = ElementTree.fromstring(
        diagram("8/8/8/8/8/8/8/8 w - - 0 1", turned=turned).svg(theme="light")
    )
    (tint,) = [
        e for e in root.iter(f"{SVG}path") if e.get("fill") == INK["themes"]["light"]["tint"]
    ]
    corners = re.findall(rf"M(\d+) (\d+)h{SIDE}v{SIDE}h-{SIDE}Z", tint.get("d"))
    assert sorted((int(x), int(y)) for x, y in corners) == sorted(dark_corners())
    assert sorted(hatched(root)) == sorted(dark_corners())


def hatched(root: ElementTree.Element) -> list[tuple[int, int]]:
    """Return where the hatch of a square is used, through the rows that use it."""
    uses = [use for use in root.iter(f"{SVG}use") if use.get("href").endswith("-hatch")]
    rows = [use for use in root.iter(f"{SVG}use") if use.get("href").endswith("-row")]
    return [
        (int(row.get("x")) + int(use.get("x")), int(row.get("y"))) for row in rows for use in uses
    ]


def test_the_hatch_rises_evenly_inside_its_square():
    (path,) = [
        e.get("d")
        for e in ElementTree.fromstring(diagram("start").svg(theme="print")).iter(f"{SVG}path")
        if e.get("id") == "chessnb-print-hatch"
    ]
    strokes = lines(path)
    assert all(min(p.real, p.imag) >= 0 and max(p.real, p.imag) <= 45 for s in strokes for p in s)
    assert all(p.real + p.imag == pytest.approx(s[0].real + s[0].imag) for s in strokes for p in s)
    assert all(start.real < end.real and start.imag > end.imag for start, end in strokes)
    heights = [start.real + start.imag for start, _ in strokes]
    steps = [after - before for before, after in itertools.pairwise(heights)]
    assert steps == pytest.approx([90 / 14] * 13, abs=0.21)  # measures have one decimal
    # It is the same from Black's side, and meets itself at no corner.
    assert [90 - height for height in reversed(heights)] == pytest.approx(heights, abs=0.21)


@pytest.mark.parametrize("theme", THEMES)
def test_no_pattern_is_used(theme):
    """Chromium prints an SVG pattern as a coarse picture, and not as lines."""
    svg = diagram("start").svg(theme=theme)
    assert "<pattern" not in svg
    assert "<filter" not in svg
    assert "url(" not in svg


@pytest.mark.parametrize(("turned", "first"), [(False, ("8", "a")), (True, ("1", "h"))])
def test_coordinates_follow_the_side_of_view(turned, first):
    root = ElementTree.fromstring(diagram("start", turned=turned).svg())
    letters = [text.text for text in root.iter(f"{SVG}text")]
    assert (letters[0], letters[8]) == first
    assert sorted(letters) == sorted("12345678abcdefgh")


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("turn", ["w", "b"])
def test_the_square_of_the_side_to_move_is_at_that_sides_edge(turned, turn):
    root = ElementTree.fromstring(
        diagram(f"4k3/8/8/8/8/8/8/4K3 {turn} - - 0 1", turned=turned).svg(theme="print")
    )
    (box,) = [r for r in root.iter(f"{SVG}rect") if r.get("width") == number(INK["turn"]["side"])]
    assert (box.get("fill") == "#000000") == (turn == "b")
    assert (float(box.get("y")) > BOARD["height"] / 2) == ((turn == "w") != turned)


@pytest.mark.parametrize("theme", THEMES)
def test_the_same_diagram_has_the_same_bytes(theme):
    first = Diagram(fen=chess.STARTING_FEN, marks=(Mark(role="actor", square="e2"),))
    again = Diagram(fen=chess.STARTING_FEN, marks=(Mark(role="actor", square="e2"),))
    assert first.svg(theme=theme).encode() == again.svg(theme=theme).encode()


@pytest.mark.parametrize("theme", THEMES)
def test_a_caption_full_of_markup_stays_text(theme):
    root = ElementTree.fromstring(diagram("start", caption=NASTY).svg(theme=theme).encode())
    assert root[0].tag == f"{SVG}title"
    assert root[0].text == NASTY.translate(dict.fromkeys([0x00, 0x1B, 0xD800]))
    assert not list(root.iter(f"{SVG}script"))


@pytest.mark.parametrize("theme", THEMES)
def test_nothing_is_fetched(theme):
    svg = diagram("start", marks=[Mark(role="force", square="e2", to="e4")]).svg(theme=theme)
    assert svg.replace('xmlns="http://www.w3.org/2000/svg"', "").count("http") == 0
    assert not re.search(r"@import|@font-face|javascript:|data:|url\((?!#)|href=\"(?!#)", svg)


def test_ids_are_unique_in_a_diagram_and_mean_the_same_in_every_diagram():
    meanings: dict[str, bytes] = {}
    for theme in THEMES:
        for board in random_boards(6):
            root = ElementTree.fromstring(diagram(board).svg(theme=theme))
            named = [e for e in root.iter() if e.get("id")]
            assert len({e.get("id") for e in named}) == len(named)
            for element in named:
                element.tail = None
                drawn = ElementTree.tostring(element)
                assert meanings.setdefault(element.get("id"), drawn) == drawn
    assert len(meanings) == 4 * (2 + 6 + 12)  # hatch and row, contours, pieces


@pytest.mark.parametrize("theme", THEMES)
def test_every_reference_is_defined(theme):
    svg = diagram("start").svg(theme=theme)
    ids = set(re.findall(r' id="([^"]+)"', svg))
    assert set(re.findall(r'(?:href="|url\()#([^")]+)', svg)) == ids


def test_only_auto_brings_a_style_sheet_and_it_is_for_screens():
    for theme in ["light", "dark", "print"]:
        svg = diagram("start").svg(theme=theme)
        assert "<style" not in svg
        assert " class=" not in svg
    (style,) = re.findall("<style>(.*?)</style>", diagram("start").svg())
    assert style.startswith("@media screen and (prefers-color-scheme:dark){.chessnb-fill-ink{")


def test_auto_is_the_light_diagram_where_no_style_sheet_is_known():
    auto = diagram("start").svg()
    plain = re.sub(r'<style>.*?</style>| class="[^"]*"', "", auto).replace("-auto-", "-light-")
    assert plain == diagram("start").svg(theme="light")


def test_a_set_up_that_cannot_be_played_is_drawn():
    for fen in ["8/8/8/8/8/8/8/8 b - - 0 1", "KKKKKKKK/8/8/8/8/8/8/pppppppp w - - 0 1"]:
        board = chess.Board(fen)
        expected = {square: piece.symbol() for square, piece in board.piece_map().items()}
        assert pieces_seen(diagram(fen).svg(), turned=False) == expected


def test_a_diagram_is_small():
    """A lesson holds dozens of them, as text."""
    assert len(diagram("start").svg()) < 15_500
    assert len(diagram("4k3/8/8/8/8/8/8/4K3 w - - 0 1").svg()) < 6_000


def test_what_a_dashed_stroke_is_seen_through_stays_whole():
    """Dashed strokes pass behind the pieces, lines of force before them."""
    marks = [
        Mark(role="force", square="a1", to="a8"),
        Mark(role="blocked", square="a1", to="h8"),
        *(Mark(role=role, square="d4") for role in ("actor", "target", "lure")),
    ]
    svg = diagram("4k3/8/8/8/3N4/8/8/4K3 w - - 0 1", marks=marks).svg(theme="light")
    colours = INK["themes"]["light"]
    places = {mark.role: svg.rindex(f'stroke="{colours[mark.role]}"') for mark in marks}
    first, last = svg.index('-bK" x='), svg.rindex('-wK" x=')
    assert places.pop("force") > last
    assert max(places.values()) < first
