"""A slow prover on python-chess, from the definitions alone, to make proofs for the checker.

It shares no code with the solver or with the checker.
"""

from __future__ import annotations

import chess

WORTH = {"p": 1, "n": 3, "b": 3, "r": 5, "q": 9, "k": 0}


def points(board: chess.Board, side: chess.Color) -> int:
    total = 0
    for piece in board.piece_map().values():
        worth = WORTH[piece.symbol().lower()]
        total += worth if piece.color == side else -worth
    return total


def mate(board: chess.Board, moves: int):
    """Return the attacker's node for a mate within so many moves, or None."""
    for move in sorted(board.legal_moves, key=chess.Move.uci):
        board.push(move)
        replies = mated(board, moves - 1)
        board.pop()
        if replies is not None:
            return [move.uci(), 0, replies]
    return None


def mated(board: chess.Board, moves: int):
    """Return every reply with its answer if the side to move is mated within so many moves."""
    legal = list(board.legal_moves)
    if not legal:
        return [] if board.is_check() else None
    if moves == 0:
        return None
    replies = []
    for reply in legal:
        board.push(reply)
        answer = mate(board, moves)
        board.pop()
        if answer is None:
            return None
        replies.append([reply.uci(), answer])
    return replies


def gain(board: chess.Board, moves: int, target: int, side: chess.Color, tail: int = 4):
    """Return the attacker's node for a balance of `target` within so many moves, or None."""
    for move in sorted(board.legal_moves, key=chess.Move.uci):
        board.push(move)
        node = _lost(board, moves - 1, target, side, tail)
        board.pop()
        if node is not None:
            return [move.uci(), *node]
    return None


def _lost(board, moves, target, side, tail):
    legal = list(board.legal_moves)
    if not legal:
        return [0, []] if board.is_check() else None
    standing = _stands(board, target, side, tail)
    if standing is not None:
        return [1, standing]
    if moves == 0:
        return None
    replies = []
    for reply in legal:
        board.push(reply)
        answer = gain(board, moves, target, side, tail)
        board.pop()
        if answer is None:
            return None
        replies.append([reply.uci(), answer])
    return [0, replies]


def _stands(board, target, side, tail):
    if board.is_check() or points(board, side) < target or not any(board.legal_moves):
        return None
    replies = []
    for move in list(board.legal_moves):
        if not (board.is_capture(move) or move.promotion or board.gives_check(move)):
            continue
        if tail == 0:
            return None
        board.push(move)
        answer = None
        for back in sorted(board.legal_moves, key=chess.Move.uci):
            board.push(back)
            if board.is_checkmate():
                answer = [back.uci(), 0, []]
            elif (again := _stands(board, target, side, tail - 1)) is not None:
                answer = [back.uci(), 1, again]
            board.pop()
            if answer is not None:
                break
        board.pop()
        if answer is None:
            return None
        replies.append([move.uci(), answer])
    return replies


def stalemate(board: chess.Board, moves: int):
    """Return the attacker's node for a stalemate of either side within so many moves, or None."""
    if board.is_stalemate():
        return [None, 0, []]
    if moves == 0:
        return None
    for move in sorted(board.legal_moves, key=chess.Move.uci):
        board.push(move)
        replies: list | None = []
        if not any(board.legal_moves):
            replies = None if board.is_check() else []
        elif moves - 1 == 0 and not all(_stalemates(board, reply) for reply in board.legal_moves):
            replies = None
        else:
            for reply in list(board.legal_moves):
                board.push(reply)
                answer = stalemate(board, moves - 1)
                board.pop()
                if answer is None:
                    replies = None
                    break
                replies.append([reply.uci(), answer])
        board.pop()
        if replies is not None:
            return [move.uci(), 0, replies]
    return None


def _stalemates(board: chess.Board, reply: chess.Move) -> bool:
    board.push(reply)
    found = board.is_stalemate()
    board.pop()
    return found
