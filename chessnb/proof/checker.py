"""The checker: it replays a proof with python-chess alone and believes nothing.

It shares no code with the solver, so that no mistake of the solver's can make
a false claim look proved.  What it accepts is exactly this:

- where the attacker is to move, the move of the node is legal;
- where the defender is to move, either it is checkmate in time, or every
  legal reply has an answer and moves are left to give it, or the gain
  *stands*;
- a gain stands when the defender has a legal move and is not in check, the
  balance has reached the target, and after each of its captures, promotions
  and checks the attacker has a legal move after which it stands again, or
  which mates;
- for a stalemate, a side without a legal move and not in check;
- a gain is measured from a balance that is worked out again, in a position
  from which the moves that are named lead to the proof's;
- for a perpetual, every move of the attacker gives check, and every reply
  leads to a position that the proof answers.
"""

from __future__ import annotations

import chess

from chessnb.errors import ChessnbError
from chessnb.proof.balances import TooWild
from chessnb.proof.certificate import Node, Proof
from chessnb.proof.counting import balance, forcing_moves
from chessnb.proof.goals import Goal, Perpetual, Stalemate, gain_of, longest, mate_within


class BrokenProof(ChessnbError):  # noqa: N818 (what it is)
    """A proof does not prove its goal.

    It is a fault of the program that made it, or of the file that kept it,
    and is never shown as an answer about the position.
    """


def check(proof: Proof) -> None:
    """Replay a proof.

    Raises
    ------
    BrokenProof
        If any reply is missing, any move is not legal, or any line does not
        reach the goal.

    Notes
    -----
    Costs a few milliseconds for each hundred nodes.
    """
    try:
        board = chess.Board(proof.fen)
    except ValueError as error:
        raise BrokenProof(f"its position is no position: {error}") from None
    if not board.is_valid():
        raise BrokenProof("its position cannot be played")
    if not proof.nodes:
        raise BrokenProof("it is empty")
    _check_measure(proof, board)
    if isinstance(proof.goal, Perpetual):
        _check_perpetual(proof, board)
    else:
        _Checker(proof).start(board)


def _check_measure(proof: Proof, board: chess.Board) -> None:
    """Check that a gain is measured in this game: in a position that leads to the proof's."""
    gain = gain_of(proof.goal)
    if gain is None or gain.measure.rule == "number":
        return
    try:
        reached = chess.Board(gain.measure.reached.fen())
        _ = gain.baseline
    except (ValueError, TooWild) as error:
        raise BrokenProof(f"what it is measured from cannot be worked out: {error}") from None
    if _same(reached) != _same(board) or gain.measure.attacker != proof.attacker:
        raise BrokenProof("its gain is measured from another position")


def holds(proof: Proof) -> bool:
    """Tell whether a proof proves its goal; see :func:`check`."""
    try:
        check(proof)
    except BrokenProof:
        return False
    return True


def answers(proof: Proof, side: chess.Color, goal: Goal, key: chess.Move | None) -> bool:
    """Tell whether a proof proves just what is asked: this goal of this side, with this move."""
    asked = proof.attacker == side and proof.goal == goal and key in (None, proof.key)
    return asked and holds(proof)


class _Checker:
    """One walk through one proof; the board is changed and changed back."""

    def __init__(self, proof: Proof) -> None:
        self.nodes = proof.nodes
        self.attacker = proof.attacker
        self.stalemate = isinstance(proof.goal, Stalemate)
        self.longest = longest(proof.goal)
        self.mate_within = mate_within(proof.goal)
        gain = gain_of(proof.goal)
        self.gain_within = 0 if gain is None else gain.within
        self.target = 0 if gain is None else gain.target
        self.accepted: set[tuple[int, int, tuple[int, ...]]] = set()

    def start(self, board: chess.Board) -> None:
        node = self.nodes[0]
        if bool(node.move) != (board.turn == self.attacker):
            raise BrokenProof("it begins with the wrong side")
        if node.move:
            self.attack(0, board, used=0)
        else:
            self.defend(0, board, used=0)

    def attack(self, index: int, board: chess.Board, *, used: int) -> None:
        """Check a node where the attacker is to move."""
        key = (index, used, _same(board))
        if key in self.accepted:
            return
        node = self.nodes[index]
        if not node.move:
            ends = self.stalemate and board.is_stalemate()
            if not ends or node.replies or node.stands:
                raise BrokenProof(f"node {index}: the attacker does not move")
        elif used >= self.longest:
            raise BrokenProof(f"node {index}: no move is left, and the goal is not reached")
        else:
            _play(board, node.move, index)
            self.defend(index, board, used=used + 1)
            board.pop()
        self.accepted.add(key)

    def defend(self, index: int, board: chess.Board, *, used: int) -> None:
        """Check a node where the defender is to move, after so many moves of the attacker."""
        node = self.nodes[index]
        if node.stands:
            if used > self.gain_within:
                raise BrokenProof(f"node {index}: too late for a gain")
            self.stand(index, board)
        elif any(board.generate_legal_moves()):
            _same_replies(index, node, [move.uci() for move in board.legal_moves])
            for reply, child in node.replies:
                self.step(index, child, board, reply)
                self.attack(child, board, used=used)
                board.pop()
        elif node.replies:
            raise BrokenProof(f"node {index}: replies where there is no legal move")
        elif not self.game_over(board, used):
            raise BrokenProof(f"node {index}: the game ends, and the goal is not reached")

    def game_over(self, board: chess.Board, used: int) -> bool:
        """Tell whether the goal is reached where the defender has no legal move."""
        if self.stalemate:
            return not board.is_check() and used <= self.longest
        return board.is_check() and used <= self.mate_within

    def stand(self, index: int, board: chess.Board) -> None:
        """Check that the gain is in hand, the defender to move."""
        node = self.nodes[index]
        if board.is_check() or not any(board.generate_legal_moves()):
            raise BrokenProof(f"node {index}: a gain does not stand in check, or in stalemate")
        if balance(board, self.attacker) < self.target:
            raise BrokenProof(f"node {index}: the gain has not been made")
        _same_replies(index, node, [move.uci() for move in forcing_moves(board)])
        for reply, child in node.replies:
            self.step(index, child, board, reply)
            self.stand_again(child, board)
            board.pop()

    def stand_again(self, index: int, board: chess.Board) -> None:
        """Check the attacker's answer to a capture, a promotion or a check."""
        key = (index, -1, _same(board))
        if key in self.accepted:
            return
        node = self.nodes[index]
        _play(board, node.move, index)
        if node.stands:
            self.stand(index, board)
        elif node.replies or not board.is_checkmate():
            raise BrokenProof(f"node {index}: the gain does not stand again")
        board.pop()
        self.accepted.add(key)

    def step(self, index: int, child: int, board: chess.Board, reply: str) -> None:
        if not index < child < len(self.nodes):
            raise BrokenProof(f"node {index}: {reply} leads nowhere")
        board.push(chess.Move.from_uci(reply))  # which is one of the legal moves: see _same_replies


def _check_perpetual(proof: Proof, board: chess.Board) -> None:
    """Check that the checks never end: the map of positions is closed."""
    root = proof.nodes[0]
    if bool(root.move) != (board.turn == proof.attacker):
        raise BrokenProof("it begins with the wrong side")
    positions: dict[int, str] = {0: board.epd()}
    waiting = [(0, board)]
    while waiting:
        index, board = waiting.pop()
        node = proof.nodes[index]
        if node.move:
            _play(board, node.move, index)
            if not board.is_check():
                raise BrokenProof(f"node {index}: {node.move} gives no check")
        elif index:
            raise BrokenProof(f"node {index}: the attacker does not move")
        if node.stands:
            raise BrokenProof(f"node {index}: a gain is not what is claimed")
        _same_replies(index, node, [move.uci() for move in board.legal_moves])
        for reply, child in node.replies:
            after = board.copy(stack=False)
            after.push_uci(reply)
            if not 0 <= child < len(proof.nodes):
                raise BrokenProof(f"node {index}: {reply} leads nowhere")
            if child not in positions:
                positions[child] = after.epd()
                waiting.append((child, after))
            elif positions[child] != after.epd():
                raise BrokenProof(f"node {child}: two positions share one answer")


def _same(board: chess.Board) -> tuple[int, ...]:
    """Return what is alike for the same position alone; an idle en passant square makes another."""
    men = (board.pawns, board.knights, board.bishops, board.rooks, board.queens, board.kings)
    rights = board.castling_rights
    return (*men, board.occupied_co[True], board.turn, rights, board.ep_square or 0)


def _play(board: chess.Board, move: str, index: int) -> None:
    try:
        played = board.parse_uci(move)
    except ValueError:
        raise BrokenProof(f"node {index}: {move} is not legal") from None
    if not played:  # python-chess reads "0000" as a pass, and lets it through
        raise BrokenProof(f"node {index}: nobody may pass")
    board.push(played)


def _same_replies(index: int, node: Node, expected: list[str]) -> None:
    given = [reply for reply, _ in node.replies]
    if sorted(given) != sorted(expected):
        odd = sorted(set(given) ^ set(expected))
        raise BrokenProof(f"node {index}: replies are missing or do not belong: {odd or given}")
