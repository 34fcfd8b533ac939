"""A statement: what a sentence says of a position, in parts that can be proved and compared."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.sides import SIDES
from chessnb.board.turns import as_if_to_move
from chessnb.lessons import Moment

Kind = Literal[
    "mate",
    "checkmate",
    "check",
    "only move",
    "only legal move",
    "pinned",
    "threatens",
    "wins",
    "loses",
    "no defence",
    "attacks",
    "attacked",
    "defended",
    "undefended",
    "hanging",
    "all defended",
    "can castle",
    "cannot castle",
    "shows",
    "material",
    "stalemate",
    "perpetual",
    "draw",
    "cannot take",
    "cannot be taken",
    "cannot move",
    "pawn",
    "file",
    "trapped",
    "zugzwang",
    "parries",
    "illegal",
]
"""What a statement may say."""

Ground = Moment | chess.Board
"""A position of the lesson, or one that the words alone lead to, with the moves to it."""


@dataclass(frozen=True, kw_only=True)
class Statement:
    """What a sentence says.

    Attributes
    ----------
    kind : Kind
        What is said.
    sentence : str
        The sentence.
    at : Moment or chess.Board
        The position it speaks of; with `move`, the one before it.
    side : chess.Color or None
        Of whom it is said: who mates, wins, threatens, is to castle.
    move : chess.Move or None
        The move that it is about.
    played : bool
        Whether that move is the one that the sentence is a comment on.
    line : tuple of chess.Move
        The moves that the sentence leads through from its own position to `at`.
    piece : str
        The piece with its square, such as ``"Nc6"``; empty if none is meant.
    candidates : tuple of str
        Where the words leave it open which piece of a kind is meant: all that may be.
    square : str
        The square or file that is meant, where no piece stands for it.
    other : tuple of str
        The other pieces: what a piece is pinned to, what is forked; ``"K"``
        where the square is not named.
    what : str
        What is won or lost (``"queen"``, ``"exchange"``), the name of a tactic,
        the kind of a pawn, the wing, the material in words.
    number : int or None
        Moves to the mate; attackers.
    defenders : int or None
        Defenders.
    negated : bool
        Whether it is denied.
    past : bool
        Whether it is told as done: "has won the queen".
    """

    kind: Kind
    sentence: str
    at: Ground
    side: chess.Color | None = None
    move: chess.Move | None = None
    played: bool = False
    line: tuple[chess.Move, ...] = ()
    piece: str = ""
    candidates: tuple[str, ...] = ()
    square: str = ""
    other: tuple[str, ...] = ()
    what: str = ""
    number: int | None = None
    defenders: int | None = None
    negated: bool = False
    past: bool = False

    @property
    def board(self) -> chess.Board:
        """The position that it speaks of, a board of the caller's own."""
        return self.at.board if isinstance(self.at, Moment) else self.at.copy()

    @property
    def san(self) -> str:
        """The move in SAN; empty if there is none."""
        if self.move is None:
            return ""
        board = self.board
        mover = board.color_at(self.move.from_square)
        return as_if_to_move(board, board.turn if mover is None else mover).san(self.move)

    @property
    def parts(self) -> tuple[str, ...]:
        """All that is said, a word or two each, in one order: for comparing and for showing.

        Examples
        --------
        >>> Statement(kind="mate", sentence="Mate in two.", at=chess.Board(), number=2,
        ...           side=chess.WHITE).parts
        ('mate', 'White', '2')
        """
        said: list[str] = ["not"] if self.negated else []
        said.append(self.kind)
        said += [] if self.side is None else [SIDES[self.side]]
        numbers = (self.number, self.defenders)
        said += [self.san, self.piece, self.square, *self.other, self.what]
        said += [str(number) for number in numbers if number is not None]
        return tuple(one for one in said if one)
