"""Pressure: who attacks a square and who defends it, counted as a trade player counts.

The count is common practice, without a source: every piece that could take on
the square in turn counts, so a rook behind a rook on the same file is a second
attacker.  What the count leaves out is written beside each piece.  For what the
takes really bring, see :func:`chessnb.facts._exchanges`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.lines import STEPS, pinner_of
from chessnb.board.naming import the_piece
from chessnb.board.pieces import Piece, piece_at
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.board.squares import Square, read_square
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import pieces_field, place_of, side_word
from chessnb.mistakes import checked


@dataclass(frozen=True, kw_only=True)
class Force:
    """A piece that bears on a square.

    Attributes
    ----------
    piece : Piece
        The piece.
    behind : Piece or None
        The piece directly before it on the line, if it stands behind one.
    obstacle : str
        Why it does not count; empty if it does.
    """

    piece: Piece
    behind: Piece | None = None
    obstacle: str = ""

    @property
    def counts(self) -> bool:
        """Whether it is one of the number."""
        return not self.obstacle

    def __str__(self) -> str:
        place = f"{self.piece.name} {self.piece.square}"
        return f"{place} behind {self.behind}" if self.behind else place


@dataclass(frozen=True, kw_only=True)
class Pressure(Finding):
    """Who attacks a square and who defends it.

    Attributes
    ----------
    fen : str
        The position.
    square : str
        The square.
    side : chess.Color
        The side that attacks it.
    attackers, defenders : tuple of Force
        The pieces that bear on it, the cheapest first, the king last; those that
        do not count too.
    """

    fen: str
    square: str
    side: chess.Color
    attackers: tuple[Force, ...]
    defenders: tuple[Force, ...]

    @property
    def attacked_by(self) -> int:
        """How many attackers count."""
        return sum(force.counts for force in self.attackers)

    @property
    def defended_by(self) -> int:
        """How many defenders count."""
        return sum(force.counts for force in self.defenders)

    @property
    def record(self) -> Record:
        """Both counts with their pieces, then those that do not count."""
        left_out = [force.piece for force in (*self.attackers, *self.defenders) if not force.counts]
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="pressure",
            fields=(
                self.square,
                _side_field(self.side, "attackers", self.attackers),
                _side_field(not self.side, "defenders", self.defenders),
                *([f"not counted: {pieces_field(left_out)}"] if left_out else []),
            ),
            status="rules",
        )

    @property
    def words(self) -> str:
        """Both counts with their pieces, then those that do not count and why."""
        attack = _side_in_words(self.side, "attack", self.attackers)
        defence = _side_in_words(not self.side, "defend", self.defenders)
        left_out = [
            f"the {force.piece.name} on {force.piece.square} does not count: {force.obstacle}"
            for force in (*self.attackers, *self.defenders)
            if force.obstacle
        ]
        return "; ".join((f"{self.square}: {attack}, {defence}", *left_out))

    @property
    def picture(self) -> Diagram:
        """The board, with a stroke for each force, dashed where it does not count."""
        strokes = [
            Mark(
                role="force" if force.counts else "blocked",
                square=force.piece.square,
                to=self.square,
            )
            for force in (*self.attackers, *self.defenders)
        ]
        return diagram(self.fen, marks=(*strokes, Mark(role="target", square=self.square)))


@gathered
@checked
def pressure(position: Position, square: Square, *, side: Side | None = None) -> Pressure:
    """Count who attacks a square and who defends it.

    Direct attackers count, and line pieces behind them that would take after
    them: behind a rook or queen on a file or rank, behind a bishop or queen
    on a diagonal, behind a pawn on the diagonal it takes along.  A piece
    pinned to its king counts only if it may take along the pin.  The king
    counts last, and only if no enemy piece would be left to retake.  A piece
    behind an enemy piece is listed and does not count.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    square : chess.Square or str
        The square, such as ``"d5"``.
    side : {"White", "Black"} or chess.Color, optional
        The side that attacks.  By default the enemy of the piece on the square;
        for an empty square the side to move.

    Returns
    -------
    Pressure
        Attackers and defenders.

    Raises
    ------
    InputError
        If there is no such square.

    Examples
    --------
    >>> found = pressure("4k3/8/4p3/3p4/2P5/2N5/3R4/3QK3 w - - 0 1", "d5")
    >>> print(found)
    1. | pressure | d5 | white attackers 4: Pc4 Nc3 Rd2 Qd1 | black defenders 1: Pe6 | rules
    >>> print(found.words)
    d5: White attacks with 4 (pawn c4, knight c3, rook d2, queen d1 behind the rook on d2), \
Black defends with 1 (pawn e6)
    """
    board = read_position(position)
    target = read_square(square)
    owner = board.color_at(target)
    ours = read_side(side, default=board.turn if owner is None else not owner)
    attackers, defenders = forces(board, ours, target)
    return Pressure(
        fen=board.fen(),
        square=chess.square_name(target),
        side=ours,
        attackers=attackers,
        defenders=defenders,
    )


def forces(
    board: chess.Board, side: chess.Color, target: chess.Square
) -> tuple[tuple[Force, ...], tuple[Force, ...]]:
    """Return the forces of the side that attacks a square, and of the side that defends it."""
    attackers = _line_up(board, side, target)
    defenders = _line_up(board, not side, target)
    return (
        _with_king(board, side, target, attackers, defenders, spare=0),
        _with_king(board, not side, target, defenders, attackers, spare=1),
    )


def _side_field(side: chess.Color, part: str, forces: tuple[Force, ...]) -> str:
    pieces = [force.piece for force in forces if force.counts]
    return f"{side_word(side)} {part} {len(pieces)}{f': {pieces_field(pieces)}' if pieces else ''}"


def _side_in_words(side: chess.Color, verb: str, forces: tuple[Force, ...]) -> str:
    counted = [force for force in forces if force.counts]
    if not counted:
        return f"{SIDES[side]} does not {verb} it"
    return f"{SIDES[side]} {verb}s with {len(counted)} ({', '.join(map(str, counted))})"


def _line_up(board: chess.Board, side: chess.Color, target: chess.Square) -> tuple[Force, ...]:
    """Return the forces of a side without its king, the cheapest first."""
    forces = [
        Force(piece=piece_at(board, square), obstacle=pin_in_words(board, square, target))
        for square in board.attackers(side, target)
        if board.piece_type_at(square) != chess.KING
    ]
    for kind, steps in STEPS.items():
        for step in steps:
            forces += _behind_the_first(board, side, target, kind, step)
    return tuple(sorted(forces, key=lambda force: (force.piece.kind, force.piece.square)))


def _behind_the_first(
    board: chess.Board,
    side: chess.Color,
    target: chess.Square,
    kind: chess.PieceType,
    step: tuple[int, int],
) -> list[Force]:
    """Return a side's line pieces that stand behind pieces that bear on the target."""
    found: list[Force] = []
    before: Piece | None = None
    barrier = ""
    for square in _along(target, step):
        piece = board.piece_at(square)
        if piece is None:
            continue
        here = piece_at(board, square)
        first = before is None
        bears = (
            target in board.attacks(square) and piece.piece_type != chess.KING
            if first
            else piece.piece_type in (kind, chess.QUEEN)
        )
        if not bears:
            break
        pinned = pin_in_words(board, square, target)
        if not first and piece.color == side:
            found.append(Force(piece=here, behind=before, obstacle=barrier or pinned))
        if not barrier:
            barrier = _barrier(board, square, side, pinned)
        before = here
    return found


def _barrier(board: chess.Board, square: chess.Square, side: chess.Color, pinned: str) -> str:
    """Say why nothing of a side behind this piece counts; empty if it does."""
    if board.color_at(square) != side:
        return f"behind {SIDES[not side]}'s {the_piece(board, square).removeprefix('the ')}"
    return f"behind the pinned {the_piece(board, square).removeprefix('the ')}" if pinned else ""


def _along(square: chess.Square, step: tuple[int, int]) -> Iterator[chess.Square]:
    file, rank = chess.square_file(square) + step[0], chess.square_rank(square) + step[1]
    while 0 <= file < 8 and 0 <= rank < 8:
        yield chess.square(file, rank)
        file, rank = file + step[0], rank + step[1]


def pin_in_words(board: chess.Board, square: chess.Square, target: chess.Square) -> str:
    """Say what pins a piece so that it may not go to a square; empty if nothing does.

    A pinned piece may move along the line of the pin (FIDE Laws, article 3.9.2).
    """
    side = board.color_at(square)
    if side is None or target in board.pin(side, square):
        return ""
    pinner = pinner_of(board, square)
    return f"pinned to {the_piece(board, _king(board, side))} by {the_piece(board, pinner)}"


def _king(board: chess.Board, side: chess.Color) -> chess.Square:
    king = board.king(side)
    assert king is not None  # read_position refuses positions without a king
    return king


def _with_king(
    board: chess.Board,
    side: chess.Color,
    target: chess.Square,
    own: tuple[Force, ...],
    enemy: tuple[Force, ...],
    *,
    spare: int,
) -> tuple[Force, ...]:
    """Add the king, which takes last: when no enemy piece is left to retake.

    `spare` is how many enemy pieces more than own pieces will have taken by then: a
    defender only takes after an attacker has.
    """
    king = _king(board, side)
    if target not in board.attacks(king):
        return own
    able = sum(force.counts for force in own) + spare
    obstacle = _king_is_kept_off(board, side, target, enemy, able)
    return (*own, Force(piece=piece_at(board, king), obstacle=obstacle))


def _king_is_kept_off(
    board: chess.Board,
    side: chess.Color,
    target: chess.Square,
    enemy: tuple[Force, ...],
    able: int,
) -> str:
    """Say which pieces forbid the king to take (FIDE Laws, article 3.9.2); empty if none."""
    other = _king(board, not side)
    if target in board.attacks(other):
        return f"{the_piece(board, other)} covers {chess.square_name(target)}"
    # A pinned piece attacks all the same (article 3.1.3), and never goes away.
    held = [
        force for force in enemy if pin_in_words(board, read_square(force.piece.square), target)
    ]
    if held:
        return f"{held[0].piece} covers {chess.square_name(target)}"
    coming = [*enemy, *_through_king(board, side, target)]
    if len(coming) <= able:
        return ""
    return f"{coming[-1].piece} would retake"


def _through_king(board: chess.Board, side: chess.Color, target: chess.Square) -> list[Force]:
    """Return enemy line pieces that will see the target once the king has left its square."""
    without = chess.SquareSet(board.occupied & ~chess.BB_SQUARES[_king(board, side)])
    now = board.attackers(not side, target)
    later = board.attackers(not side, target, without)
    return [Force(piece=piece_at(board, square)) for square in later - now]
