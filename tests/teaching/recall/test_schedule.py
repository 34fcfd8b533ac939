"""The schedule: grades from how it was played, days from the package, text that reads back."""

import json
from datetime import UTC, datetime, timedelta, timezone

import pytest

from chessnb.teaching.recall import Schedule, ScheduleError, grade_of

AT = datetime(2026, 1, 31, 10, tzinfo=UTC)


@pytest.mark.parametrize(
    ("played", "grade"),
    [
        ({"wrong": 0, "hints": 0, "seconds": 1}, "easy"),
        ({"wrong": 0, "hints": 0, "seconds": 20}, "good"),
        ({"wrong": 0, "hints": 0, "seconds": 40}, "hard"),
        ({"wrong": 0, "hints": 1, "seconds": 1}, "hard"),
        ({"wrong": 1, "hints": 0, "seconds": 1}, "again"),
        ({"wrong": 0, "hints": 0, "seconds": 1, "shown": True}, "again"),
    ],
)
def test_the_grade_is_taken_from_how_it_was_played(played, grade):
    assert grade_of(**played) == grade


def test_what_is_known_at_once_gets_no_card():
    for grade in ("hard", "good", "easy"):
        assert Schedule().reviewed("one", grade, AT) == Schedule()
    assert list(Schedule().reviewed("one", "again", AT).cards) == ["one"]


def test_a_better_grade_stays_away_longer():
    missed = Schedule().reviewed("one", "again", AT)
    later = AT + timedelta(days=2)
    days = [
        missed.reviewed("one", grade, later).due_at("one") for grade in ("hard", "good", "easy")
    ]
    assert days == sorted(days)
    assert later + timedelta(hours=20) < days[0] < days[2]


def test_a_value_is_not_changed_by_what_is_made_of_it():
    missed = Schedule().reviewed("one", "again", AT)
    before = missed.text()
    missed.reviewed("one", "good", AT + timedelta(days=1))
    assert missed.text() == before


def test_any_time_zone_is_understood_and_none_is_refused():
    east = AT.astimezone(timezone(timedelta(hours=8)))
    assert Schedule().reviewed("one", "again", east) == Schedule().reviewed("one", "again", AT)
    with pytest.raises(ScheduleError, match="a moment has a time zone"):
        Schedule().reviewed("one", "again", datetime(2026, 1, 31))
    with pytest.raises(ScheduleError, match="a grade is one of"):
        Schedule().reviewed("one", "great", AT)


def test_it_reads_back_from_its_text():
    schedule = Schedule().reviewed("one", "again", AT).reviewed("two", "again", AT)
    assert Schedule.read(schedule.text()) == schedule
    assert Schedule.read(Schedule().text()) == Schedule()


def damaged():
    whole = json.loads(Schedule().reviewed("one", "again", AT).text())
    yield from ("", "[]", "null", "{}", "7", "[" * 100_000)
    for name, value in (
        ("state", 9), ("stability", None), ("stability", "1"), ("stability", float("nan")),
        ("difficulty", -1), ("due", "tomorrow"), ("due", "2026-01-31T10:00:00"), ("card_id", 5),
        ("last_review", None), ("stability", 1e300),
    ):  # fmt: skip
        card = {**whole["cards"]["one"], name: value}
        yield json.dumps({**whole, "cards": {"one": card}})
    yield json.dumps({**whole, "chessnb schedule": 2})
    yield json.dumps({**whole, "cards": []})
    yield json.dumps({**whole, "cards": {"one": []}})


@pytest.mark.parametrize("text", list(damaged()))
def test_what_is_no_schedule_is_refused(text):
    with pytest.raises(ScheduleError, match="this is no schedule"):
        Schedule.read(text)
