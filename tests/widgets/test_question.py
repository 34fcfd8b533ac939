"""The question widget: what it publishes, what it sends, and that the kernel goes on hearing."""

import asyncio
import json

import pytest
from quizzes import OPERA, SMOTHERED, VIENNA

from chessnb import QuestionCard, questions
from chessnb.errors import InputError
from chessnb.findings.seal import is_sealed
from chessnb.teaching.class_record import ClassRecord, switch_off, switch_on


@pytest.fixture
def sent(monkeypatch):
    told = []
    monkeypatch.setattr(QuestionCard, "send", lambda self, content: told.append(content))
    return told


def hear(card, **content):
    card._hear(card, {"client": "page", "seq": 1, **content}, [])


def test_its_state_and_its_output_hold_the_question_alone():
    question = questions.pinned(OPERA.before("13. Rxd7"))
    card = QuestionCard(question)
    state = json.dumps(card.asked)
    assert "d7" not in state.replace(question.fen, "")
    bundle, _ = card._repr_mimebundle_()
    assert set(bundle) == {
        "text/plain", "text/html", "application/vnd.jupyter.widget-view+json",
    }  # fmt: skip
    assert bundle["text/plain"] == str(question)
    assert "knight" not in bundle["text/html"].partition("<p>")[2]
    assert is_sealed(bundle["text/plain"], bundle["text/html"])


def test_an_answer_is_graded_and_sent_with_what_shows_it(sent):
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    hear(card, kind="answer", text="Qb7")
    hear(card, kind="answer", text="Qg8+", seq=2)
    assert [one["result"] for one in sent] == ["wrong", "right"]
    assert sent[0]["line"] == ["b3b7", "a8a1", "b7b1", "a1b1"]
    assert (sent[1]["client"], sent[1]["seq"], sent[1]["kind"]) == ("page", 2, "answer")
    assert [text for text, _ in card.answers] == ["Qb7", "Qg8+"]
    json.dumps(sent)


def test_a_threat_is_shown_from_the_position_after_a_pass(sent):
    card = QuestionCard(questions.threatened(OPERA.after("7. Qb3")))
    hear(card, kind="answer", text="Bxf7+")
    assert sent[0]["fen"].split()[1] == "w"
    assert sent[0]["line"][0] == "c4f7"


def test_hints_are_sent_one_by_one_and_cost_their_part(sent):
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2, level="beginner"))
    for _ in range(5):
        hear(card, kind="hint")
    assert [one["left"] for one in sent] == [3, 2, 1, 0, 0]
    assert sent[3]["text"] == sent[4]["text"] == "It begins with Qg8+."
    hear(card, kind="answer", text="Qg8+")
    assert sent[-1]["earned"] == 0.25


@pytest.mark.parametrize("text", ["", "foo", "x" * 100_000, None, 7, ["Qg8+"], {"a": 1}])
def test_what_cannot_be_read_is_told_in_words_and_not_counted(text, sent):
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    hear(card, kind="answer", text=text)
    assert sent[0]["result"] == "unread"
    assert len(sent[0]["sentence"]) < 400
    assert card.answers == []


@pytest.mark.parametrize("content", [None, 7, "answer", {}, {"kind": "other"}])
def test_what_is_no_message_is_passed_over(content, sent):
    card = QuestionCard(questions.checks("start"))
    card._hear(card, content, [])
    assert sent == []


def test_the_kernel_goes_on_hearing_and_only_the_last_answer_counts(sent):
    async def two_answers():
        card = QuestionCard(questions.find_move(VIENNA.before("9. Qd8+"), mate=3))
        hear(card, kind="answer", text="Re1", seq=1)
        hear(card, kind="hint", seq=2)
        hear(card, kind="answer", text="Qd8+", seq=3)
        assert [one["seq"] for one in sent] == [2], "the answer is being looked into"
        while len(sent) < 2:
            await asyncio.sleep(0.01)
        await asyncio.sleep(0.1)
        return card

    card = asyncio.run(two_answers())
    assert [one["seq"] for one in sent] == [2, 3]
    assert [text for text, _ in card.answers] == ["Qd8+"]


def test_moves_are_read_in_the_letters_that_are_shown(sent):
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2), letters="german")
    assert card.piece_letters == "BSLTDK"
    hear(card, kind="answer", text="Dg8+")
    assert sent[0]["result"] == "right"


def test_the_record_hears_of_answers_where_it_is_switched_on(sent, tmp_path):
    record = ClassRecord(tmp_path / "record.sqlite")
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    hear(card, kind="answer", text="Qb7")
    switch_on("Rook 7", path=record.path)
    try:
        hear(card, kind="hint")
        hear(card, kind="answer", text="Qg8+")
    finally:
        switch_off()
    (kept,) = record.answers()
    assert (kept.given, kept.result, kept.hints) == ("Qg8+", "right", 1)


def test_what_is_no_question_is_refused():
    with pytest.raises(InputError, match="a question is what"):
        QuestionCard("Which checks?")
