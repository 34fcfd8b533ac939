"""The key tells all of a lesson, in its order, with the plan and the answers."""

from chessnb.publishing.card_text import Card
from chessnb.publishing.copied_lesson import Words
from chessnb.publishing.lettering import Lettering
from chessnb.publishing.teachers_key import key_data, plan_of
from publishing.copies import lesson_of, page_of, told

ENGLISH = Lettering("english")


def lesson():
    return lesson_of(
        Words(source="# The key\n\nTwo players."),
        Words(source="## After 10. h3\n\nA quiet move."),
        page_of(question="", answer="", ply=20),
        Card(paragraphs=("Material: level.",)),
        Words(source="Between.\n\n## The back rank"),
        page_of(
            told=[
                told(head="24. Ra8#", text="mates.", known="proved", items=[told(text="a line")])
            ],
            notes=("Said once.",),
        ),
        Words(source="## What to remember\n\n- the rank"),
    )


def words(runs):
    return "".join(run["text"] for run in runs).replace("\u00a0", " ")


def test_what_stands_before_a_heading_comes_before_the_stop():
    flow = key_data(lesson(), ENGLISH)["flow"]
    assert [one["kind"] for one in flow] == [
        "stop",
        "paragraph",
        "paragraph",
        "stop",
        "heading",
        "item",
    ]
    assert [words(one["runs"]) for one in flow[1:3]] == ["Material: level.", "Between."]


def test_a_stop_tells_its_story_its_question_and_all_that_is_told():
    data = key_data(lesson(), ENGLISH)
    quiet, mate = (one for one in data["flow"] if one["kind"] == "stop")
    assert [words(one["runs"]) for one in quiet["blocks"]] == ["A quiet move."]
    assert [words(one["runs"]) for one in mate["blocks"]] == [
        "23. Ra1 h6", "White to move. Find the move.", "24. Ra8# mates. (proved)", "a line", "Said once.",
    ]  # fmt: skip
    assert (quiet["number"], mate["number"]) == ("", "1")
    assert data["title"] == "The key"
    assert [words(one["runs"]) for one in data["front"]] == ["Two players."]


def test_the_answers_have_the_numbers_of_the_sheet():
    (answer,) = key_data(lesson(), ENGLISH)["answers"]
    assert (answer["number"], words(answer["runs"])) == ("1", "24. Ra8#")


def test_the_plan_is_that_of_the_pages_and_adds_up():
    plan = plan_of(lesson())
    assert [stop.name for stop in plan.stops] == ["After 10. h3", "The back rank"]
    rows = key_data(lesson(), ENGLISH)["plan"]["rows"]
    assert sum(int(row["minutes"]) for row in rows) == 45
    begins = [int(row["begins"]) for row in rows]
    assert begins == sorted(begins)


def test_a_page_without_a_heading_is_called_by_its_place():
    plan = plan_of(lesson_of(Words(source="# x"), page_of()))
    assert plan.stops[0].name == "After 23... h6"
