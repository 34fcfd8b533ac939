"""What a live page says to every question, recorded for a page without Python."""

import chess
import pytest

from chessnb import Lesson, claims, questions
from chessnb.errors import LessonError
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

GAME = "1. f3 e5 2. g4 (2. e3 {Calm.}) 2... Qh4# {Mate.} *"


def recording_at(address, ask):
    moment = Lesson.from_text(GAME).before(address)
    parts = (claims.mates(moment, within=1),) if ask else ()
    live = PageSpread(Spread(moment=moment, ask=ask, parts=parts))
    try:
        return live.recording()
    finally:
        live.close()


def test_a_page_that_asks_has_an_answer_to_each_move_and_tells_nothing_before():
    found = recording_at("2... Qh4#", "find the move")
    assert found["home"] == {"root": 0, "line": "f2f3 e7e5 g2g4"}
    assert found["first"]["spread"]["told"] is None
    assert "Qh4" not in str(found["first"])
    assert (
        len(found["answers"])
        == Lesson.from_text(GAME).before("2... Qh4#").board.legal_moves.count()
    )
    assert found["answers"]["d8h4"]["right"]
    assert [uci for uci, answer in found["answers"].items() if answer["right"]] == ["d8h4"]
    assert "Mate." in str(found["told"])


def test_behind_what_is_told_nothing_can_be_asked_for():
    for found in (
        recording_at("2... Qh4#", "find the move")["told"],
        recording_at("2. g4", None)["first"],
    ):
        assert {row[-1] for row in found["tree"]["nodes"]} == {0}


def test_a_page_that_asks_nothing_has_no_answers():
    found = recording_at("2. g4", None)
    assert (found["answers"], found["told"]) == ({}, None)
    assert found["first"]["spread"]["told"] is not None


def test_recording_a_page_twice_gives_the_same():
    assert recording_at("2... Qh4#", "find the move") == recording_at("2... Qh4#", "find the move")


def thinking(address):
    moment = Lesson.from_text(GAME).after(address)
    asking = "Who has the safer king?"
    parts = (claims.mates(moment, within=1),) if moment.turn == chess.BLACK else ()
    return PageSpread(Spread(moment=moment, ask="think", asking=asking, parts=parts))


def test_a_question_in_words_folds_its_answer_and_takes_no_move_for_one():
    live = thinking("2. g4")
    try:
        found = live.recording()
    finally:
        live.close()
    assert found["first"]["spread"]["question"] == "Who has the safer king?"
    assert found["first"]["spread"]["told"] is None
    assert found["answers"] == {}
    told = found["told"]["spread"]["told"]
    assert told
    assert all(one["kind"] != "move" for one in told)


def test_a_question_in_words_may_stand_at_the_end():
    live = thinking("2... Qh4#")
    try:
        assert live.recording()["told"]["spread"]["told"] == []
    finally:
        live.close()


def test_a_question_of_any_kind_is_graded_and_only_where_python_is():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 d6")
    moment = lesson.after("3... d6")
    live = PageSpread(Spread(moment=moment, asked=questions.pinned(moment)))
    told, answered = [], []
    live.send = lambda content, *_: told.append(content)
    live.on_answered = lambda: answered.append(True)
    assert "on c6" not in str(live.spread)
    for text in ("d7", "c6"):
        live._hear(None, {"kind": "answer", "client": "a", "seq": 1, "text": text}, None)
    assert [one["result"] for one in told] == ["wrong", "right"]
    assert answered == [True]
    live._hear(None, {"kind": "hint", "client": "a", "seq": 2}, None)
    assert told[-1]["left"] == len(questions.pinned(moment).hints) - 1
    assert live.spread["asked"] == {"hints": 3}
    recorded = live.recording()
    assert recorded["first"]["spread"]["asked"] is None
    assert "Answer:" in str(recorded["told"])


def test_a_question_about_another_position_is_refused():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 d6")
    asked = questions.pinned(lesson.after("3... d6"))
    with pytest.raises(LessonError, match="another position than the page"):
        Spread(moment=lesson.after("2... Nc6"), asked=asked)
    with pytest.raises(LessonError, match="one question"):
        Spread(moment=lesson.after("3... d6"), asked=asked, ask="think", asking="Why?")
