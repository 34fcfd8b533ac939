"""A frame of reference: positions that mirror each other are searched as one.

Of the lines that a proof can show, which one is shown depends on the order in
which moves are tried.  So that the same tactic has the same evidence for
White and for Black, on the left and on the right, a position is searched as
one of its mirror images, always the same one, and the answer is turned back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

import chess

from chessnb.proof import Gain, Goal, MateOrGain, Measure, Node, Proof

COLOURS, SIDES = 56, 7
"""What the number of a square is changed by: ranks reversed, files reversed."""


@dataclass(frozen=True, kw_only=True)
class Frame:
    """How a position is turned before it is searched.

    Attributes
    ----------
    change : int
        What the numbers of its squares are changed by: ranks, files, both or
        nothing.  With the ranks the colours change.
    """

    change: int

    @classmethod
    def of(cls, board: chess.Board) -> Frame:
        """Choose a frame: White to move, and the smaller of a board and its mirror image.

        A position with castling rights has no mirror image.

        Examples
        --------
        >>> black = Frame.of(chess.Board("4k3/4p3/8/8/8/8/8/R3K3 b - - 0 1"))
        >>> black.colours_change
        True
        """
        frame = cls(change=0 if board.turn else COLOURS)
        if board.castling_rights:
            return frame
        other = cls(change=frame.change ^ SIDES)
        return min(frame, other, key=lambda one: one.board(board).board_fen())

    @property
    def colours_change(self) -> bool:
        """Whether White's pieces are Black's in the frame."""
        return bool(self.change & COLOURS)

    def board(self, board: chess.Board) -> chess.Board:
        """Return a position as the frame has it, without its history."""
        turned = board.copy(stack=False)
        if self.colours_change:
            turned = turned.mirror()
        if self.change & SIDES:
            turned = turned.transform(chess.flip_horizontal)
        return turned

    def move(self, move: chess.Move) -> chess.Move:
        """Turn a move into the frame, or back: the same both ways."""
        start, end = move.from_square ^ self.change, move.to_square ^ self.change
        return chess.Move(start, end, promotion=move.promotion)

    def moves(self, moves: Iterable[chess.Move]) -> tuple[chess.Move, ...]:
        """Turn a line into the frame, or back."""
        return tuple(self.move(move) for move in moves)

    def back(self, proof: Proof, board: chess.Board) -> Proof:
        """Return a proof of the frame as one of the position on the board."""
        attacker = proof.attacker != self.colours_change
        nodes = tuple(self._node(node) for node in proof.nodes)
        goal = self.goal(proof.goal)
        return replace(proof, fen=board.fen(), attacker=attacker, goal=goal, nodes=nodes)

    def goal(self, goal: Goal) -> Goal:
        """Turn a goal into the frame, or back: a gain is measured in a position."""
        match goal:
            case Gain():
                return replace(goal, measure=self._measure(goal.measure))
            case MateOrGain():
                gain = replace(goal.gain, measure=self._measure(goal.gain.measure))
                return replace(goal, gain=gain)
        return goal

    def _measure(self, measure: Measure) -> Measure:
        return replace(
            measure,
            fen=self.board(chess.Board(measure.fen)).fen() if measure.fen else "",
            moves=tuple(self._uci(move) for move in measure.moves),
            since=tuple(self._uci(move) for move in measure.since),
        )

    def _node(self, node: Node) -> Node:
        replies = sorted((self._uci(reply), child) for reply, child in node.replies)
        return replace(node, move=self._uci(node.move), replies=tuple(replies))

    def _uci(self, text: str) -> str:
        move = chess.Move.from_uci(text) if text else None
        return self.move(move).uci() if move else text
