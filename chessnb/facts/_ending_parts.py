"""What is looked at in an ending: opposition, key squares, the rule of the square.

The definitions are the trade's, as Karsten Müller and Frank Lamprecht give
them in *Fundamental Chess Endings* (2001, from memory):

opposition
    In a pawn ending the kings stand on one file or rank with one square
    between them (*direct*), with three or five (*distant*), or on one diagonal
    with one square between them (*diagonal*).  The side that is not to
    move has it.
key squares
    Of a single pawn on the second to the fourth rank: the three squares two
    ranks before it; on the fifth or sixth: the six squares one and two ranks
    before it; of a rook's pawn: the two squares of the neighbouring file on the
    seventh and eighth rank.  A king that stands on one sees its pawn
    promoted, unless the other king is nearer to the pawn and takes it (or it
    is stalemate in the corner, which happens in one position and its mirror).
square of a pawn
    A passed pawn with a free way runs to its last rank while the enemy's king
    goes for that square: the king is in the pawn's square if it can be
    there in time to take, or may take the pawn at once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.squares import names_of
from chessnb.facts._bare_king import mate_distance
from chessnb.facts._king_and_pawn import pawn_wins
from chessnb.facts._pawns import ahead, on_file, structure


@dataclass(frozen=True, kw_only=True)
class Opposition:
    """Who has the opposition.

    Attributes
    ----------
    kind : str
        ``"direct"``, ``"distant"`` or ``"diagonal"``.
    side : chess.Color
        The side that has it: the one that is not to move.
    """

    kind: str
    side: chess.Color


@dataclass(frozen=True, kw_only=True)
class KeySquares:
    """The key squares of the only pawn.

    Attributes
    ----------
    side : chess.Color
        The side of the pawn.
    pawn : str
        Its square.
    squares : tuple of str
        The key squares.
    reached : bool
        Whether the pawn's king stands on one.
    """

    side: chess.Color
    pawn: str
    squares: tuple[str, ...]
    reached: bool


@dataclass(frozen=True, kw_only=True)
class Runner:
    """A passed pawn that could run, and whether the enemy's king is in its square.

    Attributes
    ----------
    side : chess.Color
        The side of the pawn.
    square : str
        Where the pawn stands.
    in_reach : bool
        Whether the enemy's king is in the square of the pawn.
    """

    side: chess.Color
    square: str
    in_reach: bool


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What comes of a position with one side to move, worked out exactly.

    Attributes
    ----------
    turn : chess.Color
        The side to move.
    winner : chess.Color or None
        The side that wins; ``None``: it is drawn.
    mate : int
        In how many moves of its own the winner mates at most; 0 where that is not worked out.
    """

    turn: chess.Color
    winner: chess.Color | None
    mate: int = 0


def opposition(board: chess.Board) -> Opposition | None:
    """Return who has the opposition in a pawn ending; None if nobody has."""
    white, black = _kings(board)
    files = abs(chess.square_file(white) - chess.square_file(black))
    ranks = abs(chess.square_rank(white) - chess.square_rank(black))
    kinds = {
        (0, 2): "direct", (2, 0): "direct", (2, 2): "diagonal",
        (0, 4): "distant", (4, 0): "distant", (0, 6): "distant", (6, 0): "distant",
    }  # fmt: skip
    kind = kinds.get((files, ranks))
    return None if kind is None else Opposition(kind=kind, side=not board.turn)


def key_squares(board: chess.Board) -> KeySquares | None:
    """Return the key squares of the only pawn of a pawn ending; None on the seventh rank."""
    (pawn,) = chess.SquareSet(board.pawns)
    side = board.color_at(pawn)
    assert side is not None
    squares = _key_squares(pawn if side else chess.square_mirror(pawn))
    own = squares if side else [chess.square_mirror(square) for square in squares]
    if not own:
        return None
    return KeySquares(
        side=side,
        pawn=chess.square_name(pawn),
        squares=names_of(own),
        reached=board.king(side) in own,
    )


def _key_squares(pawn: chess.Square) -> list[chess.Square]:
    """Return the key squares of a white pawn."""
    file, rank = chess.square_file(pawn), chess.square_rank(pawn)
    if rank > 5:
        return []
    if file in (0, 7):
        return [chess.square(1 if file == 0 else 6, near) for near in (6, 7)]
    ranks = (rank + 2,) if rank < 4 else (rank + 1, rank + 2)
    return [chess.square(file + step, far) for far in ranks for step in (-1, 0, 1)]


def runners(board: chess.Board) -> Iterator[Runner]:
    """Yield the passed pawns with a free way of a pawn ending, White's first."""
    if board.is_check():
        return  # the check is answered first
    kings = dict(zip((chess.WHITE, chess.BLACK), _kings(board), strict=True))
    for side in (chess.WHITE, chess.BLACK):
        for square in structure(board, side).passed:
            pawn = chess.parse_square(square)
            if on_file(pawn) & ahead(pawn, side) & chess.SquareSet(board.occupied):
                continue
            goal = chess.square(chess.square_file(pawn), 7 if side else 0)
            steps = abs(chess.square_rank(goal) - chess.square_rank(pawn))
            moves = min(steps, 5)  # from its own square a pawn goes two ranks at once
            in_time = moves if board.turn == side else moves + 1
            taken = any(move.to_square == pawn for move in board.legal_moves)
            reach = taken or chess.square_distance(kings[not side], goal) <= in_time
            yield Runner(side=side, square=square, in_reach=reach)


def outcomes(board: chess.Board) -> Iterator[Outcome]:
    """Yield what comes of a position of three pieces, with the side to move first."""
    for turn in (board.turn, not board.turn):
        asked = board.copy(stack=False)
        asked.turn = turn
        asked.ep_square = None
        if not asked.is_valid():
            continue
        owner = bool(asked.occupied_co[chess.WHITE] & ~asked.kings)
        if (wins := pawn_wins(asked)) is not None:
            yield Outcome(turn=turn, winner=owner if wins else None)
        elif (distance := mate_distance(asked)) is not None and distance >= 0:
            yield Outcome(turn=turn, winner=owner if distance else None, mate=distance)


def _kings(board: chess.Board) -> tuple[chess.Square, chess.Square]:
    white, black = board.king(chess.WHITE), board.king(chess.BLACK)
    assert white is not None
    assert black is not None
    return white, black
