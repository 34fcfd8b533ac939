"""How a lesson's tree grows: lines, the names that they may have, and notes."""

from __future__ import annotations

from collections.abc import Sequence

import chess
import chess.pgn

from chessnb.errors import LessonError
from chessnb.lessons.addresses import is_address


def grow(
    node: chess.pgn.GameNode, moves: Sequence[chess.Move]
) -> tuple[chess.pgn.ChildNode, chess.pgn.ChildNode]:
    """Follow moves from a node on, adding those that are not there; at least one.

    Returns
    -------
    tuple of chess.pgn.ChildNode
        The nodes of the first move and of the last.
    """
    nodes: list[chess.pgn.ChildNode] = []
    for move in moves:
        known = node.has_variation(move)
        node = node.variation(move) if known else node.add_variation(move)
        nodes.append(node)
    return nodes[0], nodes[-1]


def sideline_of(node: chess.pgn.GameNode) -> chess.pgn.ChildNode | None:
    """Return the first move of the sideline that holds a node; None on the main line."""
    while isinstance(node, chess.pgn.ChildNode) and node.is_main_variation():
        node = node.parent
    return node if isinstance(node, chess.pgn.ChildNode) else None


def check_position_name(name: str) -> None:
    """Refuse what cannot name a position of a lesson.

    Raises
    ------
    LessonError
        If it is empty, not one line, or reads as an address.
    """
    if ":" in name or not name.strip() or name != " ".join(name.split()) or is_address(name):
        raise LessonError(f"{name!r} cannot name a position: one line, without colons, and no move")


def safe_note(note: str) -> str:
    """Keep a note inside the braces of a PGN comment."""
    return " ".join(note.replace("{", "(").replace("}", ")").split())
