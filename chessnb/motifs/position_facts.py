"""Position facts: pawns, files, kings and squares as tags; what stands there, and is no tactic.

isolated, doubled, passed, backward pawn; open and half-open file
    As :func:`chessnb.facts.pawns` and :func:`chessnb.facts.files` define them.
weak back rank
    A king on its back rank has no square before it that is free and not
    attacked; no rook or queen of its own stands on that rank; and the enemy
    has a rook or queen (common practice, no source).
uncastled king
    A king that has not castled, as far as the moves are known, and never may
    (FIDE Laws, article 3.8.2.1) stands on the d- or e-file of its first two
    ranks while the enemy has a queen (common practice, no source).
attackers and defenders
    What bears on a square, batteries counted, as :func:`chessnb.facts.pressure`
    counts.

A fact is not proved to win anything, and never counts as a tactic.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import chess

from chessnb.board.naming import listed
from chessnb.board.pieces import pieces_in_words
from chessnb.board.sides import SIDES
from chessnb.diagrams import Mark
from chessnb.facts import pressure
from chessnb.facts._pawns import files, structure
from chessnb.facts._pressure import Force
from chessnb.motifs.evidence import Tag, The, dashes, force, ring, static_tag, ticks

FACTS: dict[str, str] = {
    "isolated pawn": "No pawn of its side stands on a neighbouring file.",
    "doubled pawns": "Two or more pawns of one side stand on one file.",
    "passed pawn": "No enemy pawn stands before it on its own file or a neighbouring one.",
    "backward pawn": (
        "Its neighbours have gone further, so that none can defend it, and an enemy pawn covers "
        "the square before it."
    ),
    "half-open file": "Only enemy pawns stand on it.",
    "weak back rank": (
        "The king has no safe square before it, and no rook or queen of its own on its rank, "
        "while the enemy has a rook or queen."
    ),
    "uncastled king": "The king stands in the middle and may castle no more.",
    "open file": "No pawn stands on it.",
    "attackers and defenders": "What bears on a square, batteries counted.",
}
"""The names of the facts, with what each means, in the order in which they are told."""

MIDDLE = (3, 4)
"""The numbers of the d- and e-file."""


def position_facts(board: chess.Board) -> Iterator[Tag]:
    """Yield the pawn and square facts of a position, White's first.

    Examples
    --------
    >>> print(next(position_facts(chess.Board("6k1/5p2/8/8/3P4/8/5P2/6K1 w - - 0 1"))).words)
    isolated pawn: The pawn on d4 is isolated: no pawn of its side stands on a file beside it
    """
    for side in (chess.WHITE, chess.BLACK):
        yield from _pawns(board, side)
        yield from _half_open(board, side)
        yield from _back_rank(board, side)
        yield from _uncastled(board, side)
    for letter in files(board).open:
        yield _file(board, board.turn, letter, "open file", f"No pawn stands on the {letter}-file")


def bearing(board: chess.Board, square: chess.Square | str) -> Tag:
    """Tell what attacks and what defends a square, batteries counted.

    Parameters
    ----------
    board : chess.Board
        The position.
    square : chess.Square or str
        The square, such as ``"d5"``.

    Returns
    -------
    Tag
        From the point of view of the side that attacks the piece there; on an
        empty square, of the side to move.

    Raises
    ------
    PositionError
        If there is no such square.

    Examples
    --------
    >>> board = chess.Board("4k3/8/4p3/3p4/8/2N5/3R4/3QK3 w - - 0 1")
    >>> print(bearing(board, "d5").words)
    attackers and defenders: On d5 White bears with the knight on c3, the rook on d2 and the queen \
on d1, Black with the pawn on e6
    """
    found = pressure(board, square)
    target = chess.parse_square(found.square)
    strokes = [
        (force if one.counts else dashes)(chess.parse_square(one.piece.square), target)
        for one in (*found.attackers, *found.defenders)
    ]
    return _fact(
        board,
        "attackers and defenders",
        side=found.side,
        actor=target,
        targets=[target],
        squares=[stroke.square for stroke in strokes if stroke.role == "force"],
        sentence=(
            f"On {found.square} {SIDES[found.side]} bears with {_pieces(found.attackers)}, "
            f"{SIDES[not found.side]} with {_pieces(found.defenders)}"
        ),
        marks=(*strokes, ticks(target)),
    )


def _pieces(forces: Sequence[Force]) -> str:
    return pieces_in_words(one.piece for one in forces if one.counts) or "nothing"


def _pawns(board: chess.Board, side: chess.Color) -> Iterator[Tag]:
    """Yield the named pawns of a side."""
    named = structure(board, side)
    last = "8" if side else "1"
    ahead = 8 if side else -8
    for pawn in named.isolated:
        words = "is isolated: no pawn of its side stands on a file beside it"
        yield _pawn(board, side, "isolated pawn", pawn, words)
    yield from _doubled(board, side, named.doubled)
    for pawn in named.passed:
        words = "is passed: no enemy pawn can stop it on its way"
        way = force(chess.parse_square(pawn), chess.parse_square(pawn[0] + last))
        yield _pawn(board, side, "passed pawn", pawn, words, marks=[way])
    for pawn in named.backward:
        stop = chess.square_name(chess.parse_square(pawn) + ahead)
        words = f"is backward: no pawn can defend it, and an enemy pawn covers {stop}"
        yield _pawn(board, side, "backward pawn", pawn, words, squares=[stop])


def _doubled(board: chess.Board, side: chess.Color, pawns: Sequence[str]) -> Iterator[Tag]:
    """Yield the doubled pawns of a side, those of one file together, the hindmost first."""
    for letter in sorted({pawn[0] for pawn in pawns}):
        names = sorted((pawn for pawn in pawns if pawn[0] == letter), reverse=not side)
        squares = [chess.parse_square(one) for one in names]
        yield _fact(
            board,
            "doubled pawns",
            side=side,
            actor=squares[0],
            targets=squares,
            sentence=f"The pawns on {listed(names)} are doubled",
            marks=[ticks(one) for one in squares],
        )


def _pawn(
    board: chess.Board,
    side: chess.Color,
    kind: str,
    pawn: str,
    words: str,
    *,
    squares: Sequence[str] = (),
    marks: Sequence[Mark] = (),
) -> Tag:
    square = chess.parse_square(pawn)
    return _fact(
        board,
        kind,
        side=side,
        actor=square,
        targets=[square],
        squares=squares,
        sentence=f"The pawn on {pawn} {words}",
        marks=marks or [ticks(square)],
    )


def _half_open(board: chess.Board, side: chess.Color) -> Iterator[Tag]:
    found = files(board)
    for letter in found.half_open_for_white if side else found.half_open_for_black:
        words = f"The {letter}-file is half-open for {SIDES[side]}: only enemy pawns stand on it"
        yield _file(board, side, letter, "half-open file", words)


def _file(board: chess.Board, side: chess.Color, letter: str, kind: str, sentence: str) -> Tag:
    first, last = ("1", "8") if side else ("8", "1")
    start, end = chess.parse_square(letter + first), chess.parse_square(letter + last)
    return _fact(board, kind, side=side, actor=start, sentence=sentence, marks=[force(start, end)])


def _back_rank(board: chess.Board, side: chess.Color) -> Iterator[Tag]:
    """Yield the weak back rank of a side, from the point of view of the other."""
    king = board.king(side)
    rank = 0 if side else 7
    if king is None or chess.square_rank(king) != rank:
        return
    heavy = board.rooks | board.queens
    own, enemy = board.occupied_co[side], board.occupied_co[not side]
    if not heavy & enemy or heavy & own & chess.BB_RANKS[rank]:
        return
    before = chess.SquareSet(chess.BB_KING_ATTACKS[king] & ~chess.BB_RANKS[rank])
    if any(
        not own & chess.BB_SQUARES[one] and not board.attackers(not side, one) for one in before
    ):
        return
    yield _fact(
        board,
        "weak back rank",
        side=not side,
        actor=king,
        targets=[king],
        squares=[chess.square_name(one) for one in before],
        sentence=f"{The(board, king)} has no safe square before it, and no rook or queen beside it",
        marks=[ticks(king)],
    )


def _uncastled(board: chess.Board, side: chess.Color) -> Iterator[Tag]:
    """Yield the king of a side that stays in the middle, from the point of view of the other."""
    king = board.king(side)
    if king is None or board.has_castling_rights(side) or not board.pieces(chess.QUEEN, not side):
        return
    ranks = (0, 1) if side else (7, 6)
    in_the_middle = chess.square_file(king) in MIDDLE and chess.square_rank(king) in ranks
    if not in_the_middle or _has_castled(board, side):
        return
    yield _fact(
        board,
        "uncastled king",
        side=not side,
        actor=king,
        targets=[king],
        sentence=f"{The(board, king)} stands in the middle and may castle no more",
        marks=[ring(king)],
    )


def _has_castled(board: chess.Board, side: chess.Color) -> bool:
    """Tell whether a side castled in the moves that are known."""
    earlier = board.copy()
    while earlier.move_stack:
        move = earlier.pop()
        if move and earlier.turn == side and earlier.is_castling(move):
            return True
    return False


def _fact(
    board: chess.Board,
    kind: str,
    *,
    side: chess.Color,
    actor: chess.Square,
    targets: Sequence[chess.Square] = (),
    squares: Sequence[str] = (),
    sentence: str,
    marks: Sequence[Mark] = (),
) -> Tag:
    tag = static_tag(
        kind,
        board,
        side=side,
        actor=actor,
        targets=targets,
        squares=[chess.parse_square(one) for one in squares],
        sentence=sentence,
        marks=marks,
    )
    return replace(tag, fact=True)
