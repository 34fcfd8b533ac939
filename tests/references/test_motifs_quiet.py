"""Motifs on quiet positions, where nothing is to be named.

The positions come from the games in the source archive of ``chess`` and from
random play of sensible moves.  Quiet means: no capture, check or promotion
changes the settled balance, and the solver finds nothing that either side
wins within three moves.
"""

import random
from collections.abc import Iterator

import chess
import chess.pgn
import pytest
from thoroughness import scaled

from chessnb import motifs
from chessnb.board.points import balance
from chessnb.proof import baseline, forcing_moves, settled
from chessnb.search import core
from references.archive import game_files

WANTED, WITHIN, BUDGET = scaled(300), 3, 150_000


def from_games() -> Iterator[chess.Board]:
    """Yield every fourth position of the archive's standard games."""
    for path in game_files():
        with path.open(encoding="utf-8", errors="replace") as file:
            while (game := chess.pgn.read_game(file)) is not None:
                board = game.board()
                if type(board) is not chess.Board or board.chess960:
                    continue
                for ply, move in enumerate(game.mainline_moves()):
                    if ply % 4 == 3 and board.is_valid():
                        yield board.copy(stack=False)
                    board.push(move)


def from_sensible_play(seed: int) -> Iterator[chess.Board]:
    """Yield positions of random games in which nobody loses material at once."""
    chance = random.Random(seed)
    while True:
        board = chess.Board()
        for ply in range(50):
            moves = sorted(board.legal_moves, key=chess.Move.uci)
            chance.shuffle(moves)
            move = next((move for move in moves[:8] if _is_sensible(board, move)), None)
            if move is None:
                break
            board.push(move)
            if ply % 3 == 2:
                yield board.copy(stack=False)


def _is_sensible(board: chess.Board, move: chess.Move) -> bool:
    kept = settled(board)
    after = board.copy(stack=False)
    after.push(move)
    return not after.is_game_over() and -settled(after) >= kept


def is_quiet(board: chess.Board) -> bool:
    if board.is_check() or board.is_game_over():
        return False
    if settled(board) != balance(board, board.turn):
        return False
    if any(-settled(_after(board, move)) > settled(board) for move in forcing_moves(board)):
        return False
    return not any(_wins(board, side) for side in chess.COLORS)


def _after(board: chess.Board, move: chess.Move) -> chess.Board:
    after = board.copy(stack=False)
    after.push(move)
    return after


def _wins(board: chess.Board, side: chess.Color) -> bool:
    """Tell whether a side may win something within three moves, by an estimate that says too much."""
    base = baseline(board) if side == board.turn else balance(board, side)
    gains = core.Gains(board.fen(), attacker=side, within=WITHIN, floor=base)
    return not gains.run(BUDGET) or gains.value > base


@pytest.mark.thorough
def test_quiet_positions_are_left_alone():
    quiet, named = 0, []
    sources = [from_games(), from_sensible_play(3)]
    while quiet < WANTED and sources:
        for source in list(sources):
            board = next(source, None)
            if board is None:
                sources.remove(source)
            elif is_quiet(board):
                quiet += 1
                moves = sorted(board.legal_moves, key=chess.Move.uci)
                move = moves[quiet % len(moves)]
                found = (*motifs.tag(board, move), *motifs.tags(board))
                named += [f"{board.fen()} {board.san(move)}: {tag.words}" for tag in found]
    assert quiet >= WANTED
    assert len(named) <= WANTED * 2 // 100, "\n".join(named)
