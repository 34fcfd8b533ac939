"""Mating pictures: mates that have a name, by the squares around the king."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import chess

from chessnb.board.naming import listed
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, force, ring, the, ticks

Picture = Callable[[chess.Board, chess.Square], bool]
"""Tells whether a checkmate is of a kind, given the king's square."""

STRAIGHT = (chess.ROOK, chess.QUEEN)


def around(king: chess.Square) -> chess.SquareSet:
    """Return the squares next to a king."""
    return chess.SquareSet(chess.BB_KING_ATTACKS[king])


def own_men(board: chess.Board, squares: chess.SquareSet) -> chess.SquareSet:
    """Return those of some squares where men of the mated side stand, its king left out."""
    king = board.king(board.turn)
    return chess.SquareSet(
        square for square in squares if board.color_at(square) == board.turn and square != king
    )


def is_double(board: chess.Board, _king: chess.Square) -> bool:
    """Tell whether two men give the mating check."""
    return len(board.checkers()) > 1


def is_smothered(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a knight mates a king that its own men shut in on every side."""
    checkers = list(board.checkers())
    knight = len(checkers) == 1 and board.piece_type_at(checkers[0]) == chess.KNIGHT
    return knight and own_men(board, around(king)) == around(king)


def is_back_rank(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a rook or queen mates along the king's own first rank, its men before it."""
    home = 0 if board.turn else 7
    if chess.square_rank(king) != home or not _along(board, king, ranks=True):
        return False
    front = around(king) & chess.SquareSet(chess.BB_RANKS[1 if board.turn else 6])
    return len(own_men(board, front)) * 2 > len(front) or (
        len(own_men(board, front)) * 2 == len(front) and len(front) == 2
    )


def is_corridor(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether a rook or queen mates along a line that own men, or the edge, wall in.

    At least two of the squares beside the line hold the king's own men; the
    mate on its own first rank has a name of its own.
    """
    for ranks in (True, False):
        if not _along(board, king, ranks=ranks) or chess.square_distance(*_ends(board, king)) < 2:
            continue
        if is_back_rank(board, king) or is_epaulette(board, king):
            continue
        beside = around(king) - _line(king, ranks=ranks)
        walls = own_men(board, beside)
        if len(walls) >= 2 and len(walls) * 2 >= len(beside):
            return True
    return False


def is_epaulette(board: chess.Board, king: chess.Square) -> bool:
    """Tell whether own men stand on both sides of a king that is mated across them.

    The mating queen or rook stands on the line that runs between the two; the
    king is on the edge, or the two are rooks.
    """
    for ranks in (True, False):
        edge = chess.square_rank(king) if ranks else chess.square_file(king)
        beside = around(king) & _line(king, ranks=ranks)
        both = len(beside) == 2 and own_men(board, beside) == beside
        rooks = all(board.piece_type_at(square) == chess.ROOK for square in beside)
        if (edge in (0, 7) or rooks) and both and _along(board, king, ranks=not ranks):
            return True
    return False


def _ends(board: chess.Board, king: chess.Square) -> tuple[chess.Square, chess.Square]:
    return king, next(iter(board.checkers()))


def _line(square: chess.Square, *, ranks: bool) -> chess.SquareSet:
    if ranks:
        return chess.SquareSet(chess.BB_RANKS[chess.square_rank(square)])
    return chess.SquareSet(chess.BB_FILES[chess.square_file(square)])


def _along(board: chess.Board, king: chess.Square, *, ranks: bool) -> bool:
    """Tell whether one rook or queen checks along the king's rank, or file."""
    checkers = list(board.checkers())
    return (
        len(checkers) == 1
        and checkers[0] in _line(king, ranks=ranks)
        and board.piece_type_at(checkers[0]) in STRAIGHT
    )


def finder(motif: str, shows: Picture) -> Callable[[Case], Iterator[Tag]]:
    """Return what finds a mating picture at the end of a case's line."""

    def find(case: Case) -> Iterator[Tag]:
        if not case.mates:
            return
        board = case.before.copy(stack=False)
        for ply, move in enumerate(case.shown, start=1):
            board.push(move)
            king = board.king(board.turn)
            if board.is_checkmate() and king is not None and shows(board, king):
                yield _tag(case, motif, board, king, ply)

    return find


def _tag(case: Case, motif: str, board: chess.Board, king: chess.Square, ply: int) -> Tag:
    last = board.peek().to_square
    checkers = sorted(board.checkers(), key=lambda square: (square != last, square))
    walls = sorted(own_men(board, around(king)))
    mating = listed(the(board, square) for square in checkers)
    sentence = f"{mating[0].upper()}{mating[1:]} {'mate' if len(checkers) > 1 else 'mates'} "
    sentence += the(board, king)
    if walls:
        sentence += f", which {listed(the(board, square) for square in walls)} shut in"
        if len(walls) == 1:
            sentence = sentence.removesuffix("shut in") + "shuts in"
    return case.tag(
        motif,
        sound=True,
        actor=checkers[0],
        targets=(king,),
        squares=tuple(walls),
        sentence=sentence,
        marks=(
            *(ring(square) for square in checkers),
            *(force(square, king) for square in checkers),
            *(ticks(square) for square in walls),
        ),
        ply=ply,
        board=board.copy(stack=False),
    )


BACK_RANK = Motif(
    name="back-rank mate",
    definition=(
        "A rook or queen mates along the king's own first rank, and the king's own men before it "
        "leave it no way out."
    ),
    find=finder("back-rank mate", is_back_rank),
    examples=(
        Example(
            fen="6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1",
            moves="Ra8#",
            why="the three pawns shut the king in",
        ),
        Example(
            fen="6k1/5pp1/7p/8/8/8/5PPP/R5K1 w - - 0 1",
            moves="Ra8+ Kh7",
            shows=False,
            why="h7 is a way out",
        ),
    ),
)
SMOTHERED = Motif(
    name="smothered mate",
    definition="A knight mates a king that its own men shut in on every side.",
    find=finder("smothered mate", is_smothered),
    examples=(
        Example(
            fen="6rk/6pp/7N/8/8/8/6PP/6K1 w - - 0 1",
            moves="Nf7#",
            why="the rook and the two pawns shut the king in",
        ),
        Example(
            fen="5r1k/6pp/7N/8/8/8/6PP/6K1 w - - 0 1",
            moves="Nf7+ Rxf7",
            shows=False,
            why="the rook takes the knight",
        ),
    ),
)
CORRIDOR = Motif(
    name="corridor mate",
    definition=(
        "A rook or queen mates along a line on which the king stands as in a corridor, walled in "
        "by its own men or the edge of the board."
    ),
    find=finder("corridor mate", is_corridor),
    examples=(
        Example(
            fen="6r1/6pk/6p1/8/8/8/6K1/R7 w - - 0 1",
            moves="Rh1#",
            why="three men of its own wall the king in on the edge",
        ),
        Example(
            fen="6r1/6pk/8/8/8/8/6K1/R7 w - - 0 1",
            moves="Rh1+ Kg6",
            shows=False,
            why="g6 is a way out",
        ),
    ),
)
EPAULETTE = Motif(
    name="epaulette mate",
    definition=(
        "A king on the edge is mated from the front while its own men on both sides take its ways "
        "out."
    ),
    find=finder("epaulette mate", is_epaulette),
    examples=(
        Example(
            fen="3rkr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
            moves="Qe6#",
            why="the rooks take d8 and f8 from their king",
        ),
        Example(
            fen="4kr2/8/8/8/8/7Q/8/4K3 w - - 0 1",
            moves="Qe6+ Kd8",
            shows=False,
            why="d8 is a way out",
        ),
    ),
)
DOUBLE = Motif(
    name="double-check mate",
    definition="Two men give check at once, and it is mate: no answer meets both.",
    find=finder("double-check mate", is_double),
    examples=(
        Example(
            fen="3qkb2/3p1p2/8/8/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nf6#",
            why="no move meets both checks, and the king has no square",
        ),
        Example(
            fen="3qk3/3p1p2/8/8/4N3/8/5PPP/4R1K1 w - - 0 1",
            moves="Nf6+ Kf8",
            shows=False,
            why="f8 is a way out",
        ),
    ),
)
