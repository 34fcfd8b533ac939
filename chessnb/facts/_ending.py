"""Endings: their names, who has the opposition, and what is worked out exactly.

It is an ending (common practice, no source) when each side has at most two
pieces beside king and pawns, and whoever has a queen has no other piece.
Opposition, key squares and the rule of the square are defined in
:mod:`chessnb.facts._ending_parts`, and looked at in pawn endings alone.
King and pawn, queen or rook against king are worked out exactly
(:mod:`chessnb.facts._king_and_pawn`, :mod:`chessnb.facts._bare_king`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from chessnb.board.naming import NUMBERS, counted, listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.facts._ending_parts import (
    KeySquares,
    Opposition,
    Outcome,
    Runner,
    key_squares,
    opposition,
    outcomes,
    runners,
)
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of, side_word
from chessnb.mistakes import checked

MOST_PIECES = 2
"""So many pieces a side may have beside king and pawns."""


@dataclass(frozen=True, kw_only=True)
class Ending(Finding):
    """What there is to say of an ending.

    Attributes
    ----------
    fen : str
        The position.
    name : str
        What it is called: ``"a rook ending"``; empty if it is no ending.
    opposition : Opposition or None
        Who has the opposition, in a pawn ending.
    key_squares : KeySquares or None
        Those of the only pawn, in a pawn ending.
    runners : tuple of Runner
        The passed pawns that could run, in a pawn ending.
    outcomes : tuple of Outcome
        What comes of it, the side to move first, where that is worked out.
    """

    fen: str
    name: str
    opposition: Opposition | None = None
    key_squares: KeySquares | None = None
    runners: tuple[Runner, ...] = ()
    outcomes: tuple[Outcome, ...] = ()

    @property
    def record(self) -> Record:
        """The material, and all that was found."""
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="ending",
            fields=tuple(self._fields()),
            status="rules",
        )

    def _fields(self) -> Iterator[str]:
        yield _material(chess.Board(self.fen)) if self.name else "none"
        if self.opposition is not None:
            yield f"opposition {self.opposition.kind} {side_word(self.opposition.side)}"
        if self.key_squares is not None:
            reached = " reached" if self.key_squares.reached else ""
            yield f"key squares {' '.join(self.key_squares.squares)}{reached}"
        for runner in self.runners:
            reach = "in reach" if runner.in_reach else "out of reach"
            yield f"{side_word(runner.side)} pawn {runner.square} {reach}"
        for outcome in self.outcomes:
            said = "drawn"
            if outcome.winner is not None:
                mate = f" mate {outcome.mate}" if outcome.mate else ""
                said = f"won {side_word(outcome.winner)}{mate}"
            yield f"{side_word(outcome.turn)} to move: {said}"

    @property
    def words(self) -> str:
        """The sentences, in one line."""
        return " ".join(self.paragraphs)

    @property
    def paragraphs(self) -> Sequence[str]:
        """The name with the pawns, then a sentence for each part."""
        return tuple(self._sentences())

    def _sentences(self) -> Iterator[str]:
        if not self.name:
            yield "It is not an ending yet."
            return
        yield f"{self.title[0].upper()}{self.title[1:]}."
        if self.opposition is not None:
            yield _opposition_sentence(self.opposition)
        if self.key_squares is not None:
            yield _key_sentence(self.key_squares)
        for runner in self.runners:
            yield _runner_sentence(runner)
        if self.outcomes:
            yield _outcome_sentence(self.outcomes)

    @property
    def title(self) -> str:
        """The name with the pawns: ``"a rook ending, four pawns against three"``."""
        return title_of(chess.Board(self.fen), self.name) if self.name else ""

    @property
    def picture(self) -> Diagram:
        """The board, with the key squares outlined and the ways of running pawns."""
        marks: list[Mark] = []
        if self.key_squares is not None:
            marks += [Mark(role="lure", square=square) for square in self.key_squares.squares]
        for runner in self.runners:
            end = f"{runner.square[0]}{8 if runner.side else 1}"
            marks.append(Mark(role="force", square=runner.square, to=end))
        return diagram(self.fen, marks=marks)


@gathered
@checked
def ending(position: Position) -> Ending:
    """Name an ending, and say what is known of it by rule or worked out exactly.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.

    Returns
    -------
    Ending
        With an empty name if it is not an ending yet.

    Notes
    -----
    Queen or rook against king takes about a second, once for each.

    Examples
    --------
    >>> found = ending("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1")
    >>> print(found)
    1. | ending | KP-K | opposition direct black | key squares d6 e6 f6 | white to move: drawn \
| black to move: won white | rules
    >>> ending("6k1/5pp1/7p/8/8/1r5P/5PP1/R5K1 w - - 0 1").title
    'a rook ending, three pawns each'
    """
    return ending_on(read_position(position))


def ending_on(board: chess.Board) -> Ending:
    """Return the same of a board that has been read."""
    name = name_of(board)
    pawns = name == PAWN_ENDING
    return Ending(
        fen=board.fen(),
        name=name,
        opposition=opposition(board) if pawns else None,
        key_squares=key_squares(board) if pawns and chess.popcount(board.pawns) == 1 else None,
        runners=tuple(runners(board)) if pawns else (),
        outcomes=tuple(outcomes(board)),
    )


# -- names -----------------------------------------------------------------------

PAWN_ENDING = "a pawn ending"

_BOTH = {
    "": PAWN_ENDING, "Q": "a queen ending", "R": "a rook ending", "B": "a bishop ending",
    "N": "a knight ending", "RR": "an ending with two rooks each",
}  # fmt: skip
"""What an ending is called in which both sides have the same."""


def name_of(board: chess.Board) -> str:
    """Return what an ending is called, without its pawns; empty if it is none."""
    white, black = _letters(board, chess.WHITE), _letters(board, chess.BLACK)
    if not (white or black or board.pawns) or not (_is_little(white) and _is_little(black)):
        return ""
    if white == black == "B":
        one = _on_one_colour(board.bishops)
        colours = "bishops of one colour" if one else "bishops of opposite colours"
        return f"an ending with {colours}"
    if white == black:
        return _BOTH.get(white) or f"an ending with {_in_words(white)} each"
    first, second = (white, black) if _worth(white) >= _worth(black) else (black, white)
    return f"{_in_words(first)} against {_rest(board, second, first == white)}"


def _letters(board: chess.Board, side: chess.Color) -> str:
    kinds = (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)
    return "".join(
        chess.piece_symbol(kind).upper() * len(board.pieces(kind, side)) for kind in kinds
    )


def _material(board: chess.Board) -> str:
    sides = (
        f"K{_letters(board, side)}{'P' * len(board.pieces(chess.PAWN, side))}"
        for side in (chess.WHITE, chess.BLACK)
    )
    return "-".join(sides)


def _is_little(letters: str) -> bool:
    return len(letters) <= MOST_PIECES and ("Q" not in letters or letters == "Q")


def _worth(letters: str) -> int:
    return sum({"Q": 90, "R": 50, "B": 31, "N": 30}[letter] for letter in letters)


def _on_one_colour(bishops: chess.Bitboard) -> bool:
    return chess.popcount(bishops & chess.BB_LIGHT_SQUARES) != 1


def _in_words(letters: str) -> str:
    names = []
    for letter in dict.fromkeys(letters):
        name = chess.piece_name(chess.PIECE_SYMBOLS.index(letter.lower()))
        number = letters.count(letter)
        names.append(name if number == 1 else f"{NUMBERS[number]} {name}s")
    return listed(names)


def _rest(board: chess.Board, letters: str, white_is_first: bool) -> str:
    if letters:
        return _in_words(letters)
    pawns = len(board.pieces(chess.PAWN, not white_is_first))
    return "king" if not pawns else "pawn" if pawns == 1 else "pawns"


def title_of(board: chess.Board, name: str) -> str:
    """Return an ending's name with its pawns.

    Where one side has nothing but pawns or its king, both sides are told in full.
    """
    sides = sorted(chess.COLORS, key=lambda side: -_worth(_letters(board, side)))
    pawns = {side: len(board.pieces(chess.PAWN, side)) for side in sides}
    bare = [side for side in sides if not _letters(board, side)]
    if len(bare) == 1 or (bare and sum(pawns.values()) == 1):
        sides.sort(key=lambda side: (-_worth(_letters(board, side)), -pawns[side]))
        return " against ".join(_in_full(_letters(board, side), pawns[side]) for side in sides)
    fewer, more = sorted(pawns.values())
    if not more:
        return name
    if more == fewer:
        return f"{name}, {counted_in_words(more)} each"
    return f"{name}, {counted_in_words(more)} against {NUMBERS[fewer] if fewer else 'none'}"


def _in_full(letters: str, pawns: int) -> str:
    """Write all that a side has: ``"rook and two pawns"``, ``"king and pawn"``, ``"king"``."""
    plural = f"{NUMBERS[pawns]} pawns"
    names = [_in_words(letters)] if letters else ["king"] if pawns < 2 else []
    return listed([*names, *([] if not pawns else ["pawn"] if pawns == 1 else [plural])])


def counted_in_words(pawns: int) -> str:
    """Write a number of pawns in words: ``"one pawn"``, ``"three pawns"``."""
    return f"{NUMBERS[pawns]} {'pawn' if pawns == 1 else 'pawns'}"


# -- sentences -------------------------------------------------------------------


def _opposition_sentence(found: Opposition) -> str:
    kind = {"direct": "", "distant": "distant ", "diagonal": "diagonal "}[found.kind]
    return (
        f"{SIDES[found.side]} has the {kind}opposition: the kings face each other, and it is "
        f"{SIDES[not found.side]}'s move."
    )


def _key_sentence(found: KeySquares) -> str:
    stands = "stands on one of them" if found.reached else "has not reached one"
    return (
        f"The key squares of the pawn on {found.pawn} are {listed(found.squares)}; "
        f"{SIDES[found.side]}'s king {stands}."
    )


def _runner_sentence(found: Runner) -> str:
    king = f"{SIDES[not found.side]}'s king"
    if found.in_reach:
        return f"{king} is in the square of the pawn on {found.square}."
    where = f"{king} is outside the square of the pawn on {found.square}"
    return f"{where}: if the pawn runs, it comes too late."


def _outcome_sentence(found: tuple[Outcome, ...]) -> str:
    said = [_said(outcome) for outcome in found]
    if len(found) == 2 and found[0].winner == found[1].winner and not found[0].mate:
        return f"{said[0][0].upper()}{said[0][1:]}, whoever is to move."
    parts = [
        f"with {SIDES[outcome.turn]} to move {words}"
        for outcome, words in zip(found, said, strict=True)
    ]
    text = "; ".join(parts)
    return f"{text[0].upper()}{text[1:]}."


def _said(outcome: Outcome) -> str:
    if outcome.winner is None:
        return "it is drawn"
    mate = f" mates in {counted(outcome.mate, 'move')}" if outcome.mate else " wins"
    return f"{SIDES[outcome.winner]}{mate}"
