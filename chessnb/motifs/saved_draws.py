"""Saved draws: what the tactics share by which a side that is behind does not lose."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from chessnb.board.points import balance
from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag
from chessnb.proof import Perpetual, Stalemate

BEHIND = -2
"""A draw saves a side that is at least so many points behind."""


def is_behind(case: Case) -> bool:
    """Tell whether a draw would be a success for the side that moves."""
    return balance(case.before, case.side) <= BEHIND


def needs_no_draw(case: Case) -> str:
    """Say that the side that moves has no use for a draw."""
    return f"{case.us} is not behind, and needs no draw"


def backed(case: Case, found: Tag, goal: Perpetual | Stalemate) -> Iterator[Tag]:
    """Yield a tag with the proof of the draw that it promises; nothing if there is no proof."""
    proof = case.ask(case.before, goal, key=case.move).proof
    if proof is not None:
        yield replace(found, proof=proof, shown=proof.main_line)
