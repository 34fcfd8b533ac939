"""The sheet asks what the lesson asks, and no position on a part tells on another."""

import json

from hypothesis import given
from hypothesis import strategies as st

from chessnb.publishing.copied_lesson import Words
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.student_sheet import NEAR, parts_of, sheet_data
from publishing.copies import lesson_of, page_of, told


def pages_at(*plies, **given):
    return [page_of(ply=ply, **given) for ply in plies]


def test_positions_that_tell_on_each_other_stand_in_parts():
    lesson = lesson_of(Words(source="# x"), *pages_at(10, 11, 20, 21, 22))
    assert [[one.page.ply for one in part] for part in parts_of(lesson)] == [
        [10, 20],
        [11, 21],
        [22],
    ]
    assert [one.number for part in parts_of(lesson) for one in part] == [1, 2, 3, 4, 5]


@given(st.lists(st.integers(0, 80), max_size=15))
def test_within_a_part_no_position_follows_closely_on_another(plies):
    lesson = lesson_of(*pages_at(*plies))
    parts = parts_of(lesson)
    assert sorted(one.page.ply for part in parts for one in part) == sorted(plies)
    for part in parts:
        apart = {abs(a.page.ply - b.page.ply) for a in part for b in part}
        assert not apart & set(range(1, NEAR))


def test_positions_of_their_own_tell_nothing_on_the_game():
    lesson = lesson_of(*pages_at(10), *pages_at(11, game="diagram 1"))
    assert len(parts_of(lesson)) == 1


def test_only_what_asks_is_on_the_sheet_and_nothing_of_what_is_told():
    secret = told(head="24. Ra8#", text="SECRET")
    lesson = lesson_of(
        Words(source="# The key\n\nTwo players.\n\nRa8 mates."),
        page_of(question="", told=[secret], answer=""),
        Words(source="## The back rank\n\nHere comes SECRET."),
        page_of(told=[secret], recalled="SECRET"),
        Words(source="## Remember SECRET"),
    )
    text = json.dumps(sheet_data(lesson, Lettering("english")))
    assert "SECRET" not in text
    assert "24. Ra8" not in text
    assert "The back rank" in text


def test_a_heading_that_names_a_move_gives_way_to_the_place():
    lesson = lesson_of(Words(source="## The blow Ra8#"), page_of())
    ((question,),) = parts_of(lesson)
    assert question.heading == "White’s 24th move"


def test_the_last_move_is_not_underlined_where_it_answers_another_position():
    moved = {"last_move": "h7h6"}
    lesson = lesson_of(page_of(ply=45), page_of(ply=46, **moved), page_of(ply=60, **moved))
    first, second = sheet_data(lesson, Lettering())["parts"]
    assert "Last move" not in second[0]["words"]
    assert "Last move" in first[1]["words"]
