"""Slips: imported once, refused in words where they are forged, damaged, hostile or too large."""

import json

import pytest
from teaching.class_record.test_record_file import kept

from chessnb.teaching.class_record import (
    ClassRecord,
    ClassRecordError,
    import_slips,
    write_slip,
)
from chessnb.teaching.class_record.answer_slips import MOST_BYTES, checksum_of, read_slip


@pytest.fixture
def home(tmp_path):
    record = ClassRecord(tmp_path / "home" / "record.sqlite")
    record.add(*(kept(number, nickname="Rook 7", question=f"q{number}") for number in range(5)))
    return record


@pytest.fixture
def school(tmp_path):
    return ClassRecord(tmp_path / "school" / "record.sqlite")


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "slips"
    made.mkdir()
    return made


def test_a_slip_brings_its_answers_once(home, school, folder):
    path = write_slip(home, "Rook 7", folder / "monday")
    assert path.name == "monday.slip.json"
    assert [one.words for one in import_slips(school, folder)] == [
        "monday.slip.json: 5 new answers"
    ]
    assert school.answers() == home.answers()
    (folder / "a copy.slip.json").write_bytes(path.read_bytes())
    assert [one.words for one in import_slips(school, folder)] == [
        "a copy.slip.json: imported before",
        "monday.slip.json: imported before",
    ]
    home.add(kept(9, nickname="Rook 7"))
    write_slip(home, "Rook 7", folder / "tuesday")
    assert import_slips(school, folder)[-1].words == "tuesday.slip.json: 1 new answer"
    assert len(school.answers()) == 6


def test_a_deleted_student_is_not_brought_back_by_an_old_slip(home, school, folder):
    write_slip(home, "Rook 7", folder / "monday")
    import_slips(school, folder)
    school.delete("Rook 7")
    assert import_slips(school, folder)[0].known
    assert school.answers() == ()


def whole(home, folder):
    return json.loads(write_slip(home, "Rook 7", folder / "slip").read_text(encoding="utf-8"))


def sealed(body):
    body = {name: value for name, value in body.items() if name != "checksum"}
    return {**body, "checksum": checksum_of(body)}


FORGED = {
    "a better result": lambda slip: slip["answers"][0].update(result="wrong"),
    "another nickname": lambda slip: slip.update(nickname="Queen"),
    "an answer less": lambda slip: slip["answers"].pop(),
    "another number": lambda slip: slip.update(id="0" * 32),
    "no checksum": lambda slip: slip.update(checksum=""),
    "a checksum that is none": lambda slip: slip.update(checksum=[1]),
}


@pytest.mark.parametrize("name", FORGED)
def test_a_forged_slip_is_refused(name, home, school, folder):
    slip = whole(home, folder)
    FORGED[name](slip)
    (folder / "slip.slip.json").write_text(json.dumps(slip), encoding="utf-8")
    (report,) = import_slips(school, folder)
    assert report.refused == "it was changed or damaged since it was written"
    assert school.answers() == ()


HOSTILE = {
    "more fields": lambda slip: slip.update(extra=1),
    "another version": lambda slip: slip.update({"chessnb slip": 2}),
    "a version that is true": lambda slip: slip.update({"chessnb slip": True}),
    "no answers": lambda slip: slip.update(answers=[]),
    "answers that are none": lambda slip: slip.update(answers={"0": 1}),
    "too many answers": lambda slip: slip.update(answers=slip["answers"] * 600),
    "an answer that is none": lambda slip: slip["answers"].append(7),
    "an answer with more": lambda slip: slip["answers"][0].update(more=1),
    "an answer with less": lambda slip: slip["answers"][0].pop("given"),
    "two students": lambda slip: slip["answers"][0].update(nickname="Queen"),
    "a long nickname": lambda slip: slip.update(nickname="x" * 100_000),
    "a nickname of lines": lambda slip: slip.update(nickname="a\nb"),
    "a result of its own": lambda slip: slip["answers"][0].update(result="<b>right</b>"),
    "a credit of a million": lambda slip: slip["answers"][0].update(credit=10**6),
    "a terminal's orders": lambda slip: slip["answers"][0].update(prompt="\x1b[2J"),
    "half a character": lambda slip: slip["answers"][0].update(given="\ud800"),
    "a path for a number": lambda slip: slip.update(id="../../../../etc/passwd"),
    "a number that is a list": lambda slip: slip.update(id=[]),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_slip_with_a_checksum_of_its_own_is_refused_in_words(name, home, school, folder):
    slip = whole(home, folder)
    HOSTILE[name](slip)
    (folder / "slip.slip.json").write_text(json.dumps(sealed(slip)), encoding="utf-8")
    (report,) = import_slips(school, folder)
    assert report.refused
    assert len(report.words) < 400
    assert school.answers() == ()


RAW = {
    "empty": b"",
    "no JSON": b"Dear teacher",
    "not UTF-8": b"\xff\xfe{}",
    "a list": b"[]",
    "deep": b"[" * 200_000,
    "not a number": b'{"chessnb slip": NaN}',
    "huge": b'{"chessnb slip": "' + b"x" * MOST_BYTES + b'"}',
    "a huge number": b'{"chessnb slip": ' + b"9" * 5000 + b"}",
}


@pytest.mark.parametrize("name", RAW)
def test_what_is_no_slip_is_refused_in_words(name, school, folder):
    (folder / "slip.slip.json").write_bytes(RAW[name])
    (report,) = import_slips(school, folder)
    assert report.refused
    assert len(report.words) < 400


def test_texts_that_look_like_orders_are_kept_as_text(school, folder, home):
    slip = whole(home, folder)
    hostile = [
        "'); DROP TABLE answers;--",
        "<img src=x onerror=alert(1)>",
        "=HYPERLINK(1)",
        "🏰" * 99,
    ]
    for answer, text in zip(slip["answers"], hostile, strict=False):
        answer["given"] = text
    slip["id"] = "f" * 32
    (folder / "slip.slip.json").write_text(json.dumps(sealed(slip)), encoding="utf-8")
    assert import_slips(school, folder)[0].new == 5
    assert [one.given for one in school.answers()][:4] == hostile


def test_the_same_number_with_other_answers_is_refused(home, school, folder):
    slip = whole(home, folder)
    import_slips(school, folder)
    slip["answers"].pop()
    (folder / "slip.slip.json").write_text(json.dumps(sealed(slip)), encoding="utf-8")
    assert "another slip that calls itself the same" in import_slips(school, folder)[0].refused


def test_one_bad_slip_does_not_keep_the_others_out(home, school, folder):
    (folder / "a.slip.json").write_bytes(b"?")
    write_slip(home, "Rook 7", folder / "b")
    (folder / "notes.txt").write_text("no slip")
    (folder / "c.slip.json").mkdir()
    reports = import_slips(school, folder)
    assert [(one.name, one.new) for one in reports] == [("a.slip.json", 0), ("b.slip.json", 5)]


def test_a_slip_of_nobody_is_refused(home, folder, school):
    with pytest.raises(ClassRecordError, match="there are no answers of 'Nobody'"):
        write_slip(home, "Nobody", folder / "x")
    with pytest.raises(ClassRecordError, match="is no folder"):
        import_slips(school, folder / "nowhere")


def test_a_slip_holds_nothing_but_what_is_said(home, folder):
    path = write_slip(home, "Rook 7", folder / "slip")
    slip = json.loads(path.read_text(encoding="utf-8"))
    assert set(slip) == {"chessnb slip", "id", "nickname", "answers", "checksum"}
    assert set(slip["answers"][0]) == {
        "id", "nickname", "question", "kind", "prompt", "fen", "given", "result", "credit", "hints",
        "tries", "seconds", "at",
    }  # fmt: skip
    assert read_slip(path)[2] == home.answers()
