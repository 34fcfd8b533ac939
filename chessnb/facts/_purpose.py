"""What a move was for, as the moves that followed show.

Nothing is searched and nothing claimed of other replies: a use is told where
the game, or the line of the lesson, made it within three moves, and could not
have made it without the move.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from chessnb.board.exchange import gain_on, nets
from chessnb.board.naming import the_piece
from chessnb.board.position import Position, read_position
from chessnb.board.turns import moved
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of
from chessnb.mistakes import checked
from chessnb.notation import LineLike, MoveLike, read_line, read_move, write_line, write_move

WITHIN = 3
"""Uses are looked for in so many further moves of the side."""

_OPENING = 28
"""While so many stand on the board every move makes way for another: nothing to tell."""

_MANY = ("on the next move", "two moves later", "three moves later")


@dataclass(frozen=True, kw_only=True)
class Use:
    """One use that was made of a move.

    Attributes
    ----------
    kind : str
        ``"square"`` or ``"line"`` (it made way for another piece), ``"guard"`` (it
        defended the square that another went to), ``"flight"`` (it took a square
        from the king that was mated), ``"room"`` (its own king went to the square
        that it left, out of check), ``"route"`` (the piece was on its way).
    square : str
        The square that it is about.
    by : str
        Whose use it was, in words: ``"the rook on f1"``.
    line : tuple of chess.Move
        The moves from this one to the one that made use of it.
    """

    kind: str
    square: str
    by: str
    line: tuple[chess.Move, ...]

    @property
    def later(self) -> str:
        """How long after, in words."""
        return _MANY[(len(self.line) - 1) // 2 - 1] if len(self.line) > 1 else "at once"


@dataclass(frozen=True, kw_only=True)
class Purpose(Finding):
    """What a move was for, as it was played.

    Attributes
    ----------
    fen : str
        The position before the move.
    move : chess.Move
        The move.
    uses : tuple of Use
        What was made of it, the soonest first; empty where nothing shows.
    """

    fen: str
    move: chess.Move
    uses: tuple[Use, ...]

    @property
    def board(self) -> chess.Board:
        """The position before the move; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def record(self) -> Record:
        """Each use: its kind, its square, and the move that made it."""
        board = self.board
        fields = tuple(
            f"{use.kind} {use.square}: {_san_of_last(board, use.line)}" for use in self.uses
        )
        place = place_of(board, self.move)
        return Record(place=place, kind="purpose", fields=fields, status="given")

    @property
    def words(self) -> str:
        """The uses, a sentence each."""
        return " ".join(self.paragraphs)

    @property
    def paragraphs(self) -> Sequence[str]:
        """A sentence for each use."""
        if not self.uses:
            return (f"Nothing in the next {WITHIN} moves shows what it was for.",)
        return tuple(_sentence(self.board, self.move, use) for use in self.uses)

    def marks(self, use: Use) -> tuple[Mark, ...]:
        """Return what is drawn of one use, in the position after its line."""
        return tuple(_marks(use, self.move))

    @property
    def picture(self) -> Diagram:
        """The position in which the first use was made, with its marks."""
        line = self.uses[0].line if self.uses else (self.move,)
        marks = [mark for use in self.uses if use.line == line for mark in _marks(use, self.move)]
        return diagram(moved(self.board, line), last_move=line[-1], marks=marks)


@gathered
@checked
def purpose(position: Position, move: MoveLike, line: LineLike = ()) -> Purpose:
    """Say what a move was for, from the moves that followed it.

    Told is only what was *made use of*: by a check, a capture, a promotion or
    mate of another piece, within three further moves of the same side, and not
    possible without the move.  It is what happened, not what had to happen.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move.
    move : str or chess.Move
        The move.
    line : str or sequence of moves
        The moves that followed it.

    Returns
    -------
    Purpose
        From the point of view of the side that moved.

    Raises
    ------
    NotationError
        If the move or the line is not legal.

    Examples
    --------
    >>> found = purpose("6k1/5ppp/8/8/8/3B4/6PP/3R2K1 w - - 0 1", "Bb5", "h5 Rd8+ Kh7")
    >>> print(found)
    1. Bb5 | purpose | line d3: Rd8+ | given
    >>> print(found.words)
    The bishop left d3, and the rook went across it on the next move (2. Rd8+).
    """
    before = read_position(position).copy(stack=False)
    played = read_move(before, move)
    rest = tuple(read_line(moved(before, [played]), line))
    return Purpose(fen=before.fen(), move=played, uses=tuple(_uses(before, played, rest)))


@dataclass(frozen=True, kw_only=True)
class _Later:
    """A later move of the same side, with where the piece that moved first stands by then."""

    before: chess.Board
    first: chess.Move
    line: tuple[chess.Move, ...]
    board: chess.Board
    square: chess.Square | None
    steps: tuple[chess.Square, ...]

    @property
    def move(self) -> chess.Move:
        """The later move."""
        return self.line[-1]

    @property
    def after(self) -> chess.Board:
        """The position after it."""
        return moved(self.board, [self.move])

    @property
    def is_blow(self) -> bool:
        """Whether it checks, promotes, or takes something that is not just traded."""
        return _is_blow(self.board, self.move)

    @property
    def is_another(self) -> bool:
        """Whether it is made by another piece than the first move."""
        return self.move.from_square != self.square

    @property
    def stays(self) -> bool:
        """Whether the piece that moved first stands where it went."""
        return self.square == self.first.to_square


def _is_blow(board: chess.Board, move: chess.Move) -> bool:
    if board.gives_check(move) or move.promotion:
        return True
    return board.is_capture(move) and nets(board, move) > 0


def _uses(before: chess.Board, first: chess.Move, rest: tuple[chess.Move, ...]) -> Iterator[Use]:
    """Yield the uses, each kind once, the soonest first."""
    if chess.popcount(before.occupied) >= _OPENING:
        return
    seen = set()
    for later in _later_moves(before, first, rest):
        for find in (_way, _guard, _room, _route, _flights):
            for use in find(later):
                if use.kind not in seen:
                    seen.add(use.kind)
                    yield use


def _later_moves(
    before: chess.Board, first: chess.Move, rest: tuple[chess.Move, ...]
) -> Iterator[_Later]:
    board = moved(before, [first])
    square: chess.Square | None = first.to_square
    steps = [first.from_square, first.to_square]
    for count, move in enumerate(rest[: 2 * WITHIN]):
        ours = count % 2 == 1
        if ours and move:
            yield _Later(
                before=before,
                first=first,
                line=(first, *rest[: count + 1]),
                board=board.copy(stack=False),
                square=square,
                steps=tuple(steps),
            )
        if square == move.from_square and ours:
            square = move.to_square
            steps.append(square)
        elif not ours and square == move.to_square:
            square = None
        board.push(move)


def _is_quiet(board: chess.Board, move: chess.Move) -> bool:
    return not (board.is_capture(move) or board.gives_check(move) or move.promotion)


def _way(later: _Later) -> Iterator[Use]:
    """Yield the square or line that the first move left, if a blow needed it."""
    left, move = later.first.from_square, later.move
    if not later.is_another or not later.is_blow or move.to_square == later.first.to_square:
        return  # a blow where the first piece was taken is a recapture
    across = left in chess.SquareSet.between(move.from_square, move.to_square)
    there = move.to_square == left and not later.board.is_capture(move)
    if not across and not there:
        return
    yield Use(
        kind="line" if across else "square",
        square=chess.square_name(left),
        by=_piece(later.board, move.from_square),
        line=later.line,
    )


def _guard(later: _Later) -> Iterator[Use]:
    """Yield the square of a blow that would have cost the piece without the first move's guard."""
    first, target = later.first, later.move.to_square
    if not (later.stays and later.is_another and later.is_blow):
        return
    if not _is_quiet(later.before, first) or target in later.before.attacks(first.from_square):
        return
    after = later.after
    if target not in after.attacks(first.to_square):
        return
    without = after.copy(stack=False)
    without.remove_piece_at(first.to_square)
    if after.is_checkmate():
        needed = not without.is_checkmate()
    else:
        needed = gain_on(after, target) <= 0 < gain_on(without, target)
    if needed:
        yield Use(
            kind="guard",
            square=chess.square_name(target),
            by=_piece(later.board, later.move.from_square),
            line=later.line,
        )


def _room(later: _Later) -> Iterator[Use]:
    """Yield the square that the king needed, out of check, and that the first move had left."""
    left, board = later.first.from_square, later.board
    king = board.king(board.turn)
    if not later.is_another or not _is_quiet(later.before, later.first) or later.before.is_check():
        return
    if not board.is_check() or later.move.from_square != king or later.move.to_square != left:
        return
    if all(move.to_square == left for move in board.legal_moves if move.from_square == king):
        yield Use(kind="room", square=chess.square_name(left), by="the king", line=later.line)


def _route(later: _Later) -> Iterator[Use]:
    """Yield where a piece was going, if it took two quiet steps or more and then struck."""
    if later.is_another or not later.is_blow or len(later.steps) < _STEPS:
        return
    if not _is_quiet(later.before, later.first):
        return
    kind = later.before.piece_type_at(later.first.from_square)
    if kind not in (chess.KNIGHT, chess.BISHOP):  # a rook or a queen is everywhere soon
        return
    yield Use(
        kind="route",
        square=chess.square_name(later.move.to_square),
        by=_piece(later.board, later.move.from_square),
        line=later.line,
    )


_STEPS = 3
"""Squares on the way before the blow: where it came from, where it went, and one more."""


def _flights(later: _Later) -> Iterator[Use]:
    """Yield a square that only the piece of the first move took from the king that was mated."""
    after = later.after
    if not (later.stays and later.is_another and after.is_checkmate()):
        return
    king, ours = after.king(after.turn), not after.turn
    assert king is not None
    here = later.first.to_square
    if here in after.checkers():
        return
    taken = [
        square
        for square in chess.SquareSet(chess.BB_KING_ATTACKS[king])
        if after.color_at(square) != after.turn
        and _covers(after, ours, king, square) == chess.SquareSet([here])
        and not _covered_from(later, king, square)
    ]
    if taken:
        yield Use(
            kind="flight",
            square=chess.square_name(taken[0]),
            by=_piece(later.board, later.move.from_square),
            line=later.line,
        )


def _covers(
    board: chess.Board, side: chess.Color, king: chess.Square, square: chess.Square
) -> chess.SquareSet:
    """Return what a side covers a square with, the king not in the way."""
    occupied = chess.SquareSet(board.occupied & ~chess.BB_SQUARES[king])
    return board.attackers(side, square, occupied)


def _covered_from(later: _Later, king: chess.Square, square: chess.Square) -> bool:
    """Tell whether the piece covered a square from where it came, the king as it stands at last."""
    without = later.after
    piece = without.remove_piece_at(later.first.to_square)
    start = later.first.from_square
    if piece is None or without.piece_at(start) is not None:
        return False
    without.set_piece_at(start, piece)
    return start in _covers(without, piece.color, king, square)


# -- words ---------------------------------------------------------------------------


def _piece(board: chess.Board, square: chess.Square) -> str:
    return the_piece(board, square).split(" on ")[0]


def _san_of_last(board: chess.Board, line: Sequence[chess.Move]) -> str:
    return write_move(moved(board, line[:-1]), line[-1])


def _sentence(board: chess.Board, move: chess.Move, use: Use) -> str:
    name = _piece(board, move.from_square).removeprefix("the ")
    then = f"{use.later} ({write_line(moved(board, use.line[:-1]), use.line[-1:])})"
    match use.kind:
        case "square":
            return f"The {name} left {use.square}, and {use.by} went there {then}."
        case "line":
            return f"The {name} left {use.square}, and {use.by} went across it {then}."
        case "guard":
            return f"The {name} defended {use.square} before {use.by} went there {then}."
        case "flight":
            return f"The {name} took {use.square} from the king, which was mated {then}."
        case "room":
            return f"The {name} made room: out of check, the king went to {use.square} {then}."
    return f"The {name} was on its way to {use.square}, where it arrived {then}."


def _marks(use: Use, move: chess.Move) -> Iterator[Mark]:
    here = chess.square_name(move.to_square)
    match use.kind:
        case "square" | "line" | "room":
            yield Mark(role="lure", square=use.square)
        case "guard" | "flight":
            yield Mark(role="actor", square=here)
            yield Mark(role="force", square=here, to=use.square)
