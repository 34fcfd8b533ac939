"""What a move was for: the position before it compared with the one after it."""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.castling_rights import WINGS, has_right
from chessnb.board.pieces import Piece, in_order, piece_at
from chessnb.board.position import Position, read_position
from chessnb.board.squares import read_square
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.facts import _phrases as telling
from chessnb.facts._change_fields import fields_of
from chessnb.facts._comparison import Comparison, Line
from chessnb.facts._move_changes import Check, MoveChanges, Right
from chessnb.facts._pawns import files, structure
from chessnb.findings import Finding, Record, gathered
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_line


@dataclass(frozen=True, kw_only=True)
class Changes(MoveChanges, Finding):
    """What a move changes, told and drawn; its values are those of :class:`MoveChanges`."""

    @property
    def record(self) -> Record:
        """All that a teacher may want to be told of again if it changes, told or not."""
        fields = tuple(fields_of(self))
        return Record(place=self.played, kind="changes", fields=fields, status="rules")

    @property
    def words(self) -> str:
        """The move and the telling few of its changes, in a fixed order."""
        return telling.line(self)

    @property
    def is_quiet(self) -> bool:
        """Whether nothing of what it changes is worth telling."""
        return not any(telling.telling_phrases(self))

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """A sentence with the telling changes, and one with the rest."""
        return telling.paragraphs(self)

    @property
    def picture(self) -> Diagram:
        """The position after the move: who acts, on what, along which lines."""
        attacks = [*telling.telling_attacks(self), *self.uncovered]
        targets = sorted({attack.target.square for attack in attacks})
        open_lines = [line for line in telling.telling_lines(self) if not line.attacks]
        strokes = [(attack.by.square, attack.target.square) for attack in attacks]
        strokes += [(line.by.square, _far_end(line)) for line in open_lines]
        marks = [
            Mark(role="actor", square=self.piece.square),
            *(Mark(role="target", square=square) for square in targets),
            *(Mark(role="force", square=start, to=end) for start, end in strokes),
        ]
        return diagram(self.after, last_move=self.move, marks=marks)


@gathered
@checked
def changes(position: Position, move: MoveLike) -> Changes:
    """Say what a move was for, by comparing the position before it and after it.

    Only what the rules show at once is looked at; nothing is searched except
    the takes on one square.  A piece attacks or defends only as far as pins to
    its king allow, and *undefended* means that no defender counts.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move.
    move : str or chess.Move
        The move.

    Returns
    -------
    Changes
        From the point of view of the side that moved.

    Raises
    ------
    NotationError
        If it is not one legal move in the position.

    Examples
    --------
    >>> print(changes("start", "e4").words)
    1. e4: opens the d1-h5 diagonal for the queen on d1 and the f1-a6 diagonal for the bishop on f1
    """
    board = read_position(position)
    played = read_move(board, move)
    compared = Comparison(board, played)
    after, us, them = compared.after, board.turn, not board.turn
    opened, half_opened = _files_opened(compared)
    return Changes(
        fen=board.fen(),
        move=played,
        played=write_line(board, [played]),
        moved=tuple(piece_at(after, square) for square in compared.moved.values()),
        captured=compared.captured,
        check=_check(compared),
        checkers=in_order(piece_at(after, square) for square in after.checkers()),
        stalemate=after.is_stalemate(),
        answered=in_order(piece_at(board, square) for square in board.checkers()),
        attacks=compared.attacks(by_moved=True),
        uncovered=compared.attacks(by_moved=False),
        defends=compared.defends(),
        stops_attacking=compared.stopped(them),
        stops_defending=compared.stopped(us),
        newly_attacked=compared.turned(them, us, new=True),
        no_longer_attacked=compared.turned(them, us, new=False),
        newly_defended=compared.turned(us, us, new=True),
        left_undefended=compared.turned(us, us, new=False),
        exposed=compared.turned(us, them, new=True),
        relieved=compared.turned(us, them, new=False),
        opened=compared.lines(us, opened=True),
        closed=compared.lines(us, opened=False),
        opened_to_enemy=compared.lines(them, opened=True),
        closed_to_enemy=compared.lines(them, opened=False),
        pins=compared.pins(them, new=True),
        releases=compared.pins(them, new=False),
        gets_pinned=compared.pins(us, new=True),
        frees=compared.pins(us, new=False),
        threatens=compared.threatens(),
        forces_mate=compared.forces_mate(),
        offers=compared.offers(),
        leaves=compared.leaves(),
        parries=compared.parries(),
        castling_lost=_castling_lost(compared),
        passed=_newly(compared, "passed"),
        isolated=_newly(compared, "isolated"),
        doubled=_newly(compared, "doubled"),
        backward=_newly(compared, "backward"),
        files_opened=opened,
        files_half_opened=half_opened,
    )


def _check(compared: Comparison) -> Check:
    checkers = compared.after.checkers()
    if compared.after.is_checkmate():
        return "checkmate"
    if len(checkers) > 1:
        return "double check"
    if checkers and not checkers & chess.SquareSet(compared.moved.values()):
        return "discovered check"
    return "check" if checkers else ""


def _castling_lost(compared: Comparison) -> tuple[Right, ...]:
    return tuple(
        (side, wing)
        for side in chess.COLORS
        for wing in WINGS
        if has_right(compared.before, side, wing) and not has_right(compared.after, side, wing)
    )


def _newly(compared: Comparison, kind: str) -> tuple[Piece, ...]:
    """Return the pawns of both sides that have come to be of a kind."""
    found: set[chess.Square] = set()
    for color in chess.COLORS:
        old, new = (
            {read_square(square) for square in getattr(structure(board, color), kind)}
            for board in (compared.before, compared.after)
        )
        found |= new - {compared.now(square) for square in old}
    return compared.pieces(found)


def _files_opened(compared: Comparison) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the files newly open, and newly half-open for the side that moved."""
    old, new = files(compared.before), files(compared.after)
    ours = "half_open_for_white" if compared.side else "half_open_for_black"
    half_open = [letter for letter in getattr(new, ours) if letter not in getattr(old, ours)]
    return tuple(letter for letter in new.open if letter not in old.open), tuple(half_open)


def _far_end(line: Line) -> str:
    """Return the square of a line that is furthest from its piece."""
    start = read_square(line.by.square)
    return max(line.squares, key=lambda name: chess.square_distance(start, read_square(name)))
