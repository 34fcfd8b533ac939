"""A feature of a quiet position: what stays for a while, with its words and a question."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

Key = tuple[object, ...]
"""What a feature is known by: its kind, and the side, file or square that it is about."""


@dataclass(frozen=True, kw_only=True)
class Feature:
    """Something that a position has, and keeps for a while, or that a move does.

    Attributes
    ----------
    weight : int
        How much speaks for stopping where it comes about (common practice, no source).
    words : str
        What it is, as a sentence without its full stop.
    question : str
        What a class may be asked there.
    kind : str
        What sort of feature it is.
    about : str
        What shows it: a part of the structure, ``"ending"``, ``"material"``, a square
        whose attackers are counted, ``"files"``; empty: the move itself.
    """

    weight: int
    words: str
    question: str
    kind: str
    about: str = ""


Found = Iterator[tuple[Key, Feature]]
"""Features with their keys."""
