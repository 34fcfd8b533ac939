"""Castling: who may, who may not now, and who never again (FIDE Laws, article 3.8)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.castling_rights import WINGS, WingName, has_right, obstacles, why_lost
from chessnb.board.naming import listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of, side_word
from chessnb.mistakes import checked


@dataclass(frozen=True, kw_only=True)
class Wing:
    """Castling of one side on one wing.

    Attributes
    ----------
    side : chess.Color
        Whose castling it is.
    wing : {"kingside", "queenside"}
        Which.
    lost : str
        Why the right has gone (article 3.8.2.1); empty while it stands.
    prevented : tuple of str
        All that prevents it for the time being (article 3.8.2.2).
    attacked : tuple of str
        The squares on the king's way that an enemy piece attacks.
    """

    side: chess.Color
    wing: WingName
    lost: str = ""
    prevented: tuple[str, ...] = ()
    attacked: tuple[str, ...] = ()

    @property
    def may(self) -> bool:
        """Whether the side may castle here now, or could if it were its move."""
        return not self.lost and not self.prevented


@dataclass(frozen=True, kw_only=True)
class Castling(Finding):
    """Who may castle where, and what stands against it.

    Attributes
    ----------
    fen : str
        The position.
    wings : tuple of Wing
        White's kingside, White's queenside, Black's kingside, Black's
        queenside; two of them if one side was asked for.
    """

    fen: str
    wings: tuple[Wing, ...]

    @property
    def record(self) -> Record:
        """Whether each side may castle there, may not now, or may no more."""
        fields = [
            f"{side_word(wing.side)} {wing.wing} "
            + ("can" if wing.may else "no more" if wing.lost else "not now")
            for wing in self.wings
        ]
        place = place_of(chess.Board(self.fen))
        return Record(place=place, kind="castling", fields=tuple(fields), status="rules")

    @property
    def words(self) -> str:
        """What each side may, may not now, and may no more."""
        return f"castling: {'; '.join(self._words())}"

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """One sentence for each thing."""
        return tuple(f"{words}." for words in self._words())

    @property
    def picture(self) -> Diagram:
        """The board, with ticks at the attacked squares of the kings' ways."""
        attacked = sorted({square for wing in self.wings for square in wing.attacked})
        return diagram(self.fen, marks=[Mark(role="target", square=square) for square in attacked])

    def _words(self) -> list[str]:
        sides = sorted({wing.side for wing in self.wings}, reverse=True)
        return [
            words
            for side in sides
            for words in _side_in_words([wing for wing in self.wings if wing.side == side])
        ]


@gathered
@checked
def castling(position: Position, side: Side | None = None) -> Castling:
    """Say for each side and wing whether it may castle, and if not, why not.

    The reasons for a lost right are read from the moves that led to the
    position; where there are none, from where king and rook stand.  For the
    side that is not to move the answer is what it could do on its move.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    side : {"White", "Black"} or chess.Color, optional
        Look at this side only.

    Returns
    -------
    Castling
        One entry for each wing.

    Examples
    --------
    >>> found = castling("r3k2r/8/8/8/2b5/8/8/R1Q1K2R w KQk - 0 1", "White")
    >>> print(found)
    1. | castling | white kingside not now | white queenside not now | rules
    >>> found.paragraphs[1]
    'White may not castle queenside now (the queen on c1 is in the way).'
    """
    board = read_position(position)
    sides = chess.COLORS if side is None else [read_side(side)]
    return Castling(
        fen=board.fen(), wings=tuple(_wing(board, color, wing) for color in sides for wing in WINGS)
    )


def _wing(board: chess.Board, side: chess.Color, wing: WingName) -> Wing:
    if not has_right(board, side, wing):
        return Wing(side=side, wing=wing, lost=why_lost(board, side, wing))
    found = obstacles(board, side, wing)
    return Wing(
        side=side,
        wing=wing,
        prevented=tuple(obstacle.words for obstacle in found),
        attacked=tuple(
            chess.square_name(obstacle.attacked)
            for obstacle in found
            if obstacle.attacked is not None
        ),
    )


# -- words -------------------------------------------------------------------


def _side_in_words(wings: list[Wing]) -> Iterator[str]:
    side = SIDES[wings[0].side]
    if free := [wing.wing for wing in wings if wing.may]:
        yield f"{side} may castle {listed(free)}"
    for wing in wings:
        if wing.prevented:
            yield f"{side} may not castle {wing.wing} now ({listed(wing.prevented)})"
    lost = [wing for wing in wings if wing.lost]
    if len(lost) == 2 and lost[0].lost == lost[1].lost:
        yield f"{side} has no right to castle any more ({lost[0].lost})"
    else:
        for wing in lost:
            yield f"{side} has no right to castle {wing.wing} any more ({wing.lost})"
