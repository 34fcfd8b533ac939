"""Exercises on paper: from real games to the PDF, and nothing on the sheet that tells an answer."""

import re

import pytest

from chessnb.errors import InputError, LessonError, NotebookError
from chessnb.notebooks.drafting import draft
from chessnb.publishing import Paper, print_exercises
from chessnb.publishing.exercise_sheet import positions_of
from publishing.test_paper import text_of

FORK = """[Event "First $x$ #show"]
[White "A"]
[Black "B"]
[SetUp "1"]
[FEN "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"]

1. Nc7+ Kd7 2. Nxa8 *

[Event "Second"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1"]

1. Ra8# 1-0
"""


@pytest.fixture(scope="module")
def games(tmp_path_factory):
    folder = tmp_path_factory.mktemp("games")
    (folder / "course.pgn").write_text(FORK, encoding="utf-8")
    return folder


def plain(path):
    return re.sub(r"\s+", " ", text_of(path))


def test_a_sheet_asks_and_its_key_answers(games, tmp_path):
    letters = Paper(letters="english")
    sheet = print_exercises([games], tmp_path / "sheet.pdf", paper=letters)
    assert sheet.in_words == "the exercises, 1 page, 2 positions to solve."
    text = plain(sheet.path)
    assert "White to move." in text
    assert "mates in one" in text
    assert "Nc7" not in text
    assert "Ra8" not in text
    key = print_exercises([games], tmp_path / "key.pdf", key=True, paper=letters)
    assert key.in_words == "the key to the exercises, 1 page, 2 positions to solve."
    told = plain(key.path)
    assert "1. Nc7+" in told
    assert "Nxa8" in told
    assert "1. Ra8#" in told


def test_a_tactic_a_number_and_a_title_are_chosen(games, tmp_path):
    done = print_exercises(
        [games / "course.pgn"], tmp_path / "a.pdf", motif="fork", title="Forks for Thursday",
        paper=Paper(size="letter", large=True),
    )  # fmt: skip
    assert done.questions == 1
    assert "Forks for Thursday" in text_of(done.path)
    told = []
    print_exercises([games], tmp_path / "b.pdf", count=1, on_game=lambda *far: told.append(far))
    assert told == [(1, 2), (2, 2)]


def test_what_is_not_found_or_cannot_be_is_said_and_nothing_is_written(games, tmp_path):
    target = tmp_path / "none.pdf"
    with pytest.raises(NotebookError, match="no exercise of the kind “skewer” was found"):
        print_exercises([games], target, motif="skewer")
    with pytest.raises(LessonError, match="tactic"):
        print_exercises([games], target, motif="swindle")
    with pytest.raises(InputError, match="level"):
        print_exercises([games], target, level="genius")
    with pytest.raises(NotebookError, match="a name that ends in"):
        print_exercises([games], games / "course.pgn")
    assert not target.exists()


@pytest.mark.thorough
def test_homework_leaves_out_what_the_lesson_asks(games, tmp_path):
    lesson = tmp_path / "lesson.ipynb"
    draft(games / "course.pgn", lesson, game=2)
    assert positions_of(lesson)
    left = print_exercises([games], tmp_path / "home.pdf", without=[lesson])
    assert left.questions == 1
