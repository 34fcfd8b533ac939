"""Draws: what has ended the game, what ends it by itself, and what may be claimed.

The rules are those of the FIDE Laws, articles 5.2, 9.2, 9.3 and 9.6.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.naming import counted, listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.findings import Finding
from chessnb.mistakes import checked

FIFTY_MOVES, SEVENTY_FIVE_MOVES = 100, 150
"""The moves of articles 9.3 and 9.6.2, in plies: both sides make each of them."""

THREEFOLD, FIVEFOLD = 3, 5
"""How often a position must occur by articles 9.2 and 9.6.1."""

_TIMES = {1: "once", 2: "twice"}


@dataclass(frozen=True, kw_only=True)
class DrawFacts(Finding):
    """What a position has to do with a draw.

    Attributes
    ----------
    fen : str
        The position.
    checkmate : bool
        The side to move is mated: no draw any more (article 5.1.1).
    stalemate : bool
        Article 5.2.1.
    dead : bool
        Neither side has the material to mate (article 5.2.2).
    occurrences : int
        How often the position has occurred among the moves that are known.
    history_known : bool
        Whether the moves that are known go back far enough to count them all.
    quiet_plies : int
        Plies without a pawn move and without a capture.
    repeating_moves : tuple of str
        Moves, in SAN, that bring about a position for the third time or more.
    fiftieth_moves : tuple of str
        Moves, in SAN, that complete fifty moves without pawn move and capture.
    """

    fen: str
    checkmate: bool
    stalemate: bool
    dead: bool
    occurrences: int
    history_known: bool
    quiet_plies: int
    repeating_moves: tuple[str, ...]
    fiftieth_moves: tuple[str, ...]

    @property
    def drawn(self) -> tuple[str, ...]:
        """Why the game is drawn without anybody's claim; empty if it is not."""
        if self.checkmate:
            return ()
        reasons = (
            (self.stalemate, "stalemate"),
            (self.dead, "dead position, neither side has the material to mate"),
            (self.occurrences >= FIVEFOLD, f"the position has occurred {self._times()}"),
            (self.quiet_plies >= SEVENTY_FIVE_MOVES, _quiet(self.quiet_plies)),
        )
        return tuple(words for holds, words in reasons if holds)

    @property
    def may_be_claimed(self) -> tuple[str, ...]:
        """Why the side to move may claim a draw; empty if it may not, or the game is over."""
        if self.drawn or self.checkmate:
            return ()
        reasons = []
        if self.occurrences >= THREEFOLD:
            reasons.append(f"the position has occurred {self._times()}")
        elif self.repeating_moves:
            moves = listed(self.repeating_moves, joint="or")
            reasons.append(f"by writing down {moves}, which repeats a position the third time")
        if self.quiet_plies >= FIFTY_MOVES:
            reasons.append(_quiet(self.quiet_plies))
        elif self.fiftieth_moves:
            reasons.append("by writing down a move that completes fifty without pawn or capture")
        return tuple(reasons)

    @property
    def line(self) -> str:
        """The draw, the claim, or that there is none."""
        if self.checkmate:
            return "draw: no, checkmate"
        if self.drawn:
            return f"draw: {'; '.join(self.drawn)}"
        claims = self.may_be_claimed
        words = f"{self._side()} may claim it: {'; '.join(claims)}" if claims else self._none()
        return f"draw: {words}{'' if self.history_known else '; history not known'}"

    def _none(self) -> str:
        return f"none, and none to claim ({self._counts()})"

    def _counts(self) -> str:
        quiet = counted(self.quiet_plies, "half-move")
        seen = f"the position has occurred {self._times()}, " if self.history_known else ""
        return f"{seen}{quiet} without pawn move or capture"

    def _times(self) -> str:
        return _TIMES.get(self.occurrences, f"{self.occurrences} times")

    def _side(self) -> str:
        return SIDES[self.fen.split()[1] == "w"]


@checked
def draws(position: Position) -> DrawFacts:
    """Say whether the position is a draw, or whether one may be claimed.

    A dead position is seen only where neither side has the material to mate
    (king against king, one minor piece, bishops on one colour of squares);
    walls of blocked pawns are not seen.  A draw may be claimed in the
    position itself or with a move written down beforehand (articles 9.2.1 and
    9.3.1); five occurrences and 75 moves end the game by themselves.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position.  From a FEN alone, repetitions cannot be counted, and
        the text says so.

    Returns
    -------
    DrawFacts
        The counts, and what follows from them for the side to move.

    Examples
    --------
    >>> print(draws("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"))
    draw: stalemate
    >>> print(draws("start"))
    draw: none, and none to claim (the position has occurred once, 0 half-moves without pawn \
move or capture)
    """
    board = read_position(position)
    quiet = board.halfmove_clock
    return DrawFacts(
        fen=board.fen(),
        checkmate=board.is_checkmate(),  # article 5.1.1
        stalemate=board.is_stalemate(),  # article 5.2.1
        dead=board.is_insufficient_material(),  # article 5.2.2
        occurrences=_occurrences(board),  # article 9.2
        history_known=_history_reaches_back(board),
        quiet_plies=quiet,
        repeating_moves=_repeating_moves(board),  # article 9.2.1.1
        fiftieth_moves=_fiftieth_moves(board) if quiet == FIFTY_MOVES - 1 else (),  # 9.3.1
    )


def _history_reaches_back(board: chess.Board) -> bool:
    """Say whether no earlier move than the known ones can have led to this position.

    A pawn move or a capture cannot be taken back, so nothing older matters.
    """
    if board.move_stack:
        return len(board.move_stack) >= board.halfmove_clock
    return board.fen() == chess.STARTING_FEN


def _occurrences(board: chess.Board) -> int:
    """Count how often the position has occurred (article 9.2.2 says what is the same)."""
    times = 1
    while board.is_repetition(times + 1):
        times += 1
    return times


def _repeating_moves(board: chess.Board) -> tuple[str, ...]:
    moves = []
    for move in list(board.legal_moves):
        name = board.san(move)
        board.push(move)
        if board.is_repetition(THREEFOLD):
            moves.append(name)
        board.pop()
    return tuple(sorted(moves))


def _fiftieth_moves(board: chess.Board) -> tuple[str, ...]:
    moves = []
    for move in list(board.legal_moves):
        name, zeroing = board.san(move), board.is_zeroing(move)
        board.push(move)
        # After mate or stalemate there is nothing to claim any more.
        if not zeroing and any(board.legal_moves):
            moves.append(name)
        board.pop()
    return tuple(sorted(moves))


def _quiet(plies: int) -> str:
    return f"{plies // 2} moves by each side without pawn move or capture"
