"""Lists of positions become lessons; a line that is none is named."""

import chess
import pytest

from chessnb.errors import GameFileError
from chessnb.lessons.position_files import is_position_file, read_position_file

LIST = """\ufeff
# Two to begin with.
6k1/5ppp/8/8/8/8/8/R3K3 w - - bm Ra8#; id "the plain one"; c0 "Count the flights.";

r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 3 17
8/8/8/4k3/8/8/4P3/4K3 b - - id "the plain one";
8/8/8/4k3/8/8/4P3/4K3 w - - pv Kd2 Kd4 e3+;
"""


def write(folder, text, name="first_steps.epd"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_names_notes_and_answers_are_read(tmp_path):
    lesson = read_position_file(write(tmp_path, LIST), level="club")
    assert lesson.game is None
    assert (lesson.title, lesson.level) == ("First steps", "club")
    assert list(lesson.positions) == ["the plain one", "diagram 2", "diagram 3", "diagram 4"]
    first = lesson.at("the plain one")
    assert first.comment == "Count the flights."
    assert first.next.san == "Ra8#"
    assert lesson.at("diagram 2").fen.endswith("w - - 3 17")
    assert lesson.at("diagram 2").next is None
    assert lesson.at("diagram 3").turn == chess.BLACK
    line = lesson.positions["diagram 4"].mainline_moves()
    assert [move.uci() for move in line] == ["e1d2", "e5d4", "e2e3"]


def test_the_title_may_be_given(tmp_path):
    path = write(tmp_path, LIST, "x.fen")
    assert read_position_file(path, title="King walks").title == "King walks"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "no position"),
        ("# nothing yet\n\n", "no position"),
        ("1. e4 e5", "line 1: is no position"),
        ("4k3/8/8/8/8/8/8/4K3 w - -\nrubbish", "line 2: is no position"),
        ("4k3/8/8/8/8/8/8/8 w - -", "line 1: is no position"),
        ("4k3/8/8/8/8/8/8/4K3 w - - bm Qh8;", "line 1: is no position"),
    ],
)
def test_what_is_no_list_is_refused_with_its_line(tmp_path, text, reason):
    with pytest.raises(GameFileError, match=reason):
        read_position_file(write(tmp_path, text))


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(GameFileError, match="cannot be read"):
        read_position_file(tmp_path / "missing.epd")


def test_lists_are_told_by_their_names():
    assert is_position_file("a.EPD")
    assert is_position_file("b.fen")
    assert not is_position_file("a.pgn")
