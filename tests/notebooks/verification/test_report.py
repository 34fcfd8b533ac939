"""How a verdict reads, and what a shell is told."""

import pytest

from chessnb.notebooks.verification import Complaint, Report, Verdict

CHANGED = Complaint(
    kind="changed", message="the finding changed", cell=7, section="The fork",
    saved="two\nlines", now="one",
)  # fmt: skip
UNUSABLE = Complaint(kind="unusable", message="there is no such file.")


@pytest.mark.parametrize(
    ("verdict", "summary", "code"),
    [
        (Verdict(path="a", findings=1), "verified: 1 finding agrees", 0),
        (Verdict(path="a", findings=14), "verified: 14 findings agree", 0),
        (Verdict(path="a", findings=2, complaints=(CHANGED,)), "1 complaint; 2 findings agree", 1),
        (Verdict(path="a", complaints=(CHANGED, CHANGED)), "2 complaints", 1),
        (Verdict(path="a", complaints=(CHANGED, UNUSABLE)), "cannot be checked", 2),
        (Verdict(path="a", findings=3, resaved=True), "saved anew; 3 findings agree", 0),
        (
            Verdict(path="a", findings=3, resaved=True, changes=(CHANGED,)),
            "saved anew, 1 change; 3 findings agree", 0,
        ),
    ],
)  # fmt: skip
def test_a_verdict_in_a_few_words(verdict, summary, code):
    assert verdict.summary == summary
    assert verdict.exit_code == code
    assert Report(verdicts=(Verdict(path="b"), verdict)).exit_code == code


def test_both_texts_of_a_difference_stand_under_it():
    assert Verdict(path="a.ipynb", complaints=(CHANGED,)).lines() == [
        "a.ipynb: 1 complaint",
        "  cell 7 (section “The fork”): the finding changed",
        "    saved: two",
        "           lines",
        "    now:   one",
    ]


def test_no_lesson_is_no_complaint():
    assert Report(verdicts=()).exit_code == 0
    assert Report(verdicts=()).lines() == []


def test_what_is_only_said_stands_under_a_heading_of_its_own():
    note = Complaint(kind="unproved", message="“It is forced.” claims (forced)", cell=9)
    verdict = Verdict(path="a.ipynb", findings=2, notes=(note,))
    assert verdict.exit_code == 0
    assert verdict.lines() == [
        "a.ipynb: verified: 2 findings agree",
        "  Said, but not proved here (no error):",
        "    cell 9: “It is forced.” claims (forced)",
    ]
    assert "Said" not in "".join(Verdict(path="a.ipynb", findings=2).lines())
