"""Perpetual check: a set of positions in which there is always another check.

The search takes one check for each position, the one that leaves fewest
replies first, and follows all replies to it.  A position without a check that
is left is struck out, and whoever led to it takes its next check.  When
nothing new is reached any more, what is left is closed: check after check,
for ever, or until mate.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field

import chess

from chessnb.proof import Node, Perpetual, Proof
from chessnb.search.budget import Searching

PYTHON_SLICE = 200
"""Positions between two looks at other messages; this search runs on python-chess."""

COST = 300
"""A position here costs so many of the compiled search's."""


@dataclass
class _Place:
    """A position, the attacker to move: its checks, where each reply leads, the one in use."""

    board: chess.Board
    checks: list[tuple[str, dict[str, str]]] = field(default_factory=list)
    used: int = 0
    expanded: bool = False
    dead: bool = False
    led_from: set[str] = field(default_factory=set)

    @property
    def replies(self) -> dict[str, str]:
        """The replies to the check in use, and the positions that they lead to."""
        return self.checks[self.used][1]


def finding_perpetual(
    board: chess.Board, attacker: chess.Color, *, key: chess.Move | None = None, budget: int
) -> Searching[tuple[Proof | None, bool, int]]:
    """Search for a perpetual check.

    Returns
    -------
    tuple of (Proof or None, bool, int)
        The proof if there is one; whether the answer is final; positions
        looked at, in the compiled search's measure.
    """
    if key is not None:
        return (yield from _after_key(board, attacker, key, budget))
    roots = [board] if board.turn == attacker else _after_replies(board)
    if not roots:
        return None, True, 1
    found = _Map(roots)
    looked_at = 0
    while (name := found.next_open()) is not None:
        if looked_at * COST >= budget:
            return None, False, looked_at * COST
        found.expand(name)
        looked_at += 1
        if looked_at % PYTHON_SLICE == 0:
            yield looked_at * COST
    if found.is_lost:
        return None, True, looked_at * COST
    return _proof(board, attacker, found.places), True, looked_at * COST


class _Map:
    """The positions reached so far, a check in use for each."""

    def __init__(self, roots: list[chess.Board]) -> None:
        self.places: dict[str, _Place] = {}
        self.roots = [self.enter(root) for root in roots]
        self.open = deque(self.roots)

    @property
    def is_lost(self) -> bool:
        """Whether a position to begin with has no check that goes on."""
        return any(self.places[root].dead for root in self.roots)

    def enter(self, board: chess.Board) -> str:
        name = board.epd()
        if name not in self.places:
            self.places[name] = _Place(board=board)
        return name

    def next_open(self) -> str | None:
        """Return a position to look at next; None if the map is closed, or a root is lost."""
        while not self.is_lost:
            if not self.open:
                self.open.extend(self.reached_unexpanded())
                if not self.open:
                    return None
            name = self.open.popleft()
            if not self.places[name].expanded:
                return name
        return None

    def reached_unexpanded(self) -> list[str]:
        """Return what the checks in use reach and nobody has looked at, nearest first."""
        seen, order = set(self.roots), deque(self.roots)
        unexpanded = []
        while order:
            name = order.popleft()
            place = self.places[name]
            if not place.expanded:
                unexpanded.append(name)
                continue
            for after in place.replies.values():
                if after not in seen:
                    seen.add(after)
                    order.append(after)
        return unexpanded

    def expand(self, name: str) -> None:
        """Find the checks of a position, and take the first that no reply refutes at once."""
        place = self.places[name]
        place.expanded = True
        for move in sorted(place.board.legal_moves, key=chess.Move.uci):
            if place.board.gives_check(move):
                after = place.board.copy(stack=False)
                after.push(move)
                place.checks.append((move.uci(), self._replies(after)))
        place.checks.sort(key=lambda check: (len(check[1]), check[0]))
        self.take_check(name)

    def _replies(self, after: chess.Board) -> dict[str, str]:
        replies = {}
        for reply in sorted(after.legal_moves, key=chess.Move.uci):
            reached = after.copy(stack=False)
            reached.push(reply)
            replies[reply.uci()] = self.enter(reached)
        return replies

    def take_check(self, name: str) -> None:
        """Take a position's next check that leads to no struck-out position, or strike it out."""
        waiting = [name]
        while waiting:
            at = waiting.pop()
            place = self.places[at]
            while place.used < len(place.checks) and self._is_answered(place):
                place.used += 1
            if place.used == len(place.checks):
                if not place.dead:
                    place.dead = True
                    waiting += sorted(place.led_from)
                continue
            for after in place.replies.values():
                self.places[after].led_from.add(at)
                if not self.places[after].expanded:
                    self.open.append(after)

    def _is_answered(self, place: _Place) -> bool:
        """Tell whether a reply to the check in use leads to a struck-out position."""
        return any(self.places[after].dead for after in place.replies.values())


def _after_key(
    board: chess.Board, attacker: chess.Color, key: chess.Move, budget: int
) -> Searching[tuple[Proof | None, bool, int]]:
    """Search after a first check that is given."""
    after = board.copy(stack=False)
    after.push(key)
    if not after.is_check():
        return None, True, 1
    proof, settled, positions = yield from finding_perpetual(after, attacker, budget=budget)
    if proof is None:
        return None, settled, positions
    first = Node(move=key.uci(), replies=proof.nodes[0].replies)
    whole = Proof(
        fen=board.fen(), attacker=attacker, goal=Perpetual(), nodes=(first, *proof.nodes[1:])
    )
    return whole, settled, positions


def _after_replies(board: chess.Board) -> list[chess.Board]:
    boards = []
    for reply in sorted(board.legal_moves, key=chess.Move.uci):
        after = board.copy(stack=False)
        after.push(reply)
        boards.append(after)
    return boards


def _proof(
    board: chess.Board,
    attacker: chess.Color,
    places: dict[str, _Place],
) -> Proof:
    """Make the proof: a number for all that the checks in use reach, the position itself first."""
    numbers: dict[str, int] = {}
    order: list[str] = []

    def number(name: str) -> int:
        if name not in numbers:
            numbers[name] = len(order) + (board.turn != attacker)
            order.append(name)
        return numbers[name]

    nodes: list[Node] = []
    if board.turn == attacker:
        number(board.epd())
    else:
        replies = []
        for reply in sorted(board.legal_moves, key=chess.Move.uci):
            after = board.copy(stack=False)
            after.push(reply)
            replies.append((reply.uci(), number(after.epd())))
        nodes.append(Node(move="", replies=tuple(replies)))
    done = 0
    while done < len(order):
        place = places[order[done]]
        move, leads_to = place.checks[place.used]
        reached = sorted(leads_to.items())
        nodes.append(
            Node(move=move, replies=tuple((reply, number(after)) for reply, after in reached))
        )
        done += 1
    return Proof(fen=board.fen(), attacker=attacker, goal=Perpetual(), nodes=tuple(nodes))
