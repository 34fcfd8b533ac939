"""Pinned: which pieces the rules forbid to leave a line, because their king stands behind.

A piece that is pinned to something else than its king may move; who names it
is told so, and it is not counted as wrong.
"""

from __future__ import annotations

from collections.abc import Sequence

import chess

from chessnb.board.lines import pinner_of
from chessnb.board.naming import the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, name
from chessnb.diagrams import Mark
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.motifs import explain
from chessnb.teaching.questions.pieces_sought import ask_for_pieces, grading_pieces, not_asked_for
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import Graded, Question, Right

NAME = "which piece is pinned"


@gathered
@checked
def pinned(
    position: Position,
    *,
    side: Side | None = None,
    right: Square | Sequence[Square] | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask which pieces are pinned to their king.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    side : {"White", "Black"} or chess.Color, optional
        Whose pieces; by default those of both sides.
    right : str or several, optional
        The squares that you say are right; another answer is refused.
    hints : bool
        Give hints, as the level has them.
    level : {"beginner", "club", "strong"}, optional
        For whom; by default the lesson's.
    question : str
        The question in your own words.

    Raises
    ------
    QuestionError
        If what you say is right is not what is found.

    Examples
    --------
    >>> [one.text for one in pinned("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1").right]
    ['the knight on c6']
    """
    asked = Asked.of(position)
    board = asked.board
    sides = chess.COLORS if side is None else [read_side(side)]
    found = [
        _right(board, square)
        for color in sides
        for square in chess.scan_forward(board.occupied_co[color])
        if board.is_pinned(color, square)
    ]
    whose = "pieces" if side is None else f"of {SIDES[sides[0]]}'s pieces"
    return ask_for_pieces(
        position,
        asked,
        NAME,
        found,
        also=[_relative(board, square) for square in _pinned_to_others(board, sides)],
        side=sides[0],
        about="" if side is None else SIDES[sides[0]],
        prompt=question or f"Which {whose} are pinned to their king?",
        idea="Look along the lines of the queens, rooks and bishops towards each king.",
        stated=right,
        why_not=lambda square: _why_not(board, square, sides),
        hints=hints,
        level=level,
    )


def _right(board: chess.Board, square: chess.Square) -> Right:
    pinner, king = pinner_of(board, square), board.king(bool(board.color_at(square)))
    assert king is not None
    piece = the_piece(board, square)
    return Right(
        key=name(square),
        text=piece,
        sentence=f"{the_piece(board, pinner).capitalize()} pins {piece} to its king.",
        marks=(
            Mark(role="actor", square=name(pinner)),
            Mark(role="blocked", square=name(pinner), to=name(king)),
            Mark(role="target", square=name(square)),
        ),
    )


def _pinned_to_others(board: chess.Board, sides: Sequence[chess.Color]) -> list[chess.Square]:
    """Return the pieces that are pinned to something else than their king."""
    static = explain("relative pin").static
    assert static is not None
    squares = [chess.parse_square(tag.targets[0]) for tag in static(board) if tag.targets]
    kept = {square for square in squares if board.color_at(square) in sides}
    return sorted(one for one in kept if not board.is_pinned(bool(board.color_at(one)), one))


def _relative(board: chess.Board, square: chess.Square) -> Right:
    piece = the_piece(board, square)
    return Right(
        key=name(square),
        text=piece,
        sentence=f"{piece.capitalize()} is pinned too, but not to its king: it may move.",
    )


def _why_not(board: chess.Board, square: chess.Square, sides: Sequence[chess.Color]) -> str:
    if reason := not_asked_for(board, square, sides, king="a king is never pinned"):
        return reason
    return "no line of an enemy piece through it ends at its king"


def _grade(question: Question, text: str, language: str) -> Graded:
    board = question.board
    sides = [question.side] if question.about else chess.COLORS
    return grading_pieces(
        question, text, noun="pinned piece", why_not=lambda square: _why_not(board, square, sides)
    )


KIND = Kind(name=NAME, asks="which pieces are pinned to their king", grade=at_once(_grade))
