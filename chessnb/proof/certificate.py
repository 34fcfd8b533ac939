"""Proofs: for the attacker one move, for the defender every legal reply.

A proof is a table of nodes.  A node holds the attacker's move and where each
reply leads; a node further down has a higher number, and several replies may
lead to the same node.  That keeps a proof small, makes it plain data, and
lets a checker walk it without trusting who made it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import chess

from chessnb.proof.counting import balance
from chessnb.proof.goals import Gain, Goal, Mate, MateOrGain, Perpetual, Stalemate, gain_of
from chessnb.proof.measure import RULES, Measure

MATED = 1000
"""What a defender has lost who is mated, in points: more than any balance."""


@dataclass(frozen=True, kw_only=True)
class _Plan:
    """The defender's best at a node: what is left to the attacker, how long it takes, the reply.

    `longest` is the length of the longest line from there, the best or not.
    """

    outcome: int
    moves: int
    longest: int
    reply: tuple[str, int] | None


@dataclass(frozen=True, kw_only=True)
class Node:
    """The attacker's move in one position, and the defender's replies to it.

    Attributes
    ----------
    move : str
        UCI; empty where the attacker does not move: at the root when the
        defender is to move, and where the attacker is stalemated.
    stands : bool
        Whether the gain is in hand after the move: then the replies are the
        defender's captures, promotions and checks, and each has an answer.
        Otherwise they are all its legal moves.
    replies : tuple of (str, int)
        UCI of the reply, and the number of the node that answers it.
    """

    move: str
    stands: bool = False
    replies: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Proof:
    """A goal, and the moves that reach it against every defence.

    Attributes
    ----------
    fen : str
        The position.
    attacker : chess.Color
        The side whose goal it is; either side may be to move.
    goal : Goal
        What is proved.
    nodes : tuple of Node
        The tree; the first is its root.
    """

    fen: str
    attacker: chess.Color
    goal: Goal
    nodes: tuple[Node, ...]

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def key(self) -> chess.Move | None:
        """The attacker's first move; None if the defender moves first."""
        return chess.Move.from_uci(self.nodes[0].move) if self.nodes[0].move else None

    @property
    def size(self) -> int:
        """How many of the attacker's moves it holds."""
        return len(self.nodes)

    @property
    def moves(self) -> int:
        """The attacker's moves in its longest line, to the stand of a gain; 0 for a perpetual."""
        return self._plan[0].longest if self._plan else 0

    @property
    def mates(self) -> bool:
        """Whether even the best defence ends in mate."""
        return bool(self._plan) and self._plan[0].outcome == MATED

    @property
    def outcome(self) -> int:
        """What the best defence leaves the attacker, as a balance in its points.

        ``MATED`` if it leaves mate alone; for a proof of material or mate.
        """
        return self._plan[0].outcome

    def raised(self) -> Proof:
        """Return a proof of a gain with all the points that it shows; any other as it is.

        The best defence against a proof of "at least 2" may still cost 5.
        """
        goal = self.goal
        if not isinstance(goal, Gain) or self.outcome == MATED:
            return self
        points = self.outcome - goal.baseline
        return self if points <= goal.points else replace(self, goal=replace(goal, points=points))

    def answer(self, moves: Sequence[chess.Move] = ()) -> chess.Move | None:
        """Return the attacker's move after a line of the proof that ends with the defender's.

        `moves` are both sides' from the position on.  None if the line is not
        in the proof, or the attacker is not to move after it.
        """
        reached = self._walk(moves)
        if reached is None or not reached[1] or not self.nodes[reached[0]].move:
            return None
        return chess.Move.from_uci(self.nodes[reached[0]].move)

    @property
    def main_line(self) -> tuple[chess.Move, ...]:
        """The longest resistance: of the defences that cost least the one that lasts longest.

        It ends with mate, with the gain in hand, or where a perpetual begins
        to repeat itself.
        """
        return self.line_from(())

    def line_from(self, moves: Sequence[chess.Move]) -> tuple[chess.Move, ...]:
        """Return the longest resistance after some moves of the proof, without those moves.

        Empty if the moves are not in the proof.
        """
        reached = self._walk(moves)
        line: list[chess.Move] = []
        visited: set[int] = set()
        while reached is not None:
            index, ours = reached
            node = self.nodes[index]
            if index in visited or (ours and not node.move):
                break
            if ours:
                line.append(chess.Move.from_uci(node.move))
            visited.add(index)
            reply = self._reply_of(index)
            if reply is None:
                break
            line.append(chess.Move.from_uci(reply[0]))
            reached = reply[1], True
        return tuple(line)

    def _walk(self, moves: Sequence[chess.Move]) -> tuple[int, bool] | None:
        """Return the node after some moves, and whether the attacker is to move there."""
        index, ours = 0, bool(self.nodes[0].move)
        for move in moves:
            node = self.nodes[index]
            if ours and move.uci() != node.move:
                return None
            if not ours:
                child = dict(node.replies).get(move.uci())
                if child is None:
                    return None
                index = child
            ours = not ours
        return index, ours

    def _reply_of(self, index: int) -> tuple[str, int] | None:
        if self._plan:
            return self._plan[index].reply
        return min(self.nodes[index].replies, default=None)

    @cached_property
    def _plan(self) -> dict[int, _Plan]:
        """What the defender does best at each node; empty for a perpetual."""
        plans: dict[int, _Plan] = {}
        if not isinstance(self.goal, Perpetual):
            self._fill(0, self.board, plans)
        return plans

    def _fill(self, index: int, board: chess.Board, plans: dict[int, _Plan]) -> _Plan:
        """Find the defender's best reply at a node and at all below it."""
        node = self.nodes[index]
        if node.move:
            board.push(chess.Move.from_uci(node.move))
        best = _Plan(outcome=MATED, moves=0, longest=0, reply=None)
        if node.stands:
            best = replace(best, outcome=balance(board, self.attacker))
        longest = 0
        for reply, child in node.replies:
            plan = plans.get(child)
            if plan is None:
                board.push(chess.Move.from_uci(reply))
                plan = self._fill(child, board, plans)
                board.pop()
            if node.stands:
                if plan.outcome < best.outcome:
                    best = replace(best, outcome=plan.outcome, reply=(reply, child))
                continue
            longest = max(longest, plan.longest)
            if best.reply is None or (plan.outcome, -plan.moves) < (best.outcome, -best.moves):
                best = replace(plan, reply=(reply, child))
        if node.move:
            board.pop()
        ours = 1 if node.move else 0
        plans[index] = replace(best, moves=best.moves + ours, longest=longest + ours)
        return plans[index]

    # -- as plain data -----------------------------------------------------

    def to_data(self) -> dict[str, Any]:
        """Return the proof as plain values, small and ready for JSON."""
        return {
            "fen": self.fen,
            "attacker": "white" if self.attacker else "black",
            "goal": goal_to_data(self.goal),
            "nodes": [
                [node.move, int(node.stands), *[part for reply in node.replies for part in reply]]
                for node in self.nodes
            ],
        }

    @classmethod
    def from_data(cls, data: Any) -> Proof:
        """Read what :meth:`to_data` has written.

        Raises
        ------
        ValueError
            If it is not that; whether it proves anything is for
            :func:`chessnb.proof.check` to say.
        """
        try:
            return cls(
                fen=str(data["fen"]),
                attacker={"white": True, "black": False}[data["attacker"]],
                goal=goal_from_data(data["goal"]),
                nodes=tuple(_node(entry) for entry in data["nodes"]),
            )
        except (KeyError, TypeError, IndexError, AttributeError) as error:
            raise ValueError(f"this is not a proof: {error!r}") from error


def from_answers(root: list[Any], *, fen: str, attacker: chess.Color, goal: Goal) -> Proof:
    """Make a proof of the solver's tree of nested lists.

    A node is ``[move or None, stands, [[reply, node], ...]]``; a list that
    occurs more than once becomes one node.
    """
    order: list[list[Any]] = []
    _postorder(root, order)
    order.reverse()
    numbers = {id(node): number for number, node in enumerate(order)}
    return Proof(
        fen=fen,
        attacker=attacker,
        goal=goal,
        nodes=tuple(
            Node(
                move=node[0] or "",
                stands=bool(node[1]),
                replies=tuple(sorted((reply, numbers[id(child)]) for reply, child in node[2])),
            )
            for node in order
        ),
    )


def _postorder(root: list[Any], order: list[list[Any]]) -> None:
    """Append every node after all that it leads to, once."""
    seen: set[int] = {id(root)}
    stack: list[tuple[list[Any], Iterator[Any]]] = [(root, iter(root[2]))]
    while stack:
        node, replies = stack[-1]
        for _, child in replies:
            if id(child) not in seen:
                seen.add(id(child))
                stack.append((child, iter(child[2])))
                break
        else:
            order.append(node)
            stack.pop()


def _node(entry: Any) -> Node:
    move, stands, *rest = entry
    if len(rest) % 2 or not isinstance(move, str):
        raise ValueError(f"this is not a node of a proof: {entry!r}")
    replies = tuple(zip(map(str, rest[::2]), map(int, rest[1::2]), strict=True))
    return Node(move=move, stands=bool(stands), replies=replies)


def goal_to_data(goal: Goal) -> dict[str, Any]:
    """Return a goal as plain values."""
    match goal:
        case Mate():
            return {"mate": goal.within}
        case Gain():
            measure = _measure_to_data(goal.measure)
            return {"gain": goal.points, "within": goal.within, "measure": measure}
        case MateOrGain():
            return {**goal_to_data(goal.gain), "mate": goal.mate.within}
        case Stalemate():
            return {"stalemate": goal.within}
    return {"perpetual": True}


def goal_key(goal: Goal) -> str:
    """Return a goal in short, a gain with the balance that it is measured from.

    Examples
    --------
    >>> goal_key(Mate(within=3))
    'mate 3'
    """
    data = goal_to_data(goal)
    if (gain := gain_of(goal)) is not None:
        data["measure"] = gain.baseline
    return " ".join(f"{name} {value}" for name, value in data.items())


def goal_from_data(data: Any) -> Goal:
    """Read what :func:`goal_to_data` has written; KeyError if it is not that."""
    if "perpetual" in data:
        return Perpetual()
    if "stalemate" in data:
        return Stalemate(within=int(data["stalemate"]))
    if "gain" not in data:
        return Mate(within=int(data["mate"]))
    measure = _measure_from_data(data["measure"])
    gain = Gain(points=int(data["gain"]), within=int(data["within"]), measure=measure)
    return MateOrGain(mate=Mate(within=int(data["mate"])), gain=gain) if "mate" in data else gain


def _measure_to_data(measure: Measure) -> list[Any]:
    if measure.rule == "number":
        return [measure.rule, measure.named]
    return [measure.rule, measure.fen, " ".join(measure.moves), " ".join(measure.since)]


def _measure_from_data(data: Any) -> Measure:
    if data[0] == "number":
        return Measure.number(int(data[1]))
    rule, fen, moves, since = map(str, data)
    if rule not in RULES:
        raise KeyError(rule)
    return Measure(rule=rule, fen=fen, moves=tuple(moves.split()), since=tuple(since.split()))
