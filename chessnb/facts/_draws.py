"""Draws: what has ended the game, what ends it by itself, and what may be claimed.

The rules are those of the FIDE Laws, articles 5.2, 9.2, 9.3 and 9.6.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.naming import counted, listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import number_in, place_of
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
    def drawn_by(self) -> tuple[str, ...]:
        """Why the game is drawn without anybody's claim, as fields of a record."""
        if self.checkmate:
            return ()
        reasons = (
            (self.stalemate, "stalemate"),
            (self.dead, "dead position"),
            (self.occurrences >= FIVEFOLD, self._occurred),
            (self.quiet_plies >= SEVENTY_FIVE_MOVES, self._quiet),
        )
        return tuple(field for holds, field in reasons if holds)

    @property
    def claimed_by(self) -> tuple[str, ...]:
        """Why the side to move may claim a draw, as fields of a record."""
        if self.drawn_by or self.checkmate:
            return ()
        fields = []
        if self.occurrences >= THREEFOLD:
            fields.append(self._occurred)
        elif self.repeating_moves:
            fields.append(f"repeating {' '.join(self.repeating_moves)}")
        if self.quiet_plies >= FIFTY_MOVES:
            fields.append(self._quiet)
        elif self.fiftieth_moves:
            fields.append(f"fiftieth {' '.join(self.fiftieth_moves)}")
        return tuple(fields)

    @property
    def drawn(self) -> tuple[str, ...]:
        """Why the game is drawn without anybody's claim; empty if it is not."""
        return tuple(map(reason_in_words, self.drawn_by))

    @property
    def may_be_claimed(self) -> tuple[str, ...]:
        """Why the side to move may claim a draw; empty if it may not, or the game is over."""
        return tuple(map(reason_in_words, self.claimed_by))

    @property
    def record(self) -> Record:
        """The draw, the claim, or that there is none, with the counts."""
        counts = (self._occurred, self._quiet) if self.history_known else (self._quiet,)
        if self.checkmate:
            fields: tuple[str, ...] = ("checkmate",)
        elif self.drawn_by:
            fields = ("drawn", *self.drawn_by)
        elif self.claimed_by:
            fields = ("may be claimed", *self.claimed_by)
        else:
            fields = ("none", *counts)
        place = place_of(chess.Board(self.fen))
        return Record(place=place, kind="draw", fields=fields, status="rules")

    @property
    def _occurred(self) -> str:
        return f"occurred {self.occurrences}"

    @property
    def _quiet(self) -> str:
        return f"quiet {self.quiet_plies}"

    @property
    def words(self) -> str:
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
        seen = f"{reason_in_words(self._occurred)}, " if self.history_known else ""
        return f"{seen}{quiet} without pawn move or capture"

    def _side(self) -> str:
        return SIDES[self.fen.split()[1] == "w"]


@gathered
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
    position : chess.Board, Moment or str
        The position.  From a FEN alone, repetitions cannot be counted, and
        the text says so.

    Returns
    -------
    DrawFacts
        The counts, and what follows from them for the side to move.

    Examples
    --------
    >>> print(draws("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"))
    1... | draw | drawn | stalemate | rules
    >>> print(draws("start"))
    1. | draw | none | occurred 1 | quiet 0 | rules
    >>> print(draws("start").words)
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


def reason_in_words(field: str) -> str:
    """Say why a game is drawn, or a draw may be claimed, from the field of a record.

    Examples
    --------
    >>> reason_in_words("occurred 3"), reason_in_words("repeating Ng1 Ng8")[:30]
    ('the position has occurred 3 times', 'by writing down Ng1 or Ng8, wh')
    """
    kind, _, rest = field.partition(" ")
    match kind:
        case "dead":
            return "dead position, neither side has the material to mate"
        case "occurred":
            return f"the position has occurred {_TIMES.get(number_in(field), f'{rest} times')}"
        case "repeating":
            moves = listed(rest.split(), joint="or")
            return f"by writing down {moves}, which repeats a position the third time"
        case "quiet":
            return f"{int(rest) // 2} moves by each side without pawn move or capture"
        case "fiftieth":
            return "by writing down a move that completes fifty without pawn or capture"
    return field
