"""A slow brute force on python-chess that says what the solver must say.

It is written from the definition of a goal, tries every move in every
position, and shares no code with the solver or the checker.
"""

from dataclasses import dataclass, field

import chess

POINTS = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}


@dataclass(kw_only=True)
class Oracle:
    """Whether the attacker reaches its goal; the parameters are those of the solver's question."""

    attacker: chess.Color
    mate: int = 0
    gain: int = 0
    target: int = 0
    stalemate: int = 0
    tail: int = 10
    memo: dict = field(default_factory=dict)

    def says(self, board, moves=None):
        """Return whether the goal is reached; with `moves`, by one of these first moves."""
        if board.turn == self.attacker:
            return self.attacks(board, 0, moves)
        return self.defends(board, 0)

    def remembered(self, name, board, count, method):
        key = name, board.epd(en_passant="legal"), count
        if key not in self.memo:
            self.memo[key] = method(board, count)
        return self.memo[key]

    def attacks(self, board, used, moves=None):
        if not any(board.legal_moves):
            return bool(self.stalemate) and not board.is_check()
        if used == max(self.mate, self.gain, self.stalemate):
            return False
        for move in list(board.legal_moves):
            if moves is None or move.uci() in moves:
                board.push(move)
                won = self.remembered("defends", board, used + 1, self.defends)
                board.pop()
                if won:
                    return True
        return False

    def defends(self, board, used):
        if board.is_checkmate():
            return not self.stalemate and used <= max(self.mate, self.gain)
        if board.is_stalemate():
            return used <= self.stalemate if self.stalemate else False
        if self.gain and used <= self.gain and self.stands(board, self.tail):
            return True
        for move in list(board.legal_moves):
            board.push(move)
            lost = self.remembered("attacks", board, used, self.attacks)
            board.pop()
            if not lost:
                return False
        return True

    def balance(self, board):
        mine = sum(
            points * len(board.pieces(kind, self.attacker)) for kind, points in POINTS.items()
        )
        theirs = sum(
            points * len(board.pieces(kind, not self.attacker)) for kind, points in POINTS.items()
        )
        return mine - theirs

    def stands(self, board, plies):
        if board.is_check() or not any(board.legal_moves) or self.balance(board) < self.target:
            return False
        forcing = [
            move
            for move in board.legal_moves
            if board.is_capture(move) or move.promotion or board.gives_check(move)
        ]
        for move in forcing:
            if plies < 2:
                return False
            board.push(move)
            held = self.remembered("answered", board, plies - 1, self.answered)
            board.pop()
            if not held:
                return False
        return True

    def answered(self, board, plies):
        for move in list(board.legal_moves):
            board.push(move)
            good = board.is_checkmate() or self.remembered("stands", board, plies - 1, self.stands)
            board.pop()
            if good:
                return True
        return False
