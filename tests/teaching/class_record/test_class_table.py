"""The teacher's table: who stands how, what was missed, what comes back; a safe CSV; the switch."""

import csv
import io

import pytest
from quizzes import OPERA, SMOTHERED
from teaching.class_record.test_record_file import kept

from chessnb import questions
from chessnb.cli import main
from chessnb.teaching.class_record import (
    CAUTION,
    ClassRecord,
    ClassRecordError,
    ClassTable,
    switch_off,
    switch_on,
)
from chessnb.teaching.class_record.class_table import as_csv


@pytest.fixture
def record(tmp_path):
    return ClassRecord(tmp_path / "record.sqlite")


def answers(record, *rows):
    for number, (nickname, question, result) in enumerate(rows):
        credit = {"right": 1.0, "part": 0.5}.get(result, 0.0)
        record.add(
            kept(
                number, nickname=nickname, question=question, prompt=f"{question}?", result=result,
                credit=credit, at=f"2026-01-31T10:00:{number:02d}Z",
            )
        )  # fmt: skip


def test_each_question_counts_once_by_its_last_answer(record):
    answers(
        record,
        ("Ann", "one", "wrong"), ("Ann", "one", "right"), ("Ann", "two", "part"),
        ("Ben", "one", "wrong"), ("Ben", "two", "wrong"), ("Ben", "three", "not proved"),
        ("Cy", "two", "right"), ("Cy", "one", "right"), ("Cy", "one", "wrong"),
    )  # fmt: skip
    table = ClassTable.of(record)
    rows = [
        (one.nickname, one.questions, one.right, one.part, one.wrong, one.not_proved, one.credit)
        for one in table.standings
    ]
    assert rows == [
        ("Ann", 2, 1, 1, 0, 0, 0.75),
        ("Ben", 3, 0, 0, 2, 1, 0.0),
        ("Cy", 2, 1, 0, 1, 0, 0.5),
    ]
    assert [(one.question, one.missed, one.students) for one in table.missed] == [
        ("one", ("Ben", "Cy"), 3),
        ("two", ("Ann", "Ben"), 3),
    ]
    assert [one.question for one in table.to_come_back("Ann")] == ["two"]
    assert [one.question for one in table.to_come_back("Ben")] == ["one", "two"]


def test_the_table_in_words(record):
    assert str(ClassTable.of(record)) == "Nobody has answered anything yet."
    answers(record, ("Ann", "one", "right"), ("Ben", "one", "wrong"))
    assert str(ClassTable.of(record)).splitlines() == [
        "student  asked  right  part  wrong  open  credit",
        "Ann          1      1     0      0     0    100%",
        "Ben          1      0     0      1     0      0%",
        "",
        "Missed most, and to come back:",
        "  1 of 2 students: one? [6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1]",
        "    Ben",
    ]


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "|", "%", "＝", " ="])
def test_no_cell_of_the_csv_is_a_formula(record, start):
    text = f'{start}HYPERLINK("http://example.invalid","x")'
    record.add(kept(1, given=text), kept(2, given="Ra8#"))
    rows = list(csv.DictReader(io.StringIO(as_csv(record.answers()))))
    assert [row["given"] for row in rows] == [f"'{text}", "Ra8#"]
    assert rows[0]["credit"] == "1.0"


def test_quotes_commas_and_lines_stay_in_their_cell(record):
    text = 'a "quote", a comma;\nand a line\r\n=1+1'
    record.add(kept(1, given=text))
    (row,) = csv.DictReader(io.StringIO(as_csv(record.answers()), newline=""))
    assert row["given"] == text


# -- the switch ----------------------------------------------------------------------


@pytest.fixture
def off():
    yield
    switch_off()


def test_nothing_is_kept_unless_it_is_switched_on(record, off):
    asked = questions.find_move(SMOTHERED, mate=2)
    questions.answer(asked, "Qg8+")
    assert not record.path.exists()
    keeping = switch_on("Rook 7", path=record.path)
    assert CAUTION in str(keeping)
    questions.answer(asked, "Qb7")
    questions.answer(asked, "Qg8+", hints=2)
    switch_off()
    questions.answer(asked, "Nf7+")
    kept_ones = [(one.given, one.result, one.hints, one.tries) for one in record.answers("Rook 7")]
    assert kept_ones == [("Qb7", "wrong", 0, 1), ("Qg8+", "right", 2, 2)]
    assert {one.question for one in record.answers()} == {asked.key}


def test_the_switch_refuses_at_once_what_cannot_be_used(tmp_path, off):
    with pytest.raises(ClassRecordError, match="a nickname has"):
        switch_on("x" * 100, path=tmp_path / "record.sqlite")
    with pytest.raises(ClassRecordError):
        switch_on("Rook", path=tmp_path)
    (tmp_path / ".git").mkdir()
    with pytest.raises(ClassRecordError, match="repository"):
        switch_on("Rook", path=tmp_path / "record.sqlite")
    questions.answer(questions.checks("start"), "none")  # and nothing is on


def test_answers_that_cannot_be_read_are_not_kept(record, off):
    switch_on("Rook", path=record.path)
    with pytest.raises(questions.AnswerError):
        questions.answer(questions.checks(OPERA.before("13. Rxd7")), "foo")
    assert record.answers() == ()


# -- the command ---------------------------------------------------------------------


def run(monkeypatch, *words):
    monkeypatch.setattr("sys.argv", ["chessnb", "record", *map(str, words)])
    with pytest.raises(SystemExit) as ended:
        main()
    return ended.value.code


def test_the_commands_of_the_record(record, tmp_path, monkeypatch, capsys):
    file = ("--file", record.path)
    answers(record, ("Ann", "one", "wrong"), ("Ben", "one", "right"))
    assert run(monkeypatch, *file) == 0
    assert "1 of 2 students: one?" in capsys.readouterr().out
    slips = tmp_path / "slips"
    slips.mkdir()
    assert run(monkeypatch, *file, "slip", "Ann", "-o", slips / "ann") == 0
    other = ("--file", tmp_path / "other.sqlite")
    assert run(monkeypatch, *other, "import", slips) == 0
    assert "ann.slip.json: 1 new answer" in capsys.readouterr().out
    (slips / "bad.slip.json").write_text("?")
    assert run(monkeypatch, *other, "import", slips) == 1
    assert "bad.slip.json: not imported, this is not an answer slip" in capsys.readouterr().out
    assert run(monkeypatch, *file, "csv", "-o", tmp_path / "class.csv") == 0
    assert (tmp_path / "class.csv").read_bytes().startswith(b"\xef\xbb\xbf")
    assert run(monkeypatch, *file, "delete", "Ann") == 0
    assert "Deleted 1 answer." in capsys.readouterr().out
    assert record.nicknames() == ("Ben",)
    assert run(monkeypatch, *file, "import", tmp_path / "nowhere") == 2
    assert "is no folder" in capsys.readouterr().err
