"""A sealed file gives back what was put in, shows none of it, and says what is wrong with it."""

import base64
import json
import zlib

import pytest

from chessnb.errors import LessonError
from chessnb.teaching.sealed_lesson import (
    GameText,
    SealedCell,
    SealedLesson,
    Step,
    read_sealed,
    seal,
    sealed_text,
    unseal,
    write_sealed,
)

LESSON = SealedLesson(
    title="Back rank",
    files={"game.pgn": GameText(games="30. Rd8# *", proofs="{}")},
    first=Step(cells=(SealedCell(kind="code", source="lesson = Lesson.read('game.pgn')"),)),
    steps=(
        Step(cells=(SealedCell(kind="words", source="## Ein Läufer"),)),
        Step(cells=(SealedCell(kind="code", source="lesson.end", places=2),)),
    ),
)


def test_what_was_sealed_is_read_again(tmp_path):
    write_sealed(LESSON, tmp_path / "l.sealed")
    assert read_sealed(tmp_path / "l.sealed") == LESSON


def test_the_same_lesson_gives_the_same_file():
    assert sealed_text(LESSON) == sealed_text(LESSON)


def test_only_title_and_count_can_be_read_in_it():
    data = json.loads(sealed_text(LESSON))
    assert (data["title"], data["steps"]) == ("Back rank", 2)
    for text in data["parts"].values():
        plain = base64.b64decode(text)
        with pytest.raises(zlib.error):
            zlib.decompress(plain)
        assert not any(word in plain for word in (b"Rd8", b"game.pgn", b"Lesson", b"words"))


def test_parts_of_different_names_are_veiled_differently():
    assert seal("step 1", ["Rd8"]) != seal("step 2", ["Rd8"])
    with pytest.raises(ValueError, match="damaged"):
        unseal("step 2", seal("step 1", ["Rd8"]))


def damaged(text):
    """Return a file with one letter of a part changed."""
    place = text.index('"step 1": "') + 15
    return text[:place] + ("A" if text[place] != "A" else "B") + text[place + 1 :]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (damaged, "damaged or cut off. Ask your teacher"),
        (lambda text: text[: len(text) // 2], "damaged or cut off. Ask your teacher"),
        (lambda text: "", "damaged or cut off"),
        (lambda text: text.replace('"steps": 2', '"steps": 3'), "damaged"),
        (lambda text: text.replace('"steps": 2', '"steps": null'), "damaged"),
        (lambda text: text.replace('"version": 1', '"version": 9'), "version 9.*Update chessnb"),
        (lambda text: "[1]", "no sealed lesson"),
        (lambda text: "\udcff", "damaged"),
    ],
)
def test_a_bad_file_says_what_is_wrong_and_what_to_do(tmp_path, change, words):
    path = tmp_path / "l.sealed"
    path.write_text(change(sealed_text(LESSON)), encoding="utf-8", errors="surrogateescape")
    with pytest.raises(LessonError, match=words):
        read_sealed(path)


def test_a_file_that_is_not_there_says_where_it_belongs(tmp_path):
    with pytest.raises(LessonError, match="belongs beside this notebook"):
        read_sealed(tmp_path / "l.sealed")
