"""A diagram as a value, and what a notebook shows of it."""

import base64
import re
from html.parser import HTMLParser

import chess
import pytest

from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.errors import InputError, PositionError
from chessnb.findings import CLOSING, OPENING

FULL = Diagram(
    fen="rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2",
    turned=True,
    last_move="e7e5",
    marks=(Mark(role="actor", square="e5"), Mark(role="blocked", square="e4", to="e5")),
    caption='it\'s "open" <b>',
)


class Tags(HTMLParser):
    """Collects start tags and text as a browser would see them."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text += data


def tags(html: str) -> Tags:
    reader = Tags()
    reader.feed(html)
    reader.close()
    return reader


def test_the_repr_reads_back():
    assert eval(repr(FULL), {"Diagram": Diagram, "Mark": Mark}) == FULL


def test_the_plain_text_is_one_exact_line():
    """Saved in lessons and compared by nbval: a change here turns every course red."""
    bundle = FULL._repr_mimebundle_()
    assert bundle["text/plain"] == (
        "diagram: rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2"
    )
    assert sorted(bundle) == ["text/html", "text/plain"]


def test_the_image_holds_the_svg_and_says_the_position():
    ((tag, attributes),) = tags(FULL.img(size=280)).tags
    assert tag == "img"
    assert (attributes["width"], attributes["height"]) == ("280", "280")
    data = attributes["src"].removeprefix("data:image/svg+xml;base64,")
    assert base64.b64decode(data, validate=True).decode() == FULL.svg(size=280)
    assert attributes["alt"] == f"{FULL.caption}. {FULL.words}"


def test_the_html_is_what_the_sanitize_file_blanks():
    html = FULL._repr_html_()
    assert html.startswith(OPENING)
    assert html.endswith(CLOSING)
    assert html.count(CLOSING) == 1


def test_a_caption_is_shown_and_escaped():
    seen = tags(FULL._repr_html_())
    assert [tag for tag, _ in seen.tags] == ["div", "img", "p"]
    assert seen.text == FULL.caption
    assert "<p" not in diagram("start")._repr_html_()


def test_a_caption_cannot_end_the_blanked_part():
    html = diagram("start", caption=CLOSING)._repr_html_()
    assert html.count(CLOSING) == 1


def test_board_moment_and_fen_make_the_same_diagram():
    class Moment:
        board = chess.Board()

    assert diagram(chess.Board()) == diagram("start") == diagram(Moment())
    assert diagram(chess.STARTING_FEN) == Diagram(fen=" ".join(chess.STARTING_FEN.split()[:4]))


def test_the_board_handed_in_is_not_changed():
    board = chess.Board()
    board.push_san("e4")
    before = board.copy()
    diagram(board, last_move=board.peek()).svg()
    assert board == before
    assert board.move_stack == before.move_stack


def test_a_diagram_is_itself_a_position():
    assert diagram(FULL, turned=True).fen == FULL.fen
    FULL.board.clear()
    assert FULL.board.fen() == FULL.fen


def test_a_pass_is_no_last_move():
    assert diagram("start", last_move=chess.Move.null()).last_move is None


@pytest.mark.parametrize("text", ["e2", "0000", "P@e4", "Nf3", "e2e9", ""])
def test_a_last_move_that_is_none_is_refused(text):
    with pytest.raises(InputError, match=re.escape("such as 'g1f3'")):
        Diagram(fen=chess.STARTING_FEN, last_move=text)


def test_what_is_not_a_position_is_refused():
    with pytest.raises(PositionError, match="rank 1"):
        diagram("8/8/8/8/8/8/8/9 w - - 0 1")


@pytest.mark.parametrize("size", [160, 161, 900])
def test_sizes_within_bounds(size):
    assert f' width="{size}" height="{size}" ' in diagram("start").svg(size=size)


@pytest.mark.parametrize("size", [159, 901, 0, -1, 280.5])
def test_sizes_out_of_bounds_are_refused(size):
    with pytest.raises(ValueError, match="160 to 900 pixels"):
        diagram("start").svg(size=size)


def test_an_unknown_theme_is_refused():
    with pytest.raises(
        InputError, match="a theme is 'auto', 'light', 'dark' or 'print', not 'sepia'"
    ):
        diagram("start").svg(theme="sepia")


@pytest.mark.parametrize(
    "move", ["Nf3", "Ng1-f3", "g1f3", "knight to f3", chess.Move.from_uci("g1f3")]
)
def test_the_last_move_is_read_in_any_notation_where_the_moves_are_known(move):
    board = chess.Board()
    board.push_san("Nf3")
    assert diagram(board, last_move=move).last_move == "g1f3"


def test_where_the_moves_are_not_known_the_last_move_is_two_squares():
    with pytest.raises(InputError, match="written by its two squares"):
        diagram("start", last_move="Nf3")
    assert diagram("start", last_move="g1f3").last_move == "g1f3"


def test_a_diagram_keeps_a_position_and_a_last_move_by_their_names():
    move = chess.Move.from_uci("e2e1")
    made = Diagram(fen=chess.Board("8/8/8/8/8/8/8/4K2k b - -"), last_move=move)
    assert made == Diagram(fen="8/8/8/8/8/8/8/4K2k b - -", last_move="e2e1")
