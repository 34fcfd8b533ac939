"""A sheet over a folder: every game of every file once, and a file that cannot be used is told."""

import pytest

from chessnb import Lesson, questions
from chessnb.errors import GameFileError

FORK = '[White "A"]\n[FEN "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"]\n\n1. Nc7+ Kd7 2. Nxa8 *\n'
OTHER = '[White "B"]\n[FEN "4k2r/8/8/4N3/8/8/PPP5/1K6 w - - 0 1"]\n\n1. Ng6 Rh2 *\n'
THIRD = '[White "C"]\n[FEN "3rk3/8/8/8/5N2/8/5PPP/6K1 w - - 0 1"]\n\n1. Ne6 Rd1# *\n'
INNER = FORK.replace("5PPP", "6PP")
BLACK = '[White "E"]\n[FEN "6k1/5ppp/8/8/3n4/8/8/R3K3 b - - 0 1"]\n\n1... Nc2+ 2. Kd2 Nxa1 *\n'


@pytest.fixture
def course(tmp_path):
    (tmp_path / "b.PGN").write_text(f"{OTHER}\n{BLACK}", encoding="utf-8")
    (tmp_path / "a.pgn").write_text(f"{FORK}\n{THIRD}", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("no game", encoding="utf-8")
    (tmp_path / "inner").mkdir()
    (tmp_path / "inner" / "c.pgn").write_text(INNER, encoding="utf-8")
    return tmp_path


def test_a_sheet_is_made_of_every_game_in_a_folder(course):
    sheet = questions.collect(course, motif="fork")
    assert {question.right[0].text for question in sheet} == {"Nc7+", "Nc2+"}
    assert len(questions.collect(course / "inner", motif="fork")) == 1
    in_games = [Lesson.from_text(text) for text in (FORK, THIRD, OTHER, BLACK)]
    assert str(sheet) == str(questions.collect(in_games, motif="fork"))
    of_one_file = questions.collect(str(course / "a.pgn"))
    assert {question.right[0].text for question in of_one_file} == {"Nc7+", "Nxa8", "Rd1#"}


def test_positions_that_are_saved_behind_a_game_are_no_games_of_their_own(tmp_path):
    lesson = Lesson.from_text(FORK)
    lesson.add_position("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", name="rook")
    lesson.save(tmp_path / "one.pgn")
    assert str(questions.collect(tmp_path)) == str(questions.collect(lesson))


def test_what_cannot_be_used_is_told(tmp_path):
    with pytest.raises(GameFileError, match="no game file"):
        questions.collect(tmp_path)
    with pytest.raises(GameFileError):
        questions.collect(tmp_path / "missing.pgn")
    (tmp_path / "bad.pgn").write_text("1. e4 e5 2. Ke4", encoding="utf-8")
    with pytest.raises(GameFileError, match=r"bad\.pgn"):
        questions.collect(tmp_path)
