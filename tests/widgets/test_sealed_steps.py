"""A sealed lesson outside a notebook: what a step says, what waits, and who is told of a slip."""

import pytest

from chessnb import student_lesson
from chessnb.errors import LessonError
from chessnb.teaching.sealed_lesson import GameText, SealedCell, SealedLesson, Step, write_sealed

READ = "from chessnb import Lesson, claims, facts, page\nlesson = Lesson.read('held.pgn')"
ASK = "with page(lesson.before('2... Qh4#'), ask='find the move') as m:\n    claims.mates(m, within=1)"


def words(text):
    return SealedCell(kind="words", source=text)


def code(text):
    return SealedCell(kind="code", source=text)


@pytest.fixture
def lesson(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    steps = (
        Step(cells=(words("Two pawns moved."), code("side = lesson.end.back"), code(ASK))),
        Step(cells=(words("It was mate."), code("side"), code("lesson.after('9. Nf3')"))),
    )
    files = {"held.pgn": GameText(games="1. f3 e5 2. g4 Qh4# 0-1")}
    first = Step(cells=(code(READ),))
    write_sealed(SealedLesson(title="T", files=files, first=first, steps=steps), "l.sealed")
    return student_lesson("l.sealed")


def test_a_step_shows_its_words_and_only_the_question(lesson, capsys):
    lesson.step(1)
    said = capsys.readouterr().out
    assert "Two pawns moved." in said
    assert "Black to move. Find the move." in said
    assert "mates" not in said
    assert "Qh4" not in said


def test_a_step_waits_until_the_question_is_answered(lesson, capsys):
    lesson.step(1)
    lesson.step(2)
    said = capsys.readouterr().out
    assert "This opens when the question before it has been answered." in said
    assert "It was mate." not in said
    (asked,) = lesson._pages[1]
    asked._hear(asked, {"kind": "disclose", "client": "c", "seq": 1}, None)
    assert "It was mate." in capsys.readouterr().out


def test_a_step_is_opened_all_the_same_with_what_earlier_cells_made(lesson, capsys):
    lesson.step(2)
    lesson.open(2)
    said = capsys.readouterr().out
    assert "It was mate." in said
    assert "2. g4" in said  # the value of a name that a cell of step 1 made
    assert "Two pawns moved." not in said
    assert "9. Nf3" in said  # a slip of the teacher's is one sentence, in its place


@pytest.mark.parametrize("number", [0, 3, True, "1"])
def test_a_step_that_is_not_there_is_named(lesson, number):
    with pytest.raises(LessonError, match="the steps 1 to 2, and no step"):
        lesson.step(number)


def test_no_file_is_written(lesson, tmp_path):
    lesson.step(1)
    assert [path.name for path in tmp_path.iterdir()] == ["l.sealed"]
