"""The name of an opening, found by position.

``openings.json`` holds the usual openings and their main variations as the
trade names them, each with the moves that lead there (from memory).  A game
has an opening's name when its position, with the side to move, castling rights
and captures en passant, is one of these, in whatever order the moves were made.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import chess

from chessnb.lessons.lesson import Lesson
from chessnb.lessons.moment import Moment
from chessnb.lessons.slips import check_lesson
from chessnb.mistakes import checked

LONGEST = 40
"""In so many moves, of either side, an opening is looked for; those that are named are shorter."""


@dataclass(frozen=True, kw_only=True)
class Opening:
    """An opening and the last position of a game that has its name.

    Attributes
    ----------
    name : str
        Such as ``"Ruy Lopez: Exchange Variation"``.
    moment : Moment
        The position that is known by that name.
    """

    name: str
    moment: Moment


@cache
def names() -> dict[str, str]:
    """Return the names of positions, by the positions as EPD writes them."""
    table = json.loads(
        files("chessnb.lessons").joinpath("openings.json").read_text(encoding="utf-8")
    )
    found = {}
    for name, moves in table.items():
        board = chess.Board()
        for san in moves.split():
            board.push_san(san)
        found[board.epd()] = name
    return found


def name_of(board: chess.Board) -> str:
    """Return the name that an opening's position has; empty if it has none.

    Examples
    --------
    >>> board = chess.Board()
    >>> for san in "d4 e6 e4 d5".split():
    ...     move = board.push_san(san)
    >>> name_of(board)
    'French Defence: Normal Variation'
    """
    return names().get(board.epd(), "")


@checked
def opening_of(lesson: Lesson) -> Opening | None:
    """Name the opening of a lesson's game: the last of its positions that has a name.

    Parameters
    ----------
    lesson : Lesson
        The lesson; it must have a game.

    Returns
    -------
    Opening or None
        Name and position; ``None`` where the game never has a position with a name.

    Raises
    ------
    LessonError
        If the lesson has no game.

    Notes
    -----
    The first call takes some tenths of a second, for the names.

    Examples
    --------
    >>> found = opening_of(Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. h3"))
    >>> found.name, found.moment.numbered
    ('Ruy Lopez: Exchange Variation', '4. Bxc6')
    """
    check_lesson(lesson, call="lessons.opening_of")
    found = None
    moment = lesson.start
    for _ in range(LONGEST):
        following = moment.next
        if following is None:
            break
        moment = following
        if name := name_of(moment.board):
            found = Opening(name=name, moment=moment)
    return found
