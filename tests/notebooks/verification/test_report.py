"""How a report reads, and what a shell is told."""

import json

import pytest

from chessnb.notebooks.verification import Complaint, LessonReport, Report

CHANGED = Complaint(
    kind="changed", message="the finding changed", cell=7, section="The fork",
    saved="two\nlines", now="one",
)  # fmt: skip
UNUSABLE = Complaint(kind="unusable", message="there is no such file.")


@pytest.mark.parametrize(
    ("found", "summary", "code"),
    [
        (LessonReport(path="a", findings=1), "verified: 1 finding agrees", 0),
        (LessonReport(path="a", findings=14), "verified: 14 findings agree", 0),
        (LessonReport(path="a", findings=2, complaints=(CHANGED,)), "1 complaint; 2 findings agree", 1),
        (LessonReport(path="a", complaints=(CHANGED, CHANGED)), "2 complaints", 1),
        (LessonReport(path="a", complaints=(CHANGED, UNUSABLE)), "cannot be checked", 2),
        (LessonReport(path="a", findings=3, resaved=True), "saved again; 3 findings agree", 0),
        (
            LessonReport(path="a", findings=3, resaved=True, changes=(CHANGED,)),
            "saved again, 1 change; 3 findings agree", 0,
        ),
    ],
)  # fmt: skip
def test_a_lesson_in_a_few_words(found, summary, code):
    assert found.summary == summary
    assert found.exit_code == code
    assert Report(lessons=(LessonReport(path="b"), found)).exit_code == code


def test_both_texts_of_a_difference_stand_under_it():
    assert LessonReport(path="a.ipynb", complaints=(CHANGED,)).lines() == [
        "a.ipynb: 1 complaint",
        "  cell 7 (section “The fork”): the finding changed",
        "    saved: two",
        "           lines",
        "    now:   one",
    ]


def test_no_lesson_is_no_complaint():
    assert Report(lessons=()).exit_code == 0
    assert Report(lessons=()).lines() == []


def test_what_is_only_said_stands_under_a_heading_of_its_own():
    note = Complaint(kind="unproved", message="“It is forced.” claims (forced)", cell=9)
    found = LessonReport(path="a.ipynb", findings=2, notes=(note,))
    assert found.exit_code == 0
    assert found.lines() == [
        "a.ipynb: verified: 2 findings agree",
        "  Said, but not proved here (no error):",
        "    cell 9: “It is forced.” claims (forced)",
        '    For your own judgement: claims.judgement("its words") beside it, or the tag “judgement”.',
    ]
    proposed = Complaint(kind="unproved", message="…", cell=9, code="claims.mates(m, within=2)")
    judged = Complaint(kind="judgement", message="…", cell=9)
    found = LessonReport(path="a.ipynb", findings=2, notes=(proposed, judged))
    assert found.summary == "verified: 2 findings agree, and 1 sentence is your judgement"
    assert "    With --propose these claims are put in." in found.lines()
    assert "Said" not in "".join(LessonReport(path="a.ipynb", findings=2).lines())


def test_a_report_as_plain_values_holds_all_that_its_lines_say():
    complaint = Complaint(kind="changed", message="the finding changed", cell=7, section="Fork",
                          saved="Nd5 forks", now="Nd5 is lost")  # fmt: skip
    report = Report(lessons=(LessonReport(path="fork.ipynb", findings=3, complaints=(complaint,)),))
    data = json.loads(json.dumps(report.data))
    assert (data["version"], data["exit_code"]) == (1, 1)
    (lesson,) = data["lessons"]
    assert lesson["summary"] == "1 complaint; 3 findings agree"
    (told,) = lesson["complaints"]
    assert (told["kind"], told["cell"], told["now"]) == ("changed", 7, "Nd5 is lost")
