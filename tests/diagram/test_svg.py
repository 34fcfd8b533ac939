"""The board's SVG: every man in its place, safe, and the same every time."""

import random
import re
import xml.etree.ElementTree as ElementTree

import chess
import pytest

from chessnb.diagram import Diagram, Mark, diagram

THEMES = ["auto", "light", "dark", "print"]
SVG = "{http://www.w3.org/2000/svg}"
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


def men_seen(svg: str, *, turned: bool) -> dict[chess.Square, str]:
    """Read the men back from where they are drawn."""
    men = {}
    for use in ElementTree.fromstring(svg).iter(f"{SVG}use"):
        column, row = (int(use.get("x")) - 22) // 45, (int(use.get("y")) - 14) // 45
        square = chess.square(7 - column, row) if turned else chess.square(column, 7 - row)
        side, kind = use.get("href")[-2:]
        assert square not in men
        men[square] = kind if side == "w" else kind.lower()
    return men


@pytest.mark.parametrize("turned", [False, True])
def test_every_man_is_on_its_square(turned):
    """Against python-chess's ``piece_map``."""
    for board in random_boards(40):
        svg = diagram(board, turned=turned).svg(theme="light")
        expected = {square: man.symbol() for square, man in board.piece_map().items()}
        assert men_seen(svg, turned=turned) == expected


@pytest.mark.parametrize("turned", [False, True])
def test_dark_squares_are_the_dark_ones(turned):
    svg = diagram("8/8/8/8/8/8/8/8 w - - 0 1", turned=turned).svg(theme="light")
    hatched = [e for e in ElementTree.fromstring(svg).iter() if "hatch" in e.get("fill", "")]
    corners = re.findall(r"M(\d+) (\d+)", hatched[0].get("d"))
    # FIDE Laws of Chess, article 2.1: the near corner square to the right of
    # the player is light, from either side; so the one to the left is dark.
    assert ("22", str(14 + 7 * 45)) in corners
    assert (str(22 + 7 * 45), str(14 + 7 * 45)) not in corners
    assert len(set(corners)) == 32


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
    (box,) = [r for r in root.iter(f"{SVG}rect") if r.get("width") == "9"]
    assert (box.get("fill") == "#000000") == (turn == "b")
    assert (float(box.get("y")) > 200) == ((turn == "w") != turned)


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
    assert len(meanings) == 4 * 13


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
        expected = {square: man.symbol() for square, man in board.piece_map().items()}
        assert men_seen(diagram(fen).svg(), turned=False) == expected
