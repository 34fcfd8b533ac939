"""The record's file: many writers at once, some killed; a student deleted wholly; what is refused."""

import os
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest
from thoroughness import scaled

import chessnb
from chessnb.teaching.class_record import ClassRecord, ClassRecordError, KeptAnswer, record_file

WRITER = Path(__file__).with_name("writer.py")
ANSWERS = 4 * scaled(500, least=60)


def kept(number=0, **changed):
    data = {
        "id": f"answer {number}",
        "nickname": "Rook",
        "question": "q1",
        "kind": "all checks",
        "prompt": "Which checks can White give? Name them all.",
        "fen": "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1",
        "given": "Ra8#",
        "result": "right",
        "credit": 1.0,
        "at": "2026-01-31T10:00:00Z",
    }
    return KeptAnswer(**(data | changed))


@pytest.fixture
def record(tmp_path):
    return ClassRecord(tmp_path / "class" / "record.sqlite")


def start(path, notes, name, first, last):
    environment = {**os.environ, "PYTHONPATH": str(Path(chessnb.__file__).parents[1])}
    command = [sys.executable, str(WRITER), str(path), str(notes), name, str(first), str(last)]
    return subprocess.Popen(command, env=environment)


def noted(notes):
    """The answers that were acknowledged; the last line may be half written."""
    if not notes.exists():
        return []
    return [line for line in notes.read_text().split("\n")[:-1] if line]


def wait_for(condition, seconds=120):
    until = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < until
        time.sleep(0.01)


@pytest.mark.thorough
def test_what_was_acknowledged_is_there_whatever_is_killed(record, tmp_path):
    share = ANSWERS // 4
    names = ["one", "two", "three", "four"]
    notes = {name: tmp_path / f"{name}.txt" for name in names}
    running = {name: start(record.path, notes[name], name, 0, share) for name in names}
    for name, until in (("two", share // 4), ("four", share // 2), ("two", share // 2)):
        wait_for(lambda name=name, until=until: len(noted(notes[name])) >= until)
        running[name].kill()
        assert running[name].wait() != 0, "it was not killed in the middle"
        running[name] = start(record.path, notes[name], name, len(noted(notes[name])), share)
    assert [running[name].wait(timeout=300) for name in names] == [0, 0, 0, 0]
    acknowledged = [one for name in names for one in noted(notes[name])]
    there = [one.id for one in record.answers()]
    assert len(set(acknowledged)) == ANSWERS
    assert set(acknowledged) <= set(there)
    assert len(there) == len(set(there)) == ANSWERS
    assert record.is_sound()


def test_the_journal_is_a_rollback_journal_and_nothing_is_left_beside_the_file(record):
    record.add(kept())
    with sqlite3.connect(record.path) as database:
        assert database.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    database.close()
    assert [path.name for path in record.path.parent.iterdir()] == ["record.sqlite"]
    if os.name == "posix":
        assert record.path.stat().st_mode & 0o077 == 0


def test_an_answer_is_kept_once_and_as_it_was(record):
    one, other = kept(1, given="“Ra8#” ♖ 'ok'"), kept(2, nickname="Köni\u0301g 🏰")
    assert record.add(one, other) == 2
    assert record.add(one) == 0
    assert record.answers() == (one, other)
    assert record.answers("Rook") == (one,)


def test_all_or_none_of_what_is_added_together(record):
    record.add(kept(1))
    with sqlite3.connect(record.path) as database:
        database.execute(
            "CREATE TRIGGER no BEFORE INSERT ON answers WHEN new.id = 'answer 3' "
            "BEGIN SELECT RAISE(ABORT, 'the disk is full'); END"
        )
    database.close()
    with pytest.raises(ClassRecordError, match="the disk is full"):
        record.add(kept(2), kept(3))
    assert [one.id for one in record.answers()] == ["answer 1"]


def test_a_student_is_deleted_wholly(record):
    secret = "Qxh7 the very long secret answer"
    record.add(*(kept(number, nickname="Gone 1234", given=secret) for number in range(50)))
    record.add(kept(99))
    assert record.delete("  Gone   1234 ") == 50
    assert record.nicknames() == ("Rook",)
    data = record.path.read_bytes()
    assert secret.encode() not in data
    assert b"Gone 1234" not in data
    assert record.is_sound()
    assert record.delete("Gone 1234") == 0


def test_one_spelling_of_a_nickname_is_one_student(record):
    spellings = ["Zo\u00eb 1", "Zoe\u0308 1", "  Zo\u00eb   1 "]
    record.add(*(kept(number, nickname=name) for number, name in enumerate(spellings)))
    assert len(record.nicknames()) == 1
    assert record.delete("Zoe\u0308  1") == 3
    assert record.answers() == ()


def test_nothing_is_made_by_looking(record):
    assert record.answers() == ()
    assert record.delete("Rook") == 0
    assert not record.path.exists()


def test_a_file_in_a_repository_is_refused(tmp_path):
    (tmp_path / ".git").mkdir()
    with pytest.raises(ClassRecordError, match="lies in the repository"):
        ClassRecord(tmp_path / "deep" / "down" / "record.sqlite")


def test_what_is_no_record_is_refused_in_words(tmp_path):
    text = tmp_path / "letter.txt"
    text.write_text("Dear class, " * 500)
    with pytest.raises(ClassRecordError, match="this is not a class record"):
        ClassRecord(text).answers()
    assert text.read_text().startswith("Dear class")
    with pytest.raises(ClassRecordError):
        ClassRecord(tmp_path).add(kept())


def test_a_newer_record_is_not_touched(record):
    record.add(kept())
    with sqlite3.connect(record.path) as database:
        database.execute("PRAGMA user_version = 99")
    database.close()
    before = record.path.read_bytes()
    with pytest.raises(ClassRecordError, match="a newer version"):
        record.add(kept(2))
    assert record.path.read_bytes() == before


def test_a_record_that_another_holds_is_told_in_words(record, monkeypatch):
    record.add(kept())
    monkeypatch.setattr(record_file, "PATIENCE", 0.2)
    holder = sqlite3.connect(record.path, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    try:
        with pytest.raises(ClassRecordError, match="another program has written into it"):
            record.add(kept(2))
    finally:
        holder.execute("ROLLBACK")
        holder.close()
    assert record.add(kept(2)) == 1


def test_the_usual_place_is_outside_of_every_repository(monkeypatch, tmp_path):
    monkeypatch.delenv(record_file.VARIABLE, raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path))
    assert ClassRecord().path.name == "class-record.sqlite"
    monkeypatch.setenv(record_file.VARIABLE, str(tmp_path / "other.sqlite"))
    assert ClassRecord().path == tmp_path / "other.sqlite"


# -- hostile texts ------------------------------------------------------------------

UNPRINTABLE = "‮txt"
HOSTILE = (
    "Robert'); DROP TABLE answers;--", '"quoted"', "<script>alert(1)</script>", "=1+1", "@SUM(A1)",
    "🏰👩‍🚀♞", "O'Brien", "%s %d {0}", "../../etc", "null", "\\", "a|b", UNPRINTABLE, "-1",
)  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_are_kept_as_text_or_refused_in_words(record, text):
    record.add(kept(1, given=text))
    assert record.answers()[0].given == text
    if text == UNPRINTABLE:
        with pytest.raises(ClassRecordError, match="nickname holds characters that cannot be"):
            kept(2, nickname=text)
    else:
        record.add(kept(2, nickname=text))
        assert [one.id for one in record.answers(text)] == ["answer 2"]
        assert record.delete(text) == 1
    assert record.is_sound()
    assert len(record.answers()) == 1


@pytest.mark.parametrize(
    "nickname",
    ["", "   ", "x" * 41, "x" * 1_000_000, "two\nlines", "tab\there", "nul\0", "\x1b[31mred",
     "half \ud800", "a@b.example", None, 7, b"Rook"],
)  # fmt: skip
def test_a_nickname_that_is_none_is_refused(nickname):
    with pytest.raises(ClassRecordError) as refused:
        kept(nickname=nickname)
    assert len(str(refused.value)) < 300


@pytest.mark.parametrize(
    "changed",
    [
        {"given": "x" * 1_000_000}, {"given": "\udfff"}, {"given": None}, {"result": "good"},
        {"credit": 2}, {"credit": float("nan")}, {"credit": True}, {"credit": "1"}, {"hints": -1},
        {"hints": 1.5}, {"tries": 10**9}, {"seconds": float("inf")}, {"at": "yesterday"},
        {"at": "2026-13-31T10:00:00Z"}, {"prompt": "x" * 2000}, {"fen": "\x1b[2J"}, {"id": "x" * 101},
    ],
)  # fmt: skip
def test_what_is_no_answer_is_refused(changed):
    with pytest.raises(ClassRecordError) as refused:
        kept(**changed)
    assert len(str(refused.value)) < 300
