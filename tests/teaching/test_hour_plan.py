"""The plan of an hour: whole minutes, what goes first, and the same every time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chessnb.errors import LessonError
from chessnb.teaching.hour_plan import STRETCHED, USUAL, Stop, hour_plan

STOPS = st.lists(
    st.builds(
        Stop,
        name=st.text(max_size=8),
        asks=st.booleans(),
        ahead=st.integers(0, 12),
        words=st.integers(0, 400),
    ),
    max_size=12,
)


@given(STOPS, st.integers(1, 240))
def test_the_minutes_add_up_and_follow_one_another(stops, minutes):
    plan = hour_plan(stops, minutes=minutes)
    given_out = sum(stop.minutes for stop in plan.stops)
    assert plan.opening + given_out + plan.closing + plan.spare == minutes
    assert plan.spare >= 0
    begins = plan.opening
    for stop in plan.stops:
        assert stop.begins == begins
        begins += stop.minutes
    assert plan == hour_plan(stops, minutes=minutes)


@given(STOPS, st.integers(1, 240))
def test_a_stop_has_its_least_time_or_none_and_never_more_than_it_can_use(stops, minutes):
    plan = hour_plan(stops, minutes=minutes)
    for stop, planned in zip(stops, plan.stops, strict=True):
        assert planned.minutes == 0 or stop.least <= planned.minutes <= STRETCHED * stop.needs
        assert (planned.minutes == 0) == (planned.leave_out == 0)
    kept = [planned.leave_out for planned in plan.stops if planned.minutes]
    assert sorted(kept) == list(range(1, len(kept) + 1))


@given(STOPS, st.integers(1, 240))
def test_no_question_is_dropped_while_something_is_only_shown(stops, minutes):
    plan = hour_plan(stops, minutes=minutes)
    left_out = {
        stop.asks for stop, planned in zip(stops, plan.stops, strict=True) if not planned.minutes
    }
    shown = [
        planned
        for stop, planned in zip(stops, plan.stops, strict=True)
        if planned.minutes and not stop.asks
    ]
    assert True not in left_out or not shown


def test_a_harder_question_is_given_more_time():
    stops = [Stop(name="one", asks=True, ahead=1), Stop(name="six", asks=True, ahead=6)]
    for minutes in range(14, 60):
        easy, hard = hour_plan(stops, minutes=minutes).stops
        assert easy.minutes <= hard.minutes
    assert easy.minutes < hard.minutes


def test_what_is_shown_goes_first_then_the_easiest_question():
    stops = [
        Stop(name="key", asks=True, ahead=4),
        Stop(name="fork", asks=True, ahead=1),
        Stop(name="pin", words=30),
    ]
    plan = hour_plan(stops, minutes=20)
    assert [stop.name for stop in plan.first_to_go] == ["pin", "fork", "key"]
    assert plan.in_words == "If time runs short, leave out first “pin” and “fork”."
    short = hour_plan(stops, minutes=4)
    assert [stop.name for stop in short.dropped] == ["pin"]
    assert short.in_words == (
        "There is no time for “pin”. If time runs short, leave out first “fork”."
    )


def test_a_lesson_without_a_time_is_planned_for_the_usual_one():
    assert hour_plan([]).minutes == USUAL


def test_too_few_stops_leave_time_to_spare():
    plan = hour_plan([Stop(name="pin")], minutes=45)
    assert plan.spare == 45 - plan.opening - plan.closing - 2
    assert plan.in_words == ""  # nothing has to be left out


def test_a_class_is_late_only_when_the_time_of_its_stop_is_over():
    plan = hour_plan([Stop(name="pin"), Stop(name="key", asks=True)], minutes=12)
    assert [plan.late(2, gone=gone) for gone in (3, 4, 9, 10, 13)] == [-1, 0, 0, 0, 3]


@pytest.mark.parametrize("minutes", [0, -1])
def test_no_time_is_refused(minutes):
    with pytest.raises(LessonError, match="a number above 0"):
        hour_plan([], minutes=minutes)


def test_less_than_nothing_is_refused():
    with pytest.raises(LessonError, match="no fewer"):
        Stop(name="pin", ahead=-1)


def test_the_plan_as_lines_and_as_plain_values():
    plan = hour_plan([Stop(name="pin"), Stop(name="key", asks=True, ahead=2)], minutes=12)
    assert plan.lines()[0] == "12 minutes:"
    assert [begins for begins, _, _ in plan.rows] == sorted(begins for begins, _, _ in plan.rows)
    assert sum(minutes for _, _, minutes in plan.rows) == 12
    assert any("  key: " in line for line in plan.lines())
    assert plan.data["version"] == 1
    assert [one["name"] for one in plan.data["stops"]] == ["pin", "key"]
