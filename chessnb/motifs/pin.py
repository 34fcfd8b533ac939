"""Pins: a man that may not, or had better not, leave a line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.diagram import Mark
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Example, Motif, Tag, The, dashes, ring, static_tag, the, ticks
from chessnb.motifs.geometry import (
    as_if_to_move,
    attacked_by,
    behind,
    beyond,
    is_loose,
    is_slider,
    line_through,
    moved,
    moves_along,
    name,
    worth,
)
from chessnb.motifs.tracking import steps
from chessnb.proof import TooWild, settled


@dataclass(frozen=True, kw_only=True)
class Pin:
    """A line piece, the man that it pins, and what stands (or would happen) behind it."""

    pinner: chess.Square
    pinned: chess.Square
    rear: chess.Square

    @property
    def pair(self) -> tuple[chess.Square, chess.Square]:
        """The pinned man and what is behind: the pin itself, whoever pins."""
        return self.pinned, self.rear


# -- to the king ---------------------------------------------------------------


def absolute_pins(board: chess.Board, side: chess.Color) -> Iterator[Pin]:
    """Yield the men that a side pins to the enemy king."""
    king = board.king(not side)
    if king is None:
        return
    for square in chess.SquareSet(board.occupied_co[not side]):
        if square != king and board.is_pinned(not side, square):
            for attacker in board.pin(not side, square):
                between = square in chess.SquareSet.between(attacker, king)
                if between and board.color_at(attacker) == side and is_slider(board, attacker):
                    yield Pin(pinner=attacker, pinned=square, rear=king)
                    break


def absolute_static(board: chess.Board) -> Iterator[Tag]:
    """Find the pins to a king in a position, of both sides."""
    for side in chess.COLORS:
        for pin in absolute_pins(board, side):
            yield _static("absolute pin", board, side, pin, _absolute_words(board, pin))


def absolute(case: Case) -> Iterator[Tag]:
    """Find pins to the king that a move makes, presses on, or relies on."""
    before = {pin.pair for pin in absolute_pins(case.before, case.side)}
    for pin in absolute_pins(case.after, case.side):
        words = _absolute_words(case.after, pin)
        if _is_made(case, pin, before) or _presses(case, pin):
            sound = not case.in_hand and (_falls_pinned(case, pin) or _misses(case, pin))
            yield _of_move("absolute pin", case, pin, words, sound=sound)
        elif _relies(case, pin):
            words = f"{words}, so it does not guard {name(case.move.to_square)}"
            yield _of_move("absolute pin", case, pin, words, sound=case.proof is not None)


def _absolute_words(board: chess.Board, pin: Pin) -> str:
    enemy = as_if_to_move(board, bool(board.color_at(pin.pinned)))
    along = any(move.from_square == pin.pinned for move in enemy.legal_moves)
    may = "it may move only along the line" if along else "it may not move"
    return (
        f"{The(board, pin.pinner)} pins {the(board, pin.pinned)} to {the(board, pin.rear)}: {may}"
    )


def _relies(case: Case, pin: Pin) -> bool:
    """Tell whether a move goes where a pinned man could take back if it were not pinned."""
    target = case.move.to_square
    if target in line_through(pin.pinner, pin.rear) or pin.pinner == case.move.from_square:
        return False
    if pin.pinned not in case.after.attackers(not case.side, target):
        return False
    others = [
        move
        for move in case.after.legal_moves
        if move.to_square == target and move.from_square != pin.pinned
    ]
    return not others and not case.gives_discovered_check


def _misses(case: Case, pin: Pin) -> bool:
    """Tell whether our next move goes where only the pinned man could take, if it were free."""
    for reply in case.replies[:1]:
        answer = reply.answer
        if answer is None or pin.pinned not in case.after.attackers(
            not case.side, answer.to_square
        ):
            return False
        then = moved(reply.board, [answer])
        still = then.is_pinned(not case.side, pin.pinned)
        taken = any(move.to_square == answer.to_square for move in then.legal_moves)
        return still and not taken and answer.to_square not in (pin.pinner, pin.pinned)
    return False


# -- to another man ------------------------------------------------------------


def relative_pins(board: chess.Board, side: chess.Color) -> Iterator[Pin]:
    """Yield the men that had better not leave a line: what stands behind would be lost."""
    for pin in lined_up(board, side):
        if leaving_loses(board, side, pin):
            yield pin


def lined_up(board: chess.Board, side: chess.Color) -> Iterator[Pin]:
    """Yield the enemy men before a dearer or unguarded man, or a mating square, on a line."""
    for pinner in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, pinner):
            continue
        for front in attacked_by(board, pinner, not side):
            in_line = moves_along(board, pinner, front)
            if in_line and board.piece_type_at(front) not in (chess.KING, chess.PAWN):
                yield from _rears(board, side, pinner, front)


def _rears(
    board: chess.Board, side: chess.Color, pinner: chess.Square, front: chess.Square
) -> Iterator[Pin]:
    rear = behind(board, pinner, front)
    if rear is not None and board.color_at(rear) != side:
        if board.piece_type_at(rear) in (chess.KING, chess.PAWN):
            return
        dearer = worth(board, rear) > max(worth(board, front), worth(board, pinner))
        equal = worth(board, rear) >= worth(board, front) and not is_loose(board, front)
        loose = equal and is_loose(board, rear)
        if dearer or loose:
            yield Pin(pinner=pinner, pinned=front, rear=rear)
            return
    for square in beyond(pinner, front):
        if board.color_at(square) == side:
            return
        if _mates_there(board, side, pinner, front, square):
            yield Pin(pinner=pinner, pinned=front, rear=square)
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
    """Tell whether the pinner would mate on a square behind if the man in front were not there."""
    king = board.king(not side)
    if king is None:
        return False
    without = as_if_to_move(board, side)
    without = without.copy(stack=False)
    without.remove_piece_at(front)
    move = chess.Move(pinner, square)
    if not without.is_valid() or not without.is_legal(move):
        return False
    without.push(move)
    return without.is_checkmate()


def leaving_loses(board: chess.Board, side: chess.Color, pin: Pin) -> bool:
    """Tell whether every legal move of the pinned man off the line loses material, or is mated.

    It is asked as if the man's side were to move; a man that cannot leave is
    not pinned in this sense.
    """
    enemy = as_if_to_move(board, not side)
    if not enemy.is_valid():
        return False
    line = line_through(pin.pinner, pin.rear)
    leaving = [
        move
        for move in enemy.legal_moves
        if move.from_square == pin.pinned and move.to_square not in line
    ]
    if not leaving:
        return False
    try:
        stands = settled(enemy)
        return all(_costs(enemy, move, stands) for move in leaving)
    except TooWild:
        return False


def _costs(board: chess.Board, move: chess.Move, stands: int) -> bool:
    after = moved(board, [move])
    if any(moved(after, [answer]).is_checkmate() for answer in after.legal_moves):
        return True
    return -settled(after) < stands


def relative_static(board: chess.Board) -> Iterator[Tag]:
    """Find the relative pins of a position, of both sides."""
    for side in chess.COLORS:
        for pin in relative_pins(board, side):
            yield _static("relative pin", board, side, pin, _relative_words(board, pin))


def relative(case: Case) -> Iterator[Tag]:
    """Find relative pins that a move makes, or presses on."""
    before = {pin.pair for pin in lined_up(case.before, case.side)}
    for pin in lined_up(case.after, case.side):
        if not _is_made(case, pin, before) and not _presses(case, pin):
            continue
        if leaving_loses(case.after, case.side, pin):
            sound = not case.in_hand and _falls(case, set(pin.pair))
            words = _relative_words(case.after, pin)
            yield _of_move("relative pin", case, pin, words, sound=sound)


def _relative_words(board: chess.Board, pin: Pin) -> str:
    start = f"{The(board, pin.pinner)} pins {the(board, pin.pinned)} to {the(board, pin.rear)}"
    if board.piece_at(pin.rear) is None:
        return f"{start}: if it left the line, {the(board, pin.pinner)} would mate there"
    loose = ", which nothing guards," if is_loose(board, pin.rear) else ""
    return f"{start}: if it left the line, {the(board, pin.rear)}{loose} would be lost"


# -- both --------------------------------------------------------------------


def _is_made(case: Case, pin: Pin, before: set[tuple[chess.Square, chess.Square]]) -> bool:
    """Tell whether the move makes a pin: by the man that moved, or by opening a line."""
    opens = case.move.from_square in chess.SquareSet.between(pin.pinner, pin.rear)
    return pin.pair not in before and (pin.pinner == case.move.to_square or opens)


def _presses(case: Case, pin: Pin) -> bool:
    """Tell whether a move attacks a man that was pinned already once more."""
    return (
        pin.pinner != case.move.to_square
        and pin.pinned in case.after.attacks(case.move.to_square)
        and pin.pinned not in case.before.attacks(case.move.from_square)
    )


def _falls(case: Case, squares: set[chess.Square]) -> bool:
    """Tell whether one of some men is what we take next, where it stands or took its pinner."""

    def taken(line: tuple[chess.Move, ...]) -> bool:
        for step in steps(case.after, line[:2]):
            if step.side == case.side and step.taken in squares:
                stayed = step.move.to_square == step.taken
                return stayed or (len(line) > 1 and step.move.to_square == case.move.to_square)
        return False

    return case.mostly(taken)


def _falls_pinned(case: Case, pin: Pin) -> bool:
    """Tell whether a man that is pinned to its king falls, and by the pin.

    A check has to be answered: what the king then leaves behind was not lost to a pin.
    """
    if case.gives_check:
        lasting = (reply.board.is_pinned(not case.side, pin.pinned) for reply in case.replies[:1])
        if not all(lasting):
            return False
    return _falls(case, {pin.pinned})


def _marks(pin: Pin) -> tuple[Mark, ...]:
    return ring(pin.pinner), dashes(pin.pinner, pin.rear), ticks(pin.pinned)


def _static(motif: str, board: chess.Board, side: chess.Color, pin: Pin, words: str) -> Tag:
    return static_tag(
        motif,
        board,
        side=side,
        actor=pin.pinner,
        targets=pin.pair,
        squares=tuple(chess.SquareSet.between(pin.pinner, pin.rear)),
        sentence=words,
        marks=_marks(pin),
    )


def _of_move(motif: str, case: Case, pin: Pin, words: str, *, sound: bool) -> Tag:
    return case.tag(
        motif,
        sound=sound,
        actor=pin.pinner,
        targets=pin.pair,
        squares=tuple(chess.SquareSet.between(pin.pinner, pin.rear)),
        sentence=words,
        marks=_marks(pin),
    )


ABSOLUTE = Motif(
    name="absolute pin",
    definition=(
        "An enemy man stands between a line piece of ours and its king, alone on that line: the "
        "rules forbid it to leave the line."
    ),
    find=absolute,
    static=absolute_static,
    examples=(
        Example(
            fen="4k3/8/2n5/1B6/3P4/8/8/4K3 w - - 0 1",
            moves="d5 Kd7 dxc6+",
            why="the pinned knight cannot run from the pawn",
        ),
        Example(
            fen="3k4/8/2n5/8/8/8/8/3BK3 w - - 0 1",
            moves="Ba4",
            shows=False,
            why="the king is not on the line behind the knight",
        ),
    ),
)

RELATIVE = Motif(
    name="relative pin",
    definition=(
        "An enemy man stands between a line piece of ours and a dearer man, an unguarded man or a "
        "mating square: it may leave the line, but every such move loses material or is mated."
    ),
    find=relative,
    static=relative_static,
    examples=(
        Example(
            fen="3q2k1/5ppp/8/3n4/8/8/2P2PPP/3R2K1 w - - 0 1",
            moves="c4 Qb6 cxd5",
            why="if the knight moves, the queen is lost; so the pawn takes it",
        ),
        Example(
            fen="q5k1/5p1p/2r3p1/8/8/8/4BPPP/6K1 w - - 0 1",
            moves="Bf3 Rc1+",
            shows=False,
            why="the pinned rook leaves with check",
        ),
    ),
)
