"""A question holds its answers, and shows none of them; hints, levels, points, sheets."""

from functools import cache

import pytest
from quizzes import OPERA, SMOTHERED, VIENNA

from chessnb import Lesson, questions
from chessnb.errors import InputError
from chessnb.findings.record import read_record
from chessnb.findings.seal import is_sealed
from chessnb.teaching.questions import AnswerError, Question

BEFORE_RXD7 = OPERA.before("13. Rxd7")
MAKERS = {
    "find_move": lambda: questions.find_move(SMOTHERED, mate=2),
    "find_line": lambda: questions.find_line(SMOTHERED, mate=2),
    "checks": lambda: questions.checks(BEFORE_RXD7),
    "captures": lambda: questions.captures(BEFORE_RXD7),
    "pinned": lambda: questions.pinned(BEFORE_RXD7),
    "ahead": lambda: questions.ahead(BEFORE_RXD7),
    "count": lambda: questions.count(BEFORE_RXD7, "d7"),
    "threatened": lambda: questions.threatened(OPERA.after("7. Qb3")),
    "castling": lambda: questions.castling(OPERA.before("12. O-O-O")),
}


@cache
def made(name):
    return MAKERS[name]()


@pytest.mark.parametrize("name", MAKERS)
def test_nothing_that_is_shown_tells_the_answer(name):
    question = made(name)
    shown = question._repr_mimebundle_()
    assert set(shown) == {"text/plain", "text/html"}
    for right in question.right:
        assert right.text not in shown["text/html"]
        assert right.text not in shown["text/plain"]
    for hint in question.hints:
        assert hint.text not in shown["text/html"]


@pytest.mark.parametrize("name", MAKERS)
def test_its_record_can_be_read_back_and_its_card_is_sealed(name):
    question = made(name)
    record = read_record(str(question))
    assert (record.kind, record.fields[0]) == ("question", question.kind)
    assert is_sealed(str(question), question._repr_html_())


@pytest.mark.parametrize("name", MAKERS)
def test_the_same_question_is_the_same_value_with_the_same_key(name):
    one, other = MAKERS[name](), MAKERS[name]()
    assert one == other
    assert one.key == other.key


def test_keys_tell_questions_apart():
    keys = {MAKERS[name]().key for name in MAKERS}
    assert len(keys) == len(MAKERS)


def test_ipython_prints_the_record_and_not_the_value():
    from IPython.lib.pretty import pretty

    question = made("checks")
    assert pretty(question) == str(question)


def test_hints_come_from_gentle_to_plain_and_the_level_says_how_many():
    sorts = {
        level: [hint.sort for hint in questions.find_move(SMOTHERED, mate=2, level=level).hints]
        for level in ("beginner", "club", "strong")
    }
    assert sorts == {
        "beginner": ["area", "piece", "idea", "first move"],
        "club": ["area", "piece", "idea"],
        "strong": ["area"],
    }
    assert questions.find_move(SMOTHERED, mate=2, hints=False).hints == ()


def test_the_hints_of_a_move_are_true():
    hints = questions.find_move(SMOTHERED, mate=2, level="beginner").hints
    assert [hint.text for hint in hints] == [
        "Look at the kingside.",
        "It is a move of a queen.",
        "Look at every check.",
        "It begins with Qg8+.",
    ]


@pytest.mark.parametrize("given", ["Qg8+", "Nf7+", "Qb7", "Kh8"])
def test_a_level_changes_help_and_not_the_truth(given):
    graded = [
        questions.answer(questions.find_move(SMOTHERED, mate=2, level=level), given)
        for level in ("beginner", "club", "strong")
    ]
    assert graded[0] == graded[1] == graded[2]


def test_the_level_is_the_lessons_own_where_none_is_named():
    lesson = Lesson.from_text("1. f3 e5 2. g4 Qh4#", level="Beginners, 8 to 10")
    hints = questions.find_move(lesson.before("2... Qh4#")).hints
    assert [hint.sort for hint in hints] == ["area", "piece", "idea", "first move"]
    with pytest.raises(InputError, match="a level is"):
        questions.checks("start", level="genius")


def test_hints_cost_a_quarter_each_and_never_all():
    question = questions.find_line(SMOTHERED, mate=2)
    earned = [
        questions.answer(question, "Qg8+ Rxg8 Nf7#", hints=taken).earned for taken in range(6)
    ]
    assert earned == [2, 1.5, 1, 0.5, 0.5, 0.5]
    assert questions.answer(question, "Qg8+", hints=2).earned == 0.5


# -- what is not proved is never wrong -------------------------------------------


def test_a_search_that_ran_out_is_not_called_wrong(monkeypatch):
    from chessnb.teaching.questions import move_goals

    question = questions.find_move(VIENNA.before("9. Qd8+"), mate=3)
    search = move_goals.proving
    monkeypatch.setattr(
        move_goals, "proving", lambda *a, budget, **options: search(*a, budget=1, **options)
    )
    said = questions.answer(question, "Bg5")
    assert (said.result, said.credit) == ("not proved", 0)
    assert said.sentence == "Bg5 is not proved either way: ask your teacher."


def test_a_move_that_does_more_than_was_known_is_right():
    question = questions.find_move("k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1", mate=1, right="Qc8#")
    assert [one.text for one in question.right] == ["Qc8#"]
    assert questions.answer(question, "Qgg8#").sentence == "Right: Qg8# is mate."
    two = questions.find_move("k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1", mate=2, right="Qa2+")
    assert questions.answer(two, "Qe4+").sentence == "Right: Qe4+ also mates in 2."


# -- what cannot be read does not count ------------------------------------------

UNREAD = (
    "",
    "   ",
    "foo",
    "I don't know",
    "what or what",
    "x" * 5000,
    "🙂",
    "<b>Qg8</b>",
    "'; DROP",
)


@pytest.mark.parametrize("given", UNREAD)
@pytest.mark.parametrize("name", sorted(MAKERS))
def test_what_is_no_answer_is_refused_in_words(name, given):
    with pytest.raises(AnswerError) as refused:
        questions.answer(made(name), given)
    assert len(str(refused.value)) < 900


@pytest.mark.parametrize("given", [None, 3.5, b"Qg8", {"a": 1}, [1, 2], object()])
def test_what_is_no_text_at_all_is_refused_too(given):
    with pytest.raises(AnswerError):
        questions.answer(made("find_move"), given)


def test_moves_are_taken_as_moves_too():
    question = made("checks")
    moves = [move for move in question.board.legal_moves if question.board.gives_check(move)]
    assert questions.answer(question, moves).result == "right"
    assert questions.answer(question, moves[0]).result == "part"
    assert questions.answer(question, []).result == "wrong"


def test_answers_are_read_in_the_letters_of_a_language():
    question = made("find_move")
    assert questions.answer(question, "Dg8+", language="german").result == "right"
    assert questions.answer(question, "Dg8+").result == "wrong"  # a pawn of the d-file


def test_what_is_no_question_is_refused():
    with pytest.raises(InputError, match="a question is what"):
        questions.answer("Qg8+", "Qg8+")
    with pytest.raises(InputError, match="hints is how many"):
        questions.answer(made("checks"), "none", hints=-1)


# -- sheets ------------------------------------------------------------------------


@pytest.mark.thorough
def test_a_sheet_holds_what_is_asked_for_and_no_answers():
    sheet = questions.collect([OPERA, VIENNA], level="strong")
    assert all(isinstance(question, Question) for question in sheet)
    assert {question.right[0].text for question in sheet} >= {"Qd8+", "Qb8+"}
    assert len({question.fen for question in sheet}) == len(sheet)
    html = sheet._repr_mimebundle_()["text/html"]
    assert not [one.right[0].text for one in sheet if one.right[0].text in html]
    for question in sheet:
        assert questions.answer(question, question.right[0].text).result == "right"


@pytest.mark.thorough
def test_a_sheet_of_one_tactic_and_of_a_level():
    deflections = questions.collect([OPERA, VIENNA], motif="deflection", level="club")
    assert "Qb8+" in {question.right[0].text for question in deflections}
    short = questions.collect([OPERA, VIENNA], level="beginner")
    assert all(question.goal is None or question.goal.within <= 2 for question in short)
    assert len(questions.collect(OPERA, most=1)) == 1
    assert str(questions.collect(Lesson.from_text("1. e4 e5"))) == "- | question | none | given"
