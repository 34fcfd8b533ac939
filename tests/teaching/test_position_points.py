"""What is asked at a position of a list."""

import chess
import pytest

from chessnb import Lesson
from chessnb.teaching.position_points import position_point

CASES = [
    ("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", "", "White mates in one move. How?", "Ra8#", "claims.mates"),
    ("k7/8/2K5/8/8/8/8/1R6 w - - 0 1", "", "White mates in two moves. How?", "Kc7", "claims.mates"),
    ("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "", "White wins material. How?", "Nc7+", "claims.wins_material"),
    # The move that is given is another one, of which nothing is proved.
    ("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Kf1", "What does White play?", "Kf1", ""),
    # White mates next if Black does nothing.
    ("6k1/5ppp/8/8/8/8/5PPP/R5K1 b - - 0 1", "", "What does White threaten?", None, "claims.threatens"),
    # Quiet: an outpost, an ending.
    ("4r1k1/pp3ppp/3p4/3N4/4P3/8/PP3PPP/3R2K1 w - - 0 1", "", "Why does White's knight stand so well on d5?", None, "facts.structure"),
    ("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1", "", "Is it won or drawn, and does it matter who is to move?", None, "facts.ending"),
]  # fmt: skip


@pytest.mark.parametrize(("fen", "given", "question", "key", "call"), CASES)
def test_question_answer_and_proof(fen, given, question, key, call):
    lesson = Lesson(title="One")
    moment = lesson.add_position(fen)
    if given:
        lesson.add_line(moment, given)
    point = position_point(moment)
    assert point.question == question
    assert (point.key and moment.board.san(point.key)) == key
    assert [cell.partition("(")[0] for cell in point.cells] == ([call] if call else [])


def test_the_colours_are_treated_alike():
    for fen, given, question, _, call in CASES:
        if given or "d5" in question:
            continue
        moment = Lesson(title="One").add_position(chess.Board(fen).mirror())
        point = position_point(moment)
        turned = question.replace("White", "Black")
        assert point.question == turned
        assert [cell.partition("(")[0] for cell in point.cells] == [call]
