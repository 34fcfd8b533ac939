"""A motif: all that the package knows of one tactic, as its own module states it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.motifs.case import Case
from chessnb.motifs.evidence import Tag

Proving = Literal["gain", "draw", "line", "nothing"]
"""What stands behind a tag of a motif.

``"gain"``: what the move wins by force.  ``"draw"``: a draw that the motif
proves itself, where nothing is won.  ``"nothing"``: it is never proved, and
looked for only where such patterns are asked for.
"""


@dataclass(frozen=True, kw_only=True)
class Example:
    """A position with a move that shows a motif, or just fails to.

    Attributes
    ----------
    fen : str
        The position before the move; for a static pattern, the position.
    moves : str
        The move and the line that follows, in SAN; empty for a static pattern.
    shows : bool
        Whether the motif is there; a near miss otherwise.
    why : str
        What a teacher would say about it.
    source : str
        Where the position is from; made for this module if empty.
    led : str
        The moves, in SAN, that lead from `fen` to the position before the move.
    """

    fen: str
    moves: str = ""
    shows: bool = True
    why: str = ""
    source: str = ""
    led: str = ""

    @property
    def board(self) -> chess.Board:
        """The position before the move, with the moves that led there."""
        board = chess.Board(self.fen)
        for san in self.led.split():
            board.push_san(san)
        return board


@dataclass(frozen=True, kw_only=True)
class Motif:
    """A tactic that can be looked for.

    Attributes
    ----------
    name : str
        The trade's name of it.
    rank : int
        Its place among the others when tags are told: the lowest first.
    definition : str
        What counts, in our own words.
    find : callable
        Looks for it in a case: a move with its line.
    examples : tuple of Example
        Where it is, and where it is not.
    also : tuple of str
        What teachers call it as well; one word may stand for several motifs.
    static : callable or None
        Looks for it in a position, where that has a meaning.
    why_not : callable or None
        Says which part of the definition a case does not meet; an empty text
        where no part of its own fails, and only the win is missing.
    proving : {"gain", "draw", "line", "nothing"}
        What stands behind its tags: what is proved to be won, a draw that is
        proved, or the line in which it was played, where no gain is proved.
    telling : int
        How much it tells a class, apart from what it wins: more where it is
        harder to see (common practice, no source).
    counted : bool
        Whether one speaks of "a" of it: a fork, but deflection.
    """

    name: str
    rank: int
    definition: str
    find: Callable[[Case], Iterator[Tag]]
    examples: tuple[Example, ...] = ()
    also: tuple[str, ...] = ()
    static: Callable[[chess.Board], Iterator[Tag]] | None = None
    why_not: Callable[[Case], str] | None = None
    proving: Proving = "gain"
    telling: int = 4
    counted: bool = True

    @property
    def in_words(self) -> str:
        """Its name as it stands in a sentence.

        Examples
        --------
        >>> from chessnb import motifs
        >>> motifs.explain("x-ray").in_words, motifs.explain("deflection").in_words
        ('an x-ray', 'deflection')
        """
        if not self.counted:
            return self.name
        return f"{'an' if self.name[0] in 'aeioux' else 'a'} {self.name}"
