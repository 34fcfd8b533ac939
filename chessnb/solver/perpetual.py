"""Perpetual check: a set of positions in which there is always another check.

The search collects positions with the attacker to move, each with the checks
it has and the positions that the replies lead to, and strikes out those whose
every check has a reply to a position already struck out.  What is left is
closed: check after check, for ever.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass, field

import chess

from chessnb.proof import Node, Perpetual, Proof
from chessnb.solver.budget import Searching

PYTHON_SLICE = 200
"""Positions between two looks at other messages; this search runs on python-chess."""

COST = 500
"""A position here costs so many of the compiled search's."""


@dataclass
class _Place:
    """A position of the map, the attacker to move: its checks and where each reply leads."""

    board: chess.Board
    checks: dict[str, dict[str, str]] = field(default_factory=dict)
    expanded: bool = False


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
    places: dict[str, _Place] = {}
    roots = [board] if board.turn == attacker else _after_replies(board)
    waiting = [_enter(places, root) for root in roots]
    root_keys = list(waiting)
    looked_at, chosen = 0, None
    while waiting and chosen is None:
        if looked_at * COST >= budget:
            return None, False, looked_at * COST
        place = places[waiting.pop(0)]
        if place.expanded:
            continue
        waiting += _expand(place, places)
        looked_at += 1
        if looked_at % PYTHON_SLICE == 0:
            yield looked_at * COST
            chosen = _closed(places, root_keys)
    chosen = chosen or _closed(places, root_keys)
    if chosen is None:
        return None, True, looked_at * COST
    return _proof(board, attacker, places, chosen), True, looked_at * COST


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


def _name(board: chess.Board) -> str:
    return board.epd()


def _enter(places: dict[str, _Place], board: chess.Board) -> str:
    name = _name(board)
    if name not in places:
        places[name] = _Place(board=board.copy(stack=False))
    return name


def _after_replies(board: chess.Board) -> list[chess.Board]:
    boards = []
    for reply in sorted(board.legal_moves, key=chess.Move.uci):
        after = board.copy(stack=False)
        after.push(reply)
        boards.append(after)
    return boards


def _expand(place: _Place, places: dict[str, _Place]) -> list[str]:
    """Find the checks of a position and enter where the replies lead."""
    place.expanded = True
    new: list[str] = []
    for move in sorted(place.board.legal_moves, key=chess.Move.uci):
        if not place.board.gives_check(move):
            continue
        after = place.board.copy(stack=False)
        after.push(move)
        replies: dict[str, str] = {}
        for reply in after.legal_moves:
            reached = after.copy(stack=False)
            reached.push(reply)
            name = _enter(places, reached)
            replies[reply.uci()] = name
            if not places[name].expanded:
                new.append(name)
        place.checks[move.uci()] = replies
    return new


def _closed(places: dict[str, _Place], roots: list[str]) -> dict[str, str] | None:
    """Return a check for every position of a closed set that holds the roots, or None."""
    alive = {name: set(place.checks) for name, place in places.items() if place.expanded}
    changed = True
    while changed:
        changed = False
        for name, moves in list(alive.items()):
            good = {move for move in moves if _answered(places[name], move, alive)}
            changed |= good != moves
            alive[name] = good
            if not good:
                del alive[name]
    if not roots or any(root not in alive for root in roots):
        return None
    return {name: min(moves) for name, moves in alive.items()}


def _answered(place: _Place, move: str, alive: Container[str]) -> bool:
    """Tell whether every reply to a check leads to a position that is still in the set."""
    return all(reached in alive for reached in place.checks[move].values())


def _proof(
    board: chess.Board,
    attacker: chess.Color,
    places: dict[str, _Place],
    chosen: dict[str, str],
) -> Proof:
    """Make the proof: a number for all that the chosen checks reach, the position itself first."""
    numbers: dict[str, int] = {}
    order: list[str] = []

    def number(name: str) -> int:
        if name not in numbers:
            numbers[name] = len(order) + (board.turn != attacker)
            order.append(name)
        return numbers[name]

    nodes: list[Node] = []
    if board.turn == attacker:
        number(_name(board))
    else:
        replies = []
        for reply in sorted(board.legal_moves, key=chess.Move.uci):
            after = board.copy(stack=False)
            after.push(reply)
            replies.append((reply.uci(), number(_name(after))))
        nodes.append(Node(move="", replies=tuple(replies)))
    done = 0
    while done < len(order):
        name = order[done]
        move = chosen[name]
        reached = sorted(places[name].checks[move].items())
        nodes.append(
            Node(move=move, replies=tuple((reply, number(after)) for reply, after in reached))
        )
        done += 1
    return Proof(fen=board.fen(), attacker=attacker, goal=Perpetual(), nodes=tuple(nodes))
