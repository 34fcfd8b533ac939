"""A question whose stated answer is wrong is refused when it is made, with the reason."""

import pytest
from quizzes import LEGAL, OPERA, SMOTHERED, VIENNA

from chessnb import claims, questions
from chessnb.teaching.questions import QuestionError

BACK_RANK = "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"
LOOSE = "6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1"

REFUSED = {
    "a move that loses": (
        lambda: questions.find_move(BACK_RANK, right="Rb3"),
        "Rb3 is not right: White is mated in 2",
    ),
    "a move that does not mate": (
        lambda: questions.find_move(SMOTHERED, mate=2, right="Nf7+"),
        "Nf7+ does not do what is asked, “White mates in two”",
    ),
    "one of two that does not mate": (
        lambda: questions.find_move(SMOTHERED, mate=2, right=["Qg8+", "Nf7+"]),
        "Nf7+ does not do what is asked",
    ),
    "a mate that is not there": (
        lambda: questions.find_move("start", mate=1),
        "no move does not do what is asked",
    ),
    "less than the best": (
        lambda: questions.find_move("6k1/5ppp/8/3n4/8/8/8/R2QK3 w - - 0 1", right="Qxd5"),
        "Qxd5 is not the move to find: it wins",
    ),
    "a quiet position": (lambda: questions.find_move("start"), "nothing is proved to be won here"),
    "a line too short": (
        lambda: questions.find_line(VIENNA.before("9. Qd8+"), mate=2),
        "Qd8+ does not do what is asked",
    ),
    "two goals": (lambda: questions.find_move("start", mate=2, draw=True), "ask for one thing"),
    "half a goal": (lambda: questions.find_move("start", at_least=3), "both at_least"),
    "a pin that is none": (
        lambda: questions.pinned(OPERA.before("13. Rxd7"), right="f6"),
        "the knight on f6 is not one: no line of an enemy piece through it ends at its king",
    ),
    "a pin left out": (
        lambda: questions.pinned(OPERA.before("13. Rxd7"), right=[]),
        "the knight on d7 is one as well",
    ),
    "what does not hang": (lambda: questions.hanging(LOOSE, right="f7"), "the pawn on f7 is not one"),
    "the wrong overload": (
        lambda: questions.overloaded("3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1", right="d4"),
        "the queen on d4 is not one: there is nothing that it alone keeps",
    ),
    "the wrong threat": (
        lambda: questions.threatened(OPERA.after("7. Qb3"), right="Qxb7"),
        "White does not threaten Qxb7, or not most: White threatens Bxf7+, which mates in 2",
    ),
    "a threat in check": (
        lambda: questions.threatened(OPERA.after("11. Bxb5+")),
        "Black is in check, so nobody can pass",
    ),
    "the wrong count": (
        lambda: questions.count(OPERA.before("13. Rxd7"), "d7", right=(3, 3)),
        "3-3 is not so: d7: White attacks with 2",
    ),
    "the wrong material": (
        lambda: questions.ahead("start", right="White is a pawn ahead"),
        "'White is a pawn ahead' is not so: Material is level",
    ),
    "the wrong tactic": (
        lambda: questions.name_tactic(OPERA.after("16. Qb8+"), right="windmill"),
        "16. Qb8+ is not 'windmill' (it is deflection, sacrifice)",
    ),
    "no tactic": (lambda: questions.name_tactic(OPERA.after("1. e4")), "wins by no tactic"),
    "a capture that is good": (
        lambda: questions.why_not_take(LOOSE, "d5"),
        "Rxd5 is not proved to be a mistake",
    ),
    "nothing to take": (lambda: questions.why_not_take(LOOSE, "e5"), "on e5 nothing stands"),
    "two that can take": (
        lambda: questions.why_not_take("4k3/8/8/3r4/8/2N5/8/3QK3 w - - 0 1", "d5"),
        "2 pieces can take on d5",
    ),
    "false, said to be true": (
        lambda: questions.true_or_false(
            claims.mates, OPERA.before("16. Qb8+"), within=1, right=True
        ),
        "“White mates in 1” is false: No mate in 1",
    ),
    "not proved either way": (
        lambda: questions.true_or_false(claims.mates, LEGAL.start, within=8, budget=1000),
        "“White mates in 8” is not proved either way",
    ),
    "a claim with brackets": (
        lambda: questions.true_or_false(True, "start"),
        "give the claim itself, without brackets",
    ),
    "the wrong castling": (
        lambda: questions.castling("r3k2r/8/8/8/2b5/8/8/R3K2R w KQkq - 0 1", right="both"),
        "'both' is not so: White may castle queenside",
    ),
    "a quiet move": (lambda: questions.purpose("start", "a3"), "it is a quiet move"),
    "mate on the board": (
        lambda: questions.checks(OPERA.after("17. Rd8#")),
        "the game is over",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_a_question_that_would_be_wrong_is_refused(name):
    make, reason = REFUSED[name]
    with pytest.raises(QuestionError) as refused:
        make()
    assert reason in str(refused.value)
    assert refused.value.fen in str(refused.value)
    assert "[" not in refused.value.shown  # what a notebook shows has the position in words


def test_a_lesson_move_that_loses_is_refused_too():
    moves = "1. Rb3 Ra1+ 2. Rb1 Rxb1#"
    from chessnb import Lesson

    lesson = Lesson.from_text(f'[FEN "{BACK_RANK}"]\n\n{moves}')
    with pytest.raises(QuestionError, match="Rb3 is not right"):
        questions.find_move(lesson.start)


def test_what_is_said_to_be_right_and_is_passes():
    assert questions.find_move(SMOTHERED, mate=2, right="Qg8+").right[0].text == "Qg8+"
    assert questions.pinned(OPERA.before("13. Rxd7"), right="d7").right
    assert questions.hanging(LOOSE, right="d5").right
    assert questions.threatened(OPERA.after("7. Qb3"), right="Bxf7+").right
    assert questions.ahead("start", right="even").right
    assert questions.count(OPERA.before("13. Rxd7"), "d7", right=(2, 4)).right
    assert questions.castling("start", right="no").right
    assert questions.name_tactic(OPERA.after("16. Qb8+"), right="deflection").right
