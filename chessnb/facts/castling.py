"""Castling: who may, who may not now, and who never again (FIDE Laws, article 3.8)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.diagram import Diagram, Mark, diagram
from chessnb.facts.men import in_order, man_at, men_in_words
from chessnb.finding import Finding
from chessnb.notation.words import SIDES, listed, man
from chessnb.position import Position, board_of

WingName = Literal["kingside", "queenside"]
"""The two ways to castle."""

WINGS: tuple[WingName, ...] = ("kingside", "queenside")


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
    def line(self) -> str:
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


def castling(position: Position, side: chess.Color | None = None) -> Castling:
    """Say for each side and wing whether it may castle, and if not, why not.

    The reasons for a lost right are read from the moves that led to the
    position; where there are none, from where king and rook stand.  For the
    side that is not to move the answer is what it could do on its move.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.
    side : chess.Color, optional
        Look at this side only.

    Returns
    -------
    Castling
        One entry for each wing.

    Examples
    --------
    >>> print(castling("r3k2r/8/8/8/2b5/8/8/R1Q1K2R w KQk - 0 1", chess.WHITE))
    castling: White may not castle kingside now (f1 on the king's way is attacked by the bishop \
on c4); White may not castle queenside now (the queen on c1 stands in between)
    """
    board = board_of(position)
    sides = chess.COLORS if side is None else [side]
    return Castling(
        fen=board.fen(), wings=tuple(_wing(board, color, wing) for color in sides for wing in WINGS)
    )


def has_right(board: chess.Board, side: chess.Color, wing: WingName) -> bool:
    """Return whether a side still has the right to castle on a wing."""
    if wing == "kingside":
        return board.has_kingside_castling_rights(side)
    return board.has_queenside_castling_rights(side)


def _wing(board: chess.Board, side: chess.Color, wing: WingName) -> Wing:
    if not has_right(board, side, wing):
        return Wing(side=side, wing=wing, lost=_why_lost(board, side, wing))
    men_between = in_order(man_at(board, square) for square in _between(board, side, wing))
    verb = "stands" if len(men_between) == 1 else "stand"
    prevented = [f"{men_in_words(men_between)} {verb} in between"] if men_between else []
    attacks = list(_attacks(board, side, wing))
    return Wing(
        side=side,
        wing=wing,
        prevented=(*prevented, *(words for _, words in attacks)),
        attacked=tuple(square for square, _ in attacks),
    )


# -- what prevents it now (article 3.8.2.2) ----------------------------------


def _squares(
    board: chess.Board, side: chess.Color, wing: WingName
) -> tuple[chess.Square, chess.Square, chess.Square, chess.Square]:
    """Return the squares of king and rook, before and after castling."""
    king = board.king(side)
    assert king is not None  # board_of refuses positions without a king
    rooks = chess.SquareSet(board.clean_castling_rights() & board.occupied_co[side])
    rook = max(rooks) if wing == "kingside" else min(rooks)
    files = (6, 5) if wing == "kingside" else (2, 3)
    king_to, rook_to = (chess.square(file, chess.square_rank(king)) for file in files)
    return king, rook, king_to, rook_to


def _between(board: chess.Board, side: chess.Color, wing: WingName) -> chess.SquareSet:
    """Return the squares with men that stand in the way of king or rook."""
    king, rook, king_to, rook_to = _squares(board, side, wing)
    ways = _way(king, king_to) | _way(rook, rook_to)
    return chess.SquareSet(board.occupied) & ways - chess.SquareSet([king, rook])


def _way(start: chess.Square, end: chess.Square) -> chess.SquareSet:
    return chess.SquareSet(range(min(start, end), max(start, end) + 1))


def _attacks(board: chess.Board, side: chess.Color, wing: WingName) -> Iterator[tuple[str, str]]:
    """Run through the attacked squares of the king's way, with the words for each."""
    king, rook, king_to, rook_to = _squares(board, side, wing)
    occupied = chess.SquareSet(board.occupied)
    # Where it starts beside the king's goal, the rook may have shielded it (Chess960 only).
    castled = (occupied - chess.SquareSet([king, rook])) | chess.SquareSet([rook_to])
    for square in sorted(_way(king, king_to), key=lambda square: abs(square - king)):
        landing = square == king_to != king and not board.attackers(not side, king)
        attackers = board.attackers(not side, square, castled if landing else occupied)
        if not attackers:
            continue
        name = chess.square_name(square)
        who = men_in_words(in_order(man_at(board, attacker) for attacker in attackers))
        if square == king:
            yield name, f"the king on {name} is in check from {who}"
        elif square == king_to:
            yield name, f"{name} where the king would land is attacked by {who}"
        else:
            yield name, f"{name} on the king's way is attacked by {who}"


# -- why the right is lost (article 3.8.2.1) ---------------------------------


def _why_lost(board: chess.Board, side: chess.Color, wing: WingName) -> str:
    replay = board.root()
    if not has_right(replay, side, wing):
        if board.move_stack:
            return "it had gone before the moves that are known"
        return _as_it_stands(replay, side, wing)
    for move in board.move_stack:
        before = replay.copy(stack=False)
        replay.push(move)
        if not has_right(replay, side, wing):
            return _what_cost_it(before, move, side, wing)
    raise AssertionError("a right that the moves keep is not lost")


def _what_cost_it(board: chess.Board, move: chess.Move, side: chess.Color, wing: WingName) -> str:
    king, rook, _, _ = _squares(board, side, wing)
    at_move = f"at move {board.fullmove_number}"
    if board.turn == side and board.is_castling(move):
        return f"it castled {at_move}"
    if move.from_square == king:
        return f"the king moved {at_move}"
    verb = "moved" if board.turn == side else "was taken"
    return f"{man(board, rook)} {verb} {at_move}"


def _as_it_stands(board: chess.Board, side: chess.Color, wing: WingName) -> str:
    """Give the reason that a position without earlier moves shows."""
    rank = "1" if side else "8"
    if not board.chess960:
        if board.king(side) != chess.parse_square(f"e{rank}"):
            return f"the king is not on e{rank}"
        corner = f"{'h' if wing == 'kingside' else 'a'}{rank}"
        if board.piece_at(chess.parse_square(corner)) != chess.Piece(chess.ROOK, side):
            return f"no rook of its own is on {corner}"
    return "so the position was given, and how it came about is not known"


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
