"""Hanging: which pieces can be taken so that the exchange on their square wins material.

Only the exchange is counted: a check or a mate elsewhere is not.  Pawns are
no pieces here; who names one that hangs is told so, and it is not wrong.
"""

from __future__ import annotations

from collections.abc import Sequence

import chess

from chessnb.board.exchange import hanging as gains_on
from chessnb.board.naming import counted, the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, name
from chessnb.diagrams import Mark
from chessnb.facts import pressure
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.mistakes import checked
from chessnb.teaching.questions.pieces_sought import ask_for_pieces, grading_pieces, not_asked_for
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import Graded, Question, Right

NAME = "which piece hangs"


@gathered
@checked
def hanging(
    position: Position,
    *,
    side: Side | None = None,
    right: Square | Sequence[Square] | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask which pieces hang: taking them wins material on their square.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    side : {"White", "Black"} or chess.Color, optional
        Whose pieces; by default those of the side that is not to move.
    right : str or several, optional
        The squares that you say are right; another answer is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If what you say is right is not what is found.

    Examples
    --------
    >>> [one.text for one in hanging("6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1").right]
    ['the knight on d5']
    """
    asked = Asked.of(position)
    board = asked.board
    owner = read_side(side, default=not board.turn)
    gains = gains_on(board, owner)
    pieces = {one: won for one, won in sorted(gains.items()) if _counts(board, one)}
    pawns = [one for one in sorted(gains) if board.piece_type_at(one) == chess.PAWN]
    whose, other = SIDES[owner], SIDES[not owner]
    return ask_for_pieces(
        position,
        asked,
        NAME,
        [_right(board, square, won) for square, won in pieces.items()],
        also=[_pawn(board, square) for square in pawns],
        side=owner,
        prompt=question
        or f"Which of {whose}'s pieces hang: where does {other} win something by taking?",
        idea="Count attackers and defenders, and compare what takes with what is taken.",
        stated=right,
        why_not=lambda square: _why_not(board, square, owner),
        hints=hints,
        level=level,
    )


def _counts(board: chess.Board, square: chess.Square) -> bool:
    return board.piece_type_at(square) not in (chess.PAWN, chess.KING)


def _right(board: chess.Board, square: chess.Square, won: int) -> Right:
    piece = the_piece(board, square)
    owner = bool(board.color_at(square))
    strokes = tuple(
        Mark(role="force", square=name(one), to=name(square))
        for one in board.attackers(not owner, square)
    )
    return Right(
        key=name(square),
        text=piece,
        sentence=f"{piece.capitalize()} hangs: to take it wins {counted(won, 'point')}.",
        marks=(*strokes, Mark(role="target", square=name(square))),
    )


def _pawn(board: chess.Board, square: chess.Square) -> Right:
    return Right(
        key=name(square),
        text=the_piece(board, square),
        sentence=f"The pawn on {name(square)} hangs too; pieces were asked for.",
    )


def _why_not(board: chess.Board, square: chess.Square, owner: chess.Color) -> str:
    if reason := not_asked_for(board, square, [owner], king="a king cannot be taken"):
        return reason
    with aside():
        found = pressure(board, square)
    if not found.attackers:
        return "nothing attacks it"
    if not found.attacked_by:
        return "what attacks it may not take it"
    return "taking it wins nothing, since it is defended"


def _grade(question: Question, text: str, language: str) -> Graded:
    board = question.board
    return grading_pieces(
        question,
        text,
        noun="hanging piece",
        why_not=lambda square: _why_not(board, square, question.side),
    )


KIND = Kind(name=NAME, asks="which pieces can be taken with a gain", grade=at_once(_grade))
