"""What each kind of statement is made of."""

from __future__ import annotations

import re
from collections.abc import Callable

from chessnb.teaching.statements import board_kinds, forcing_kinds
from chessnb.teaching.statements.meaning import Meaning, Unclear
from chessnb.teaching.statements.statement import Statement


def statement_of(meaning: Meaning) -> Statement | None:
    """Return what a match states; None where it is not clear."""
    try:
        if meaning.pattern.kind in _STANDING and re.search(meaning.language.past, meaning.match[0]):
            return None  # it was so, and the text does not say when
        return _BUILT[meaning.pattern.kind](meaning)
    except Unclear:
        return None


_STANDING = frozenset(
    {
        "pinned", "attacks", "attacked", "defended", "undefended", "hanging", "all defended",
        "can castle", "cannot castle", "pawn", "file", "trapped", "material",
    }
)  # fmt: skip
"""What is said of a position, and not of a move."""

_BUILT: dict[str, Callable[[Meaning], Statement]] = {
    "mate": forcing_kinds.mate,
    "checkmate": forcing_kinds.checkmate,
    "no defence": forcing_kinds.no_defence,
    "check": board_kinds.by_actor,
    "only move": forcing_kinds.only_move,
    "only legal move": forcing_kinds.only_legal,
    "pinned": board_kinds.pinned,
    "threatens": forcing_kinds.threatens,
    "parries": forcing_kinds.parries,
    "wins": forcing_kinds.wins,
    "loses": forcing_kinds.loses,
    "attacks": board_kinds.attacks,
    "attacked": board_kinds.attacked,
    "defended": board_kinds.defended,
    "undefended": board_kinds.defended,
    "hanging": board_kinds.defended,
    "all defended": board_kinds.all_defended,
    "can castle": board_kinds.castling,
    "cannot castle": board_kinds.castling,
    "shows": board_kinds.shows,
    "material": board_kinds.material,
    "stalemate": board_kinds.stalemate,
    "perpetual": board_kinds.perpetual,
    "draw": board_kinds.draw,
    "cannot take": board_kinds.cannot_take,
    "cannot be taken": board_kinds.cannot_be_taken,
    "cannot move": board_kinds.cannot_move,
    "illegal": board_kinds.illegal,
    "pawn": board_kinds.pawn,
    "file": board_kinds.file,
    "trapped": board_kinds.about_piece,
    "zugzwang": board_kinds.zugzwang,
}
