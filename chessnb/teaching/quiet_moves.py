"""What a quiet move does: a pawn attacks a pawn, a king castles, a knight ends a journey."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import chess

from chessnb.board.naming import listed
from chessnb.board.sides import SIDES
from chessnb.teaching.quiet_feature import Feature, Found

OPENING = 10
"""In so many moves at the start, of either side, every pawn attacks some pawn."""

JOURNEY = 3
"""A knight that has moved so often in a row of its side's last moves is on a journey."""

LOOK_BACK = 5
"""Among so many moves of its side."""


def done(boards: Sequence[chess.Board], moves: Sequence[chess.Move], ply: int) -> Found:
    """Yield what the move to a position does; `boards` has one more than `moves`."""
    before, board, move = boards[ply - 1], boards[ply], moves[ply - 1]
    if ply > OPENING:
        yield from _challenges(before, board, move)
    yield from _castled(before, boards, moves, ply)
    yield from _journey(boards, moves, ply)


def _challenges(before: chess.Board, board: chess.Board, move: chess.Move) -> Found:
    """Yield the pawns that a pawn's move attacks."""
    if before.piece_type_at(move.from_square) != chess.PAWN or before.is_capture(move):
        return
    side = before.turn
    here = chess.square_name(move.to_square)
    for target in board.attacks(move.to_square) & board.pieces(chess.PAWN, not side):
        name = chess.square_name(target)
        yield (
            ("challenge", side, chess.square_file(target)),
            Feature(
                weight=2,
                words=f"{SIDES[side]}'s pawn on {here} attacks the pawn on {name}",
                question=f"With which pawn can {SIDES[side]} attack the pawn on {name}, and what "
                "changes when they are exchanged?",
                kind="pawn against pawn",
                about=name,
            ),
        )


def _castled(
    before: chess.Board, boards: Sequence[chess.Board], moves: Sequence[chess.Move], ply: int
) -> Found:
    """Yield the second castling: from now on both kings have a home."""
    if not before.is_castling(moves[ply - 1]):
        return
    earlier = range(ply - 2, -1, -1)
    if any(boards[at].is_castling(moves[at]) for at in earlier):
        yield (
            ("castled",),
            Feature(
                weight=2,
                words="both kings have castled",
                question="Both kings are safe for now: where will each side look for play?",
                kind="castled",
            ),
        )


def _journey(boards: Sequence[chess.Board], moves: Sequence[chess.Move], ply: int) -> Found:
    """Yield the way of a knight that has made several quiet moves and now stays."""
    move, before = moves[ply - 1], boards[ply - 1]
    if before.piece_type_at(move.from_square) != chess.KNIGHT:
        return
    way = _way(boards, moves, ply)
    if len(way) <= JOURNEY or len(set(way)) < len(way):
        return
    stays = all(one.from_square != way[-1] for one in moves[ply : ply + 6])
    if stays and len(moves) > ply:
        names = [chess.square_name(square) for square in way]
        side = SIDES[before.turn]
        yield (
            ("journey", before.turn, way[0]),
            Feature(
                weight=2,
                words=f"{side}'s knight has gone from {names[0]} by way of {listed(names[1:-1])} "
                "to "
                f"{names[-1]}",
                question=f"Where was {side}'s knight going, and what does it do on {names[-1]}?",
                kind="journey",
            ),
        )


def _way(
    boards: Sequence[chess.Board], moves: Sequence[chess.Move], ply: int
) -> list[chess.Square]:
    """Return the squares of the piece that moved last, as far back as it moved quietly."""
    way = [moves[ply - 1].to_square]
    for at in _own(ply):
        move = moves[at]
        if move.to_square == way[0] and not boards[at].is_capture(move):
            way.insert(0, move.from_square)
    return way


def _own(ply: int) -> Iterator[int]:
    """Yield the numbers of a side's last moves, the last first."""
    yield from range(ply - 1, max(-1, ply - 1 - 2 * LOOK_BACK), -2)
