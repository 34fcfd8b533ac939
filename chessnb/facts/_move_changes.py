"""What a move changes, as values: the words stand in ``_phrases``, the finding in ``_changes``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.castling_rights import WingName
from chessnb.board.pieces import Piece
from chessnb.board.position import read_position
from chessnb.facts._comparison import Attack, Defence, ExchangeGain, Line, Pin

Check = Literal["", "check", "discovered check", "double check", "checkmate"]
"""What a move does to the enemy king."""

Right = tuple[chess.Color, WingName]
"""A right to castle."""


@dataclass(frozen=True, kw_only=True)
class MoveChanges:
    """What a move changes.

    All pieces are named by their squares after the move, a captured one by its
    last.  *Ours* is the side that moved.  Kings are left out of all lists of
    pieces that are attacked, defended or left; `check` speaks of them.

    Attributes
    ----------
    fen : str
        The position before the move.
    move : chess.Move
        The move.
    played : str
        The move with its number, such as ``"14. Nd5"``.
    moved : tuple of Piece
        The piece that moved; in castling king and rook; a promoted pawn as what
        it has become.
    captured : Piece or None
        What was taken.
    check : str
        ``"check"``, ``"discovered check"``, ``"double check"``,
        ``"checkmate"``, or nothing.
    checkers : tuple of Piece
        The pieces that give it.
    stalemate : bool
        The other side has no move and is not in check.
    answered : tuple of Piece
        The pieces whose check the move had to answer.
    attacks : tuple of Attack
        Enemy pieces that a moved piece bears on now and did not before.
    uncovered : tuple of Attack
        The same for our other pieces.
    defends : tuple of Defence
        Our pieces that a moved piece defends now and did not before.
    stops_attacking : tuple of Piece
        Enemy pieces that a moved piece bore on before and does not now.
    stops_defending : tuple of Piece
        Our pieces that a moved piece defended before and does not now.
    newly_attacked, no_longer_attacked : tuple of Piece
        Enemy pieces that any of our pieces bears on now and none did before; and
        the other way round.
    newly_defended, left_undefended : tuple of Piece
        Our pieces that have a defender now and had none; and the other way round.
    exposed, relieved : tuple of Piece
        Our pieces that an enemy piece bears on now and none did before; and the
        other way round.
    opened, closed : tuple of Line
        Lines opened and closed to our line pieces that did not move.
    opened_to_enemy, closed_to_enemy : tuple of Line
        The same for the enemy's.
    pins, releases : tuple of Pin
        Enemy pieces pinned to their king now and not before; and the other way
        round.
    gets_pinned, frees : tuple of Pin
        The same for our pieces.
    threatens : tuple of ExchangeGain
        Enemy pieces on whose squares we could gain more than before, if it were
        our move again.  Empty if the enemy is in check, where no pass exists.
    offers : tuple of ExchangeGain
        Our pieces on whose squares the enemy can gain more than before; a
        capture's gain is set against what it took; a check that had to be
        answered is set aside.
    leaves : tuple of ExchangeGain
        Our pieces on whose squares the enemy could have gained before, and still can.
    forces_mate : bool
        Whether we mate with the next move, whatever the reply.
    parries : tuple of Piece
        Our pieces on whose squares the enemy could have gained and no longer can;
        if the move checks, behind no reply.
    castling_lost : tuple of (chess.Color, str)
        Rights to castle that the move has ended.
    passed, isolated, doubled, backward : tuple of Piece
        Pawns of both sides that have become so.
    files_opened, files_half_opened : tuple of str
        Letters of files that are open now, and half-open for us.
    """

    fen: str
    move: chess.Move
    played: str
    moved: tuple[Piece, ...]
    captured: Piece | None = None
    check: Check = ""
    checkers: tuple[Piece, ...] = ()
    stalemate: bool = False
    answered: tuple[Piece, ...] = ()
    attacks: tuple[Attack, ...] = ()
    uncovered: tuple[Attack, ...] = ()
    defends: tuple[Defence, ...] = ()
    stops_attacking: tuple[Piece, ...] = ()
    stops_defending: tuple[Piece, ...] = ()
    newly_attacked: tuple[Piece, ...] = ()
    no_longer_attacked: tuple[Piece, ...] = ()
    newly_defended: tuple[Piece, ...] = ()
    left_undefended: tuple[Piece, ...] = ()
    exposed: tuple[Piece, ...] = ()
    relieved: tuple[Piece, ...] = ()
    opened: tuple[Line, ...] = ()
    closed: tuple[Line, ...] = ()
    opened_to_enemy: tuple[Line, ...] = ()
    closed_to_enemy: tuple[Line, ...] = ()
    pins: tuple[Pin, ...] = ()
    releases: tuple[Pin, ...] = ()
    gets_pinned: tuple[Pin, ...] = ()
    frees: tuple[Pin, ...] = ()
    threatens: tuple[ExchangeGain, ...] = ()
    offers: tuple[ExchangeGain, ...] = ()
    leaves: tuple[ExchangeGain, ...] = ()
    forces_mate: bool = False
    parries: tuple[Piece, ...] = ()
    castling_lost: tuple[Right, ...] = ()
    passed: tuple[Piece, ...] = ()
    isolated: tuple[Piece, ...] = ()
    doubled: tuple[Piece, ...] = ()
    backward: tuple[Piece, ...] = ()
    files_opened: tuple[str, ...] = ()
    files_half_opened: tuple[str, ...] = ()

    @property
    def piece(self) -> Piece:
        """The piece that moved; in castling the king."""
        return self.moved[0]

    @property
    def side(self) -> chess.Color:
        """The side that moved."""
        return self.piece.color

    @property
    def ends_the_game(self) -> bool:
        """Whether the move mates or stalemates."""
        return self.check == "checkmate" or self.stalemate

    @property
    def castles(self) -> WingName | None:
        """Where the move castles; None if it does not."""
        if len(self.moved) < 2:
            return None
        return "kingside" if self.piece.square[0] == "g" else "queenside"

    @property
    def en_passant(self) -> bool:
        """Whether the move takes a pawn beside the square to which it goes."""
        return self.captured is not None and self.captured.square != self.piece.square

    @property
    def after(self) -> chess.Board:
        """The position after the move; a new board each time."""
        board = read_position(self.fen)
        board.push(self.move)
        return board
