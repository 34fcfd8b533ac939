"""What a spoken move says, before the legal moves are looked at."""

from __future__ import annotations

from dataclasses import dataclass

import chess


@dataclass(frozen=True, kw_only=True)
class Place:
    """A square, a file or a rank.

    Attributes
    ----------
    file, rank : int or None
        Counted from 0, as python-chess does; ``None`` if it was not said.
    """

    file: int | None = None
    rank: int | None = None

    def holds(self, square: chess.Square) -> bool:
        """Tell whether a square lies there."""
        return self.file in (None, chess.square_file(square)) and self.rank in (
            None,
            chess.square_rank(square),
        )

    @property
    def square(self) -> chess.Square | None:
        """The square, if it is one."""
        if self.file is None or self.rank is None:
            return None
        return chess.square(self.file, self.rank)


ANYWHERE = Place()


@dataclass(frozen=True, kw_only=True)
class Phrase:
    """What was said of a move.

    Attributes
    ----------
    piece, victim, promotion : chess.PieceType or None
        What moves, what is taken, what a pawn becomes.
    start, goal : Place
        Where from and where to.
    takes, promotes, passing, check, mate : bool
        Whether it is said to capture, to promote, to capture en passant, to
        give check (mate is a check too), to give mate.
    castles : bool
        Whether it is castling; then ``goal`` and ``wing`` say on which side.
    wing : bool or None
        The king's side (``True``), the queen's, or not said.
    side : chess.Color or None
        Whose move it is said to be.
    """

    piece: chess.PieceType | None = None
    victim: chess.PieceType | None = None
    promotion: chess.PieceType | None = None
    start: Place = ANYWHERE
    goal: Place = ANYWHERE
    takes: bool = False
    promotes: bool = False
    passing: bool = False
    check: bool = False
    mate: bool = False
    castles: bool = False
    wing: bool | None = None
    side: chess.Color | None = None

    def fits(self, board: chess.Board, move: chess.Move) -> bool:
        """Tell whether a move is the one that was said, check and mate aside."""
        if self.castles:
            return (
                board.is_castling(move)
                and self.wing in (None, board.is_kingside_castling(move))
                and self.goal.holds(move.to_square)
            )
        return (
            self.piece in (None, board.piece_type_at(move.from_square))
            and self.start.holds(move.from_square)
            and self.goal.holds(move.to_square)
            and (not self.takes or board.is_capture(move))
            and self.victim in (None, taken(board, move))
            and self.promotion in (None, move.promotion)
            and (not self.promotes or move.promotion is not None)
            and (not self.passing or board.is_en_passant(move))
            and not self._steps_aside(move)
        )

    def _steps_aside(self, move: chess.Move) -> bool:
        """Tell whether a pawn would capture without being said to: ``d5`` never means ``exd5``."""
        return (
            self.piece == chess.PAWN
            and not self.takes
            and self.start == ANYWHERE
            and not self.promotes
            and chess.square_file(move.from_square) != chess.square_file(move.to_square)
        )


def taken(board: chess.Board, move: chess.Move) -> chess.PieceType | None:
    """Return the kind of piece that a move takes; ``None`` if it takes none.

    Examples
    --------
    >>> board = chess.Board("4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1")
    >>> taken(board, chess.Move.from_uci("e5d6")), taken(board, chess.Move.from_uci("e5e6"))
    (1, None)
    """
    if board.is_en_passant(move):
        return chess.PAWN
    return board.piece_type_at(move.to_square) if board.is_capture(move) else None
