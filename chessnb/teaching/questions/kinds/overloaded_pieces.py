"""Overloaded: which piece alone keeps two things, and cannot keep both.

A duty is a piece that would be lost by exchange on its square if the defender
were gone, and is not lost now; or a square where a move would mate if the
defender could not take there.  Two duties that one piece alone has overload
it.  A pawn is no duty that counts.
"""

from __future__ import annotations

from collections.abc import Sequence

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import listed, the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, name
from chessnb.board.turns import as_if_to_move, moved
from chessnb.diagrams import Mark
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.teaching.questions.pieces_sought import ask_for_pieces, grading_pieces, not_asked_for
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import Graded, Question, QuestionError, Right

NAME = "which piece is overloaded"


@gathered
@checked
def overloaded(
    position: Position,
    *,
    side: Side | None = None,
    right: Square | Sequence[Square] | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask which piece has two things to defend, and cannot keep both.

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
        If what you say is right is not what is found, or the other side is in check.

    Examples
    --------
    >>> found = overloaded("3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1").right
    >>> [one.sentence for one in found]
    ['The rook on d8 alone keeps the queen on d4, the mate on e8 and the mate on f8.']
    """
    asked = Asked.of(position)
    board = asked.board
    owner = read_side(side, default=not board.turn)
    theirs = as_if_to_move(board, not owner)
    if not theirs.is_valid():
        raise QuestionError(
            f"{SIDES[owner]} is in check, which has to be answered first", board=board
        )
    duties = {square: _duties(theirs, square) for square in _pieces(board, owner)}
    found = {square: kept for square, kept in duties.items() if len(kept) > 1}
    return ask_for_pieces(
        position,
        asked,
        NAME,
        [_right(board, square, kept) for square, kept in found.items()],
        side=owner,
        prompt=question or f"Which of {SIDES[owner]}'s pieces has two things to defend at once?",
        idea="Which piece is the only one that defends two things?",
        stated=right,
        why_not=lambda square: _why_not(board, square, owner),
        hints=hints,
        level=level,
    )


def _pieces(board: chess.Board, owner: chess.Color) -> chess.SquareSet:
    return chess.SquareSet(board.occupied_co[owner] & ~board.kings)


def _duties(board: chess.Board, keeper: chess.Square) -> tuple[str, ...]:
    """Return the squares that a piece alone keeps; the other side is to move."""
    without = board.copy(stack=False)
    without.remove_piece_at(keeper)
    if not without.is_valid():
        return ()
    pieces = [
        square
        for square in chess.SquareSet(board.occupied_co[not board.turn] & ~board.pawns)
        if square != keeper and keeper in board.attackers(not board.turn, square)
        if not gain_on(board, square) and gain_on(without, square)
    ]
    mates = {
        move.to_square
        for move in board.legal_moves
        if move.to_square != keeper and _mates_without(board, without, move, keeper)
    }
    return tuple(name(square) for square in [*pieces, *sorted(mates - set(pieces))])


def _mates_without(
    board: chess.Board, without: chess.Board, move: chess.Move, keeper: chess.Square
) -> bool:
    """Tell whether a move would mate if one piece could not take there."""
    if keeper not in board.attackers(not board.turn, move.to_square):
        return False
    if not without.is_legal(move) or not moved(without, [move]).is_checkmate():
        return False
    return any(
        reply.from_square == keeper and reply.to_square == move.to_square
        for reply in moved(board, [move]).legal_moves
    )


def _right(board: chess.Board, square: chess.Square, kept: Sequence[str]) -> Right:
    piece = the_piece(board, square)
    things = listed(_thing(board, chess.parse_square(one)) for one in kept)
    dashes = tuple(Mark(role="blocked", square=name(square), to=one) for one in kept)
    ticks = tuple(Mark(role="target", square=one) for one in kept)
    return Right(
        key=name(square),
        text=piece,
        sentence=f"{piece.capitalize()} alone keeps {things}.",
        marks=(Mark(role="actor", square=name(square)), *dashes, *ticks),
    )


def _thing(board: chess.Board, square: chess.Square) -> str:
    piece = board.piece_at(square)
    return f"the mate on {name(square)}" if piece is None else the_piece(board, square)


def _why_not(board: chess.Board, square: chess.Square, owner: chess.Color) -> str:
    if reason := not_asked_for(board, square, [owner], king="a king is not counted here"):
        return reason
    kept = _duties(as_if_to_move(board, not owner), square)
    if kept:
        return f"it alone keeps {_thing(board, chess.parse_square(kept[0]))}, and nothing else"
    return "there is nothing that it alone keeps"


def _grade(question: Question, text: str, language: str) -> Graded:
    board = question.board
    return grading_pieces(
        question,
        text,
        noun="overloaded piece",
        why_not=lambda square: _why_not(board, square, question.side),
    )


KIND = Kind(name=NAME, asks="which piece alone keeps two things", grade=at_once(_grade))
