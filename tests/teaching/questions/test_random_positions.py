"""On positions of random play every answer that a question holds is graded right, and read as it is told."""

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb import questions
from chessnb.teaching.questions import QuestionError

LISTS = {
    "checks": questions.checks,
    "captures": questions.captures,
    "pinned": questions.pinned,
    "hanging": questions.hanging,
    "overloaded": questions.overloaded,
}
VALUES = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}


def asked_of(make, count, seed):
    """Ask a question of many positions, where it can be asked; not of too few."""
    asked = []
    for board in random_boards(count, seed=seed):
        try:
            asked.append((board, make(board)))
        except QuestionError:
            continue
    assert len(asked) > count // 3
    return asked


@pytest.mark.parametrize("name", LISTS)
def test_a_list_of_all_that_is_right_is_right(name):
    for _, question in asked_of(LISTS[name], scaled(200, least=30), seed=5):
        whole = ", ".join(one.text for one in question.right) or "none"
        assert questions.answer(question, whole).result == "right", question.fen
        if question.right:
            assert questions.answer(question, "none").result == "wrong", question.fen
        if len(question.right) > 1:
            one = questions.answer(question, question.right[0].text)
            assert one.credit == pytest.approx(1 / len(question.right), abs=0.001)


def test_checks_and_captures_are_those_of_the_rules():
    for board, question in asked_of(questions.checks, scaled(200, least=30), seed=6):
        checks = {move.uci() for move in board.legal_moves if board.gives_check(move)}
        assert {one.key for one in question.right} == checks
        for move in board.legal_moves:
            graded = questions.answer(question, move)
            assert (graded.result == "wrong") == (move.uci() not in checks)


def test_pins_are_those_of_the_rules():
    for board, question in asked_of(questions.pinned, scaled(200, least=30), seed=7):
        pinned = {
            chess.square_name(square)
            for square, piece in board.piece_map().items()
            if piece.piece_type != chess.KING and board.is_pinned(piece.color, square)
        }
        assert {one.key for one in question.right} == pinned


def test_the_material_is_what_is_on_the_board():
    for board, question in asked_of(questions.ahead, scaled(200, least=30), seed=8):
        points = sum(
            VALUES.get(piece.piece_type, 0) * (1 if piece.color else -1)
            for piece in board.piece_map().values()
        )
        side, other = ("White", "Black") if points > 0 else ("Black", "White")
        said = f"{side}, by {abs(points)} points" if points else "even"
        assert questions.answer(question, said).result == "right", question.fen
        assert questions.answer(question, question.right[0].text).result == "right", question.fen
        if points:
            assert questions.answer(question, side).result == "part"
            assert questions.answer(question, f"{side} by {abs(points) + 1}").result == "part"
            assert questions.answer(question, f"{other} by {abs(points)}").result == "wrong"


@pytest.mark.thorough
def test_threats_and_castling_are_read_as_they_are_told():
    for _, question in asked_of(questions.threatened, scaled(200, least=30), seed=9):
        for one in question.right:
            assert questions.answer(question, one.text).result == "right", question.fen
        expected = "wrong" if question.right else "right"
        assert questions.answer(question, "nothing").result == expected, question.fen
    for _, question in asked_of(questions.castling, scaled(200, least=30), seed=10):
        assert questions.answer(question, question.right[0].text).result == "right", question.fen


@pytest.mark.thorough
def test_what_a_move_was_for_is_read_as_it_is_told():
    def ask(board):
        move = board.pop()
        return questions.purpose(board, move)

    for _, question in asked_of(ask, scaled(200, least=40), seed=11):
        for one in question.right:
            assert questions.answer(question, one.sentence).result == "right", (
                question.fen,
                one.sentence,
            )
