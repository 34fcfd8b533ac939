"""Mating pictures: what the mates share that have a name, by the squares around the king."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import chess

from chessnb.board.naming import listed
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, force, ring, the, ticks

Picture = Callable[[chess.Board, chess.Square], bool]
"""Tells whether a checkmate is of a kind, given the king's square."""

STRAIGHT = (chess.ROOK, chess.QUEEN)


def around(king: chess.Square) -> chess.SquareSet:
    """Return the squares next to a king."""
    return chess.SquareSet(chess.BB_KING_ATTACKS[king])


def own_pieces(board: chess.Board, squares: chess.SquareSet) -> chess.SquareSet:
    """Return those of some squares where pieces of the mated side stand, its king left out."""
    king = board.king(board.turn)
    return chess.SquareSet(
        square for square in squares if board.color_at(square) == board.turn and square != king
    )


def line_of(square: chess.Square, *, ranks: bool) -> chess.SquareSet:
    """Return the rank, or the file, of a square."""
    if ranks:
        return chess.SquareSet(chess.BB_RANKS[chess.square_rank(square)])
    return chess.SquareSet(chess.BB_FILES[chess.square_file(square)])


def checked_along(board: chess.Board, king: chess.Square, *, ranks: bool) -> bool:
    """Tell whether one rook or queen checks along the king's rank, or file."""
    checkers = list(board.checkers())
    return (
        len(checkers) == 1
        and checkers[0] in line_of(king, ranks=ranks)
        and board.piece_type_at(checkers[0]) in STRAIGHT
    )


def mates_of_kind(motif: str, case: Case, shows: Picture) -> Iterator[Tag]:
    """Find a mating picture at the end of a case's line."""
    if not case.mates:
        return
    board = case.before.copy(stack=False)
    for ply, move in enumerate(case.shown, start=1):
        board.push(move)
        king = board.king(board.turn)
        if board.is_checkmate() and king is not None and shows(board, king):
            yield _tag(case, motif, board, king, ply)


def _with_article(motif: str) -> str:
    return f"{'an' if motif[0] in 'aeiou' else 'a'} {motif}"


def _tag(case: Case, motif: str, board: chess.Board, king: chess.Square, ply: int) -> Tag:
    last = board.peek().to_square
    checkers = sorted(board.checkers(), key=lambda square: (square != last, square))
    walls = sorted(own_pieces(board, around(king)))
    mating = listed(the(board, square) for square in checkers)
    sentence = f"{mating} {'mate' if len(checkers) > 1 else 'mates'} {the(board, king)}"
    if walls:
        sentence += f", which {listed(the(board, square) for square in walls)} shut in"
        if len(walls) == 1:
            sentence = sentence.removesuffix("shut in") + "shuts in"
    if ply > 1:  # it is still to come, and another defence may end in another mate
        sentence = f"the line ends in {_with_article(motif)}: there {sentence}"
    return case.tag(
        motif,
        sound=True,
        actor=checkers[0],
        targets=(king,),
        squares=tuple(walls),
        sentence=sentence[0].upper() + sentence[1:],
        marks=(
            *(ring(square) for square in checkers),
            *(force(square, king) for square in checkers),
            *(ticks(square) for square in walls),
        ),
        ply=ply,
        board=board.copy(stack=False),
    )


def what_is_free(case: Case) -> str:
    """Say what is wrong with a mating picture: no mate, or which squares are not blocked."""
    board = moved(case.before, list(case.shown))
    king = board.king(board.turn)
    if not board.is_checkmate() or king is None:
        return "it is not mate"
    free = [square for square in around(king) if board.color_at(square) != board.turn]
    if not free:
        return f"{listed(the(board, one) for one in board.checkers())} gives the mate"
    squares = listed(name(square) for square in free)
    return f"nothing of the king's own side stands on {squares}"
