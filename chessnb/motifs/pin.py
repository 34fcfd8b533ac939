"""Pins: a man that may not, or had better not, leave a line."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import (
    Example,
    Motif,
    Tag,
    The,
    dashes,
    ring,
    the,
    ticks,
)
from chessnb.motifs.geometry import (
    attacked_by,
    behind,
    is_loose,
    is_slider,
    moves_along,
    name,
    worth,
)
from chessnb.motifs.tracking import steps
from chessnb.proof import settled

Pin = tuple[chess.Square, chess.Square, chess.Square]
"""The pinning piece, the pinned man, what stands behind it."""


# -- to the king ---------------------------------------------------------------


def absolute_pins(board: chess.Board, side: chess.Color) -> Iterator[Pin]:
    """Yield the men that a side pins to the enemy king."""
    king = board.king(not side)
    if king is None:
        return
    for square in chess.SquareSet(board.occupied_co[not side]):
        if square != king and board.is_pinned(not side, square):
            pinner = next(
                attacker
                for attacker in board.pin(not side, square)
                if board.color_at(attacker) == side and is_slider(board, attacker)
            )
            yield pinner, square, king


def absolute_static(board: chess.Board) -> Iterator[Tag]:
    """Find the pins to a king in a position, of both sides."""
    for side in chess.COLORS:
        for pin in absolute_pins(board, side):
            yield _absolute(board, side, pin)


def absolute(case: Case) -> Iterator[Tag]:
    """Find pins to the king that a move makes, or that it makes use of."""
    before = {pin[1:] for pin in absolute_pins(case.before, case.side)}
    for pin in absolute_pins(case.after, case.side):
        new = pin[1:] not in before
        if not new and not _presses(case, pin[1]):
            continue
        yield case_tag(case, _absolute(case.after, case.side, pin), used=_falls(case, pin[1]))
    yield from _uses_absolute(case)


def _uses_absolute(case: Case) -> Iterator[Tag]:
    """Find moves that rely on an enemy man being pinned: what it guards is free to take."""
    to_square = case.move.to_square
    for pinner, pinned, king in absolute_pins(case.before, case.side):
        relies = pinned in case.before.attackers(not case.side, to_square)
        if not relies or to_square in case.before.pin(not case.side, pinned):
            continue
        if pinner == case.move.from_square or pinned == to_square:
            continue
        if not case.after.is_pinned(not case.side, pinned):
            continue
        tag = _absolute(case.after, case.side, (pinner, pinned, king))
        sentence = f"{tag.sentence}, so it does not guard {name(to_square)}"
        yield case_tag(case, _with_sentence(tag, sentence), used=case.proof is not None)


def _with_sentence(tag: Tag, sentence: str) -> Tag:
    from dataclasses import replace

    return replace(tag, sentence=sentence)


def _absolute(board: chess.Board, side: chess.Color, pin: Pin) -> Tag:
    pinner, pinned, king = pin
    along = any(move.from_square == pinned for move in _as_if_to_move(board, not side).legal_moves)
    may = "it may move only along the line" if along else "it may not move"
    sentence = f"{The(board, pinner)} pins {the(board, pinned)} to {the(board, king)}: {may}"
    return _pin_tag("absolute pin", board, side, pin, sentence)


def _as_if_to_move(board: chess.Board, side: chess.Color) -> chess.Board:
    if board.turn == side:
        return board
    other = board.copy(stack=False)
    other.turn = side
    other.ep_square = None
    return other


def _pin_tag(motif: str, board: chess.Board, side: chess.Color, pin: Pin, sentence: str) -> Tag:
    pinner, pinned, rear = pin
    return Tag(
        motif=motif,
        fen=board.fen(),
        side=side,
        ply=0,
        actor=name(pinner),
        targets=(name(pinned), name(rear)),
        squares=tuple(name(square) for square in chess.SquareSet.between(pinner, rear)),
        sentence=sentence,
        marks=(ring(pinner), dashes(pinner, rear), ticks(pinned)),
    )


def case_tag(case: Case, tag: Tag, *, used: bool) -> Tag:
    """Make a tag of a position a tag of the move, with the proof if the tactic is what wins."""
    from dataclasses import replace

    return replace(
        tag,
        ply=1,
        fen=case.after.fen(),
        move=case.move.uci(),
        before=case.before.fen(),
        line_moves=(case.move, *(case.lines[0] if case.lines else ())),
        proof=case.proof if used else None,
    )


def _presses(case: Case, pinned: chess.Square) -> bool:
    """Tell whether a move attacks a man that was pinned already once more."""
    return pinned in case.after.attacks(case.move.to_square) and pinned not in case.before.attacks(
        case.move.from_square
    )


def _falls(case: Case, pinned: chess.Square) -> bool:
    """Tell whether the pinned man, standing still, is taken in the lines of the proof."""
    if case.proof is None:
        return False
    return any(
        step.taken == pinned and step.move.to_square == pinned and step.side == case.side
        for line in case.lines
        for step in steps(case.after, line)
    )


# -- to another man ------------------------------------------------------------


def relative_pins(board: chess.Board, side: chess.Color) -> Iterator[Pin]:
    """Yield the men that had better not leave a line: what stands behind would be lost."""
    for pinner in chess.SquareSet(board.occupied_co[side]):
        if not is_slider(board, pinner):
            continue
        for front in attacked_by(board, pinner, not side):
            if not moves_along(board, pinner, front):
                continue
            if board.piece_type_at(front) in (chess.KING, chess.PAWN):
                continue
            rear = behind(board, pinner, front)
            if rear is None or board.color_at(rear) == side:
                continue
            if board.piece_type_at(rear) in (chess.KING, chess.PAWN):
                continue
            dearer = worth(board, rear) > max(worth(board, front), worth(board, pinner))
            loose = is_loose(board, rear) and worth(board, rear) >= worth(board, front)
            if (dearer or loose) and leaving_loses(board, side, (pinner, front, rear)):
                yield pinner, front, rear


def leaving_loses(board: chess.Board, side: chess.Color, pin: Pin) -> bool:
    """Tell whether every legal move of the pinned man off the line loses material.

    It is asked as if the man's side were to move; a man that cannot leave is
    not pinned in this sense.
    """
    pinner, front, rear = pin
    enemy = _as_if_to_move(board, not side)
    if not enemy.is_valid():
        return False
    line = chess.SquareSet.ray(pinner, rear)
    leaving = [
        move
        for move in enemy.legal_moves
        if move.from_square == front and move.to_square not in line
    ]
    if not leaving:
        return False
    stands = settled(enemy)
    return all(_costs(enemy, move, stands) for move in leaving)


def _costs(board: chess.Board, move: chess.Move, stands: int) -> bool:
    after = board.copy(stack=False)
    after.push(move)
    return -settled(after) < stands


def relative_static(board: chess.Board) -> Iterator[Tag]:
    """Find the relative pins of a position, of both sides."""
    for side in chess.COLORS:
        for pin in relative_pins(board, side):
            yield _relative(board, side, pin)


def relative(case: Case) -> Iterator[Tag]:
    """Find relative pins that a move makes, or presses on."""
    before = {pin[1:] for pin in relative_pins(case.before, case.side)}
    for pin in relative_pins(case.after, case.side):
        if pin[1:] in before and not _presses(case, pin[1]):
            continue
        used = _falls(case, pin[1]) or _falls(case, pin[2])
        yield case_tag(case, _relative(case.after, case.side, pin), used=used)


def _relative(board: chess.Board, side: chess.Color, pin: Pin) -> Tag:
    pinner, front, rear = pin
    loose = is_loose(board, rear)
    what = f"{the(board, rear)}{', which nothing guards,' if loose else ''} would be lost"
    sentence = (
        f"{The(board, pinner)} pins {the(board, front)} to {the(board, rear)}: "
        f"if it left the line, {what}"
    )
    return _pin_tag("relative pin", board, side, pin, sentence)


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
            fen="4k3/8/2n5/8/8/8/8/3BK3 w - - 0 1",
            moves="Ba4",
            why="the knight may not move, and nothing guards it",
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
        "An enemy man stands between a line piece of ours and a dearer or unguarded man: it may "
        "leave the line, but every such move loses material."
    ),
    find=relative,
    static=relative_static,
    examples=(
        Example(
            fen="3qk3/8/5n2/8/8/8/8/2B1K3 w - - 0 1",
            moves="Bg5",
            why="if the knight moves, the queen is lost",
        ),
        Example(
            fen="3q4/6k1/5n2/8/8/8/6K1/2B5 w - - 0 1",
            moves="Bg5",
            shows=False,
            why="the king guards the knight and nothing is won: the pin is there, and is no tactic",
        ),
    ),
)
