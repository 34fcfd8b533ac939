"""Comments of a game: what readers see of them, and the names of sidelines.

Commands in comments (``[%example 1 2]`` and the like) are kept in the tree
and hidden from readers.  A sideline is named by the comment before its first
move, if that is short and ends with a colon: ``( {The greedy line:} 14...
exd5 ...)``.  So a name needs no format of its own, and any reader shows it.
"""

from __future__ import annotations

import re

import chess.pgn

from chessnb.lessons.addresses import is_address

_COMMAND = re.compile(r"\[%[A-Za-z]\w*(?:\s[^\]]*)?\]")
_NAME = re.compile(r"^(?P<name>[^\n:]{1,60}):$")


def readable(comment: str) -> str:
    """Return a comment without its commands, white space folded.

    Examples
    --------
    >>> readable("[%example 1 2] A quiet move. [%other x]")
    'A quiet move.'
    """
    return " ".join(_COMMAND.sub(" ", comment).split())


def line_name(node: chess.pgn.GameNode) -> str | None:
    """Return the name of the sideline that begins with a node, if it has one."""
    if not isinstance(node, chess.pgn.ChildNode) or not node.starts_variation():
        return None
    match = _NAME.match(readable(node.starting_comment))
    return match["name"] if match and not is_address(match["name"]) else None


def name_line(node: chess.pgn.ChildNode, name: str) -> None:
    """Give the sideline that begins with a node a name; what its comment said is kept."""
    said = node.starting_comment if line_name(node) is None else ""
    node.starting_comment = f"{name}:"
    if said:
        node.comment = f"{said} {node.comment}".strip()


def valid_name(name: str) -> bool:
    """Tell whether a name survives being saved as a comment."""
    if is_address(name):
        return False
    return bool(_NAME.match(f"{name}:")) and not set(name) & set("{}[]") and name == readable(name)


def spoken_name(name: str) -> str:
    """Turn a name as PGN tags have it (standard, section 8.1.1.4) into the spoken order.

    Examples
    --------
    >>> spoken_name("Quill, Ada"), spoken_name("Ada Quill")
    ('Ada Quill', 'Ada Quill')
    """
    last, comma, first = (part.strip() for part in name.partition(","))
    return f"{first} {last}" if comma and first and "," not in first else name
