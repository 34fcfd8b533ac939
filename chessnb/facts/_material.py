"""Material: what each side has, and what it has more or less than the other."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.naming import NUMBERS, counted, listed
from chessnb.board.points import POINTS
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of, side_word
from chessnb.mistakes import checked

KINDS = (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)
"""The kinds of pieces that count as material, the dearest first."""

Extra = dict[chess.PieceType, int]
"""How many pieces of a kind a side has more than the other; only positive numbers."""


@dataclass(frozen=True, kw_only=True)
class PieceCounts:
    """How many pieces of each kind a side has, its king left out."""

    queens: int = 0
    rooks: int = 0
    bishops: int = 0
    knights: int = 0
    pawns: int = 0

    @property
    def counts(self) -> tuple[int, ...]:
        """The numbers in the order of :data:`KINDS`."""
        return (self.queens, self.rooks, self.bishops, self.knights, self.pawns)

    @property
    def points(self) -> int:
        """What they are worth together."""
        return sum(POINTS[kind] * count for kind, count in zip(KINDS, self.counts, strict=True))


@dataclass(frozen=True, kw_only=True)
class Material(Finding):
    """The material of a position.

    Attributes
    ----------
    fen : str
        The position.
    white, black : PieceCounts
        What each side has.
    bishop_pair : tuple of chess.Color
        The sides with bishops on squares of both colours.
    opposite_bishops : bool
        Each side has one bishop, and they run on squares of different colours.
    """

    fen: str
    white: PieceCounts
    black: PieceCounts
    bishop_pair: tuple[chess.Color, ...]
    opposite_bishops: bool

    @property
    def balance(self) -> int:
        """Points that White is ahead; negative if Black is."""
        return self.white.points - self.black.points

    @property
    def record(self) -> Record:
        """What each side has more than the other, and who is ahead in points."""
        extras = {"white": _extra(self.white, self.black), "black": _extra(self.black, self.white)}
        fields = [f"{side} {_letters(extra)}" for side, extra in extras.items() if extra]
        ahead = f"{side_word(self.balance > 0)} {abs(self.balance)} points"
        fields.append(ahead if self.balance else "even")
        if len(self.bishop_pair) == 1:
            fields.append(f"bishop pair {side_word(self.bishop_pair[0])}")
        if self.opposite_bishops:
            fields.append("opposite bishops")
        place = place_of(chess.Board(self.fen))
        return Record(place=place, kind="material", fields=tuple(fields), status="rules")

    @property
    def words(self) -> str:
        """Who has what more than the other, and what is counted."""
        return f"material: {self.in_words}"

    @property
    def in_words(self) -> str:
        """Who has what more than the other: ``"White is a pawn ahead"``."""
        return "; ".join((self._words(), *self._bishops()))

    def _words(self) -> str:
        white, black = _extra(self.white, self.black), _extra(self.black, self.white)
        if not white and not black:
            return "level"
        leads = self._subject(white, black)
        mine, theirs = (white, black) if leads else (black, white)
        sides = (self.white, self.black) if leads else (self.black, self.white)
        words = _compared(mine, theirs, only_queens=[side.queens == 1 for side in sides])
        return f"{SIDES[leads]} {words}{_points(abs(self.balance), mine, theirs)}"

    def _subject(self, white: Extra, black: Extra) -> chess.Color:
        """Speak of the side that is ahead; if none is, of the one with the dearest piece."""
        if self.balance:
            return self.balance > 0
        return max(white) > max(black)

    def _bishops(self) -> list[str]:
        words = []
        if len(self.bishop_pair) == 1:
            words.append(f"{SIDES[self.bishop_pair[0]]} has the bishop pair")
        if self.opposite_bishops:
            words.append("opposite-coloured bishops")
        return words


@gathered
@checked
def material(position: Position) -> Material:
    """Count the material and say in words who has what.

    Pieces that both sides have are left out; the rest is described. Points are
    the trade's 1-3-3-5-9 (common practice, no source).

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.

    Returns
    -------
    Material
        With the balance from White's point of view.

    Examples
    --------
    >>> print(material("start"))
    1. | material | even | rules
    >>> print(material("4k3/pp6/8/8/8/2b5/PP6/R3K3 w - - 0 1"))
    1. | material | white R | black B | white 2 points | rules
    >>> material("4k3/pp6/8/8/8/2b5/PP6/R3K3 w - - 0 1").in_words
    'White is the exchange ahead (rook for bishop), 2 points'
    """
    board = read_position(position)
    bishops = {color: board.pieces(chess.BISHOP, color) for color in chess.COLORS}
    light = chess.SquareSet(chess.BB_LIGHT_SQUARES)
    lone = all(len(squares) == 1 for squares in bishops.values())
    return Material(
        fen=board.fen(),
        white=_pieces(board, chess.WHITE),
        black=_pieces(board, chess.BLACK),
        bishop_pair=tuple(
            color for color, squares in bishops.items() if squares & light and squares - light
        ),
        opposite_bishops=lone and len((bishops[True] | bishops[False]) & light) == 1,
    )


def _pieces(board: chess.Board, color: chess.Color) -> PieceCounts:
    queens, rooks, bishops, knights, pawns = (len(board.pieces(kind, color)) for kind in KINDS)
    return PieceCounts(queens=queens, rooks=rooks, bishops=bishops, knights=knights, pawns=pawns)


def _extra(mine: PieceCounts, theirs: PieceCounts) -> Extra:
    counts = zip(KINDS, mine.counts, theirs.counts, strict=True)
    return {kind: ours - other for kind, ours, other in counts if ours > other}


def _letters(extra: Extra) -> str:
    return "".join(chess.piece_symbol(kind).upper() * count for kind, count in extra.items())


def _compared(mine: Extra, theirs: Extra, *, only_queens: list[bool]) -> str:
    """Return what follows the name of a side that has `mine` for `theirs`.

    `only_queens` says of either side whether it has one queen: then it is *the* queen.
    """
    if not theirs:
        return f"is {_with_articles(mine)} ahead"
    in_brackets = f"({_bare(mine)} for {_bare(theirs)})"
    if (paid := _beyond_the_exchange(mine, theirs)) is not None:
        return f"{_exchange_up(mine[chess.ROOK], *paid)} {in_brackets}"
    if (paid := _beyond_the_exchange(theirs, mine)) is not None:
        exchanges = _exchanges(theirs[chess.ROOK])
        return f"has {_with_articles({chess.PAWN: paid[1]})} for {exchanges} {in_brackets}"
    ours, other = (
        _with_articles(extra, definite=only)
        for extra, only in zip((mine, theirs), only_queens, strict=True)
    )
    return f"has {ours} for {other}"


def _beyond_the_exchange(rooks: Extra, minors: Extra) -> tuple[int, int] | None:
    """Return the pawns of either side beside rooks against as many minor pieces."""
    small = minors.get(chess.BISHOP, 0) + minors.get(chess.KNIGHT, 0)
    pure = set(rooks) <= {chess.ROOK, chess.PAWN} and not {chess.ROOK, chess.QUEEN} & set(minors)
    if not pure or not small or rooks.get(chess.ROOK, 0) != small:
        return None
    return rooks.get(chess.PAWN, 0), minors.get(chess.PAWN, 0)


def _exchange_up(number: int, pawns_won: int, pawns_paid: int) -> str:
    exchanges = _exchanges(number)
    if pawns_paid:
        return f"has {exchanges} for {_with_articles({chess.PAWN: pawns_paid})}"
    if pawns_won:
        return f"is {exchanges} and {_with_articles({chess.PAWN: pawns_won})} ahead"
    return f"is {exchanges} ahead"


def _exchanges(number: int) -> str:
    return "the exchange" if number == 1 else f"{NUMBERS[number]} exchanges"


def _points(points: int, mine: Extra, theirs: Extra) -> str:
    if not points:
        return ", level in points"
    # "Two pawns ahead" says it already.
    return "" if not theirs and set(mine) == {chess.PAWN} else f", {counted(points, 'point')}"


def _with_articles(extra: Extra, *, definite: bool = False) -> str:
    """Write ``"a rook and two pawns"``; with `definite` a queen is *the* queen."""
    words = []
    for kind, count in extra.items():
        article = "the" if definite and kind == chess.QUEEN else "a"
        words.append(_number_of(kind, count, one=f"{article} "))
    return listed(words)


def _bare(extra: Extra) -> str:
    """Write ``"rook and two pawns"``."""
    return listed(_number_of(kind, count, one="") for kind, count in extra.items())


def _number_of(kind: chess.PieceType, count: int, *, one: str) -> str:
    name = chess.piece_name(kind)
    return f"{one}{name}" if count == 1 else f"{NUMBERS[count]} {name}s"
