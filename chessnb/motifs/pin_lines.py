"""Pin lines: a piece that stands alone between a line piece and what is behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.lines import behind, beyond, is_slider, moves_along
from chessnb.board.turns import as_if_to_move
from chessnb.diagrams import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag, dashes, ring, static_tag, ticks
from chessnb.motifs.line_steps import steps
from chessnb.motifs.targets import attacked_by, is_undefended, worth


@dataclass(frozen=True, kw_only=True)
class PinLine:
    """A line piece, the piece that it pins, and what stands (or would happen) behind it."""

    pinner: chess.Square
    pinned: chess.Square
    rear: chess.Square

    @property
    def pair(self) -> tuple[chess.Square, chess.Square]:
        """The pinned piece and what is behind: the pin itself, whichever piece pins."""
        return self.pinned, self.rear

    @property
    def between(self) -> tuple[chess.Square, ...]:
        """The squares from the pinner to the rear, both left out."""
        return tuple(chess.SquareSet.between(self.pinner, self.rear))


# -- on the board --------------------------------------------------------------


def absolute_pins(board: chess.Board, side: chess.Color) -> Iterator[PinLine]:
    """Yield the pieces that a side pins to the enemy king."""
    king = board.king(not side)
    if king is None:
        return
    for square in chess.SquareSet(board.occupied_co[not side]):
        if square != king and board.is_pinned(not side, square):
            for attacker in board.pin(not side, square):
                between = square in chess.SquareSet.between(attacker, king)
                if between and board.color_at(attacker) == side and is_slider(board, attacker):
                    yield PinLine(pinner=attacker, pinned=square, rear=king)
                    break


def lined_up(board: chess.Board, side: chess.Color) -> Iterator[PinLine]:
    """Yield the enemy pieces before a more valuable or undefended one, or a mating square."""
    for pinner in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, pinner):
            continue
        for front in attacked_by(board, pinner, not side):
            in_line = moves_along(board, pinner, front)
            if in_line and board.piece_type_at(front) not in (chess.KING, chess.PAWN):
                yield from _rears(board, side, pinner, front)


def _rears(
    board: chess.Board, side: chess.Color, pinner: chess.Square, front: chess.Square
) -> Iterator[PinLine]:
    rear = behind(board, pinner, front)
    if rear is not None and board.color_at(rear) != side:
        if board.piece_type_at(rear) in (chess.KING, chess.PAWN):
            return
        dearer = worth(board, rear) > max(worth(board, front), worth(board, pinner))
        as_dear = worth(board, rear) >= worth(board, front) and not is_undefended(board, front)
        if dearer or (as_dear and is_undefended(board, rear)):
            yield PinLine(pinner=pinner, pinned=front, rear=rear)
            return
    for square in beyond(pinner, front):
        if board.color_at(square) == side:
            return
        if _mates_there(board, side, pinner, front, square):
            yield PinLine(pinner=pinner, pinned=front, rear=square)
            return
        if board.piece_at(square) is not None:
            return


def _mates_there(
    board: chess.Board,
    side: chess.Color,
    pinner: chess.Square,
    front: chess.Square,
    square: chess.Square,
) -> bool:
    """Tell whether the pinner would mate on a square behind if the piece in front were gone."""
    king = board.king(not side)
    if king is None or chess.square_distance(king, square) > 7:
        return False
    without = as_if_to_move(board, side)
    without = without.copy(stack=False)
    without.remove_piece_at(front)
    move = chess.Move(pinner, square)
    if not without.is_valid() or not without.is_legal(move):
        return False
    without.push(move)
    return without.is_checkmate()


# -- of a move -----------------------------------------------------------------


def is_made(case: Case, pin: PinLine, before: set[tuple[chess.Square, chess.Square]]) -> bool:
    """Tell whether the move makes a pin: by the piece that moved, or by opening a line.

    `before` are the pairs that were pinned before the move.
    """
    opens = case.move.from_square in pin.between
    return pin.pair not in before and (pin.pinner == case.move.to_square or opens)


def is_pressed(case: Case, pin: PinLine) -> bool:
    """Tell whether a move attacks a piece that was pinned already once more."""
    return (
        pin.pinner != case.move.to_square
        and pin.pinned in case.after.attacks(case.move.to_square)
        and pin.pinned not in case.before.attacks(case.move.from_square)
    )


def falls(case: Case, squares: set[chess.Square]) -> bool:
    """Tell whether one of some pieces is what we take next, where it stands or took its pinner."""

    def taken(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line[:2]):
            if step.side == case.side and step.taken in squares:
                stayed = step.move.to_square == step.taken
                return stayed or (len(line) > 1 and step.move.to_square == case.move.to_square)
        return False

    return case.mostly(taken)


# -- told ----------------------------------------------------------------------


def _marks(pin: PinLine) -> tuple[Mark, ...]:
    return ring(pin.pinner), dashes(pin.pinner, pin.rear), ticks(pin.pinned)


def standing_pin(
    motif: str, board: chess.Board, side: chess.Color, pin: PinLine, sentence: str
) -> Tag:
    """Make the tag of a pin that stands on the board."""
    return static_tag(
        motif,
        board,
        side=side,
        actor=pin.pinner,
        targets=pin.pair,
        squares=pin.between,
        sentence=sentence,
        marks=_marks(pin),
    )


def pin_of_move(motif: str, case: Case, pin: PinLine, sentence: str, *, sound: bool) -> Tag:
    """Make the tag of a pin that a move makes, presses on or relies on."""
    return case.tag(
        motif,
        sound=sound,
        actor=pin.pinner,
        targets=pin.pair,
        squares=pin.between,
        sentence=sentence,
        marks=_marks(pin),
    )
