"""Moves and positions from and to text, with a teacher's errors."""

from chessnb.notation.letters import LETTERS, UnknownLanguage
from chessnb.notation.line_reader import LineLike, read_line
from chessnb.notation.move_reader import MoveLike, read_move
from chessnb.notation.move_writer import Form, write_last_move, write_line, write_move
from chessnb.notation.movetext import read_movetext, write_movetext

__all__ = [
    "LETTERS",
    "Form",
    "LineLike",
    "MoveLike",
    "UnknownLanguage",
    "read_line",
    "read_move",
    "read_movetext",
    "write_last_move",
    "write_line",
    "write_move",
    "write_movetext",
]
