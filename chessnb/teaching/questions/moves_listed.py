"""Questions that ask for every move of a sort: what they share."""

from __future__ import annotations

from collections.abc import Callable

import chess

from chessnb.board.position import Position
from chessnb.claims.asked import stroke
from chessnb.notation import write_move
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_moves, says_none
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.listing import Entry, graded_list
from chessnb.teaching.questions.question_kind import Asked
from chessnb.teaching.questions.question_values import Graded, Question, QuestionError, Right

MOST = 40
"""So many moves may be asked for."""


def ask_for_moves(
    position: Position,
    name: str,
    wanted: Callable[[chess.Board, chess.Move], bool],
    *,
    prompt: str,
    idea: str,
    hints: bool,
    level: str | None,
) -> Question:
    """Make a question for every legal move of a sort.

    Raises
    ------
    QuestionError
        If the game is over, or there are too many to write down.
    """
    asked = Asked.of(position)
    board = asked.board
    if not any(board.legal_moves):
        raise QuestionError("the game is over, and there is no move to name", board=board)
    moves = [move for move in board.legal_moves if wanted(board, move)]
    if len(moves) > MOST:
        raise QuestionError(
            f"there are {len(moves)} such moves, too many to write down", board=board
        )
    moves.sort(key=chess.Move.uci)
    offered = [hinting.idea(idea)]
    if moves:
        offered.append(hinting.area(move.to_square for move in moves))
        offered.append(hinting.mover(board, moves))
        offered.append(hinting.first_move(board, moves[0]))
    return Question(
        kind=name,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=prompt,
        right=tuple(
            Right(key=move.uci(), text=write_move(board, move), marks=(stroke(move),))
            for move in moves
        ),
        every=True,
        side=board.turn,
        hints=given_hints(hints, read_level(level, position), *offered),
    )


def grading_moves(
    question: Question, text: str, language: str, *, noun: str, not_one: str
) -> Graded:
    """Grade an answer that lists moves; `not_one` says why another legal move is none of them."""
    if says_none(text):
        return graded_list(question, (), noun=noun)
    entries = []
    board = question.board
    for said in read_moves(board, text, language):
        if said.move is None:
            entries.append(Entry(key="", text=said.text, reason=f"cannot be played, {said.reason}"))
        else:
            entries.append(
                Entry(key=said.move.uci(), text=write_move(board, said.move), reason=not_one)
            )
    return graded_list(question, entries, noun=noun)
