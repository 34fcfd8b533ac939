"""Nine queens on either side: nobody can count what is won, so nothing is proved and nothing wrong.

One position for all, since it takes long to find out that its balance cannot be worked out.
"""

import chess
import pytest

from chessnb import claims, motifs, reply_table
from chessnb.claims import UnprovedClaim
from chessnb.lessons import Lesson
from chessnb.proof import TooWild
from chessnb.proof.balances import WILD
from chessnb.proof.measure import Measure
from chessnb.teaching.signs import Reader
from chessnb.teaching.tries import answer
from chessnb.verdicts import verdict, verdicts

QUEENS = "1K2Q1q1/5q2/2QQq1q1/1Q3Q1k/Qq1q3q/5q1Q/4Q3/Q3q3 b - - 0 1"


@pytest.mark.thorough
def test_the_position_is_as_wild_as_that():
    board = chess.Board(QUEENS)
    assert board.is_valid()
    for measure in (Measure.gain, Measure.loss):
        with pytest.raises(TooWild):
            measure(board)


@pytest.mark.thorough
@pytest.mark.parametrize(
    "claim",
    [
        lambda: claims.wins_material(QUEENS, at_least=1, within=1),
        lambda: claims.mates_or_wins(QUEENS, mate=1, at_least=1, within=1, move="Kh6"),
        lambda: claims.loses(QUEENS, "Kh6", mate=1, within=1),
        lambda: claims.only_defence(QUEENS, "Kh6", against="loss", mate=1, within=1),
        lambda: claims.shows(QUEENS, "sacrifice", move="Kh6"),
    ],
    ids=["wins_material", "mates_or_wins", "loses", "only_defence", "shows"],
)
def test_a_claim_about_material_is_not_proved(claim):
    with pytest.raises(UnprovedClaim) as caught:
        claim()
    assert caught.value.reason == WILD


def test_a_claim_that_counts_nothing_is_answered_as_ever():
    with pytest.raises(claims.FalseClaim):
        claims.mates(QUEENS, within=1)
    assert claims.attacked(QUEENS, "h5", side="White")


@pytest.mark.thorough
def test_a_verdict_is_not_settled_and_no_error():
    assert verdict(QUEENS, "Kh6").kind == "not settled"
    assert {one.kind for one in verdicts(QUEENS)} == {"not settled"}
    table = reply_table(QUEENS, mate=1, within=1)
    assert table.record.status == "not proved"
    assert table.summary.startswith("Black has 5 legal replies")


@pytest.mark.thorough
def test_a_student_a_reader_and_a_tag_hear_no_error():
    board = chess.Board(QUEENS)
    assert answer(board, board.parse_san("Kh6")).kind == "open"
    assert motifs.tag(QUEENS, "Kh6") == ()
    assert motifs.tags(QUEENS) == ()
    lesson = Lesson(title="Queens")
    position = lesson.add_position(QUEENS, name="queens")
    found = Reader().signs(lesson.add_line(position, "1... Kh6"))
    # The rules need no count, nor do mates.
    assert {sign.kind for sign in found} <= {"double attack", "threat"}
