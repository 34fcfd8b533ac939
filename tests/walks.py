"""Three walks through the house, as calls from room to room. Run by hand to see them:

    PYTHONPATH=tests python -m walks

A hop is a call from one room's code into another's; each pair of functions
counts once, in the order in which it is first made.  The kit (``board``),
``errors`` and ``mistakes`` lie under every room, as python-chess does, and
are no hops; nor is what a function is wrapped in, so that a page can gather
what it finds, and a check can hear of it.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from types import CodeType, FrameType

import chessnb
from chessnb import Lesson, claims
from chessnb.notebooks.drafting.lesson_page import lesson_cells
from chessnb.search.proof_book import book_of
from chessnb.teaching.tries import answer
from chessnb.teaching.turning_points import turning_points

ROOT = Path(chessnb.__file__).parent
GAME = ROOT.parent / "notebooks" / "games" / "lantern-street.pgn"
UNDER_ALL = {"board", "errors", "mistakes"}
WRAPPING = {ROOT / "findings" / name for name in ("gathering.py", "announcing.py")}

Hop = tuple[str, str, str, str]
"""Room and function that call, room and function that are called."""


def room_of(code: CodeType) -> str:
    """Return the room that a function lies in; empty for what is not the package's."""
    path = Path(code.co_filename)
    if not path.is_relative_to(ROOT) or path in WRAPPING:
        return ""
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def hops(walk: Callable[[], object], *, kit: bool = False) -> list[Hop]:
    """Return the hops of a walk that has been made once before; with `kit` all of them."""
    walk()
    found: dict[tuple[str, str], Hop] = {}

    def note(frame: FrameType, event: str, _argument: object) -> None:
        if event != "call" or not (room := room_of(frame.f_code)):
            return
        caller = frame.f_back
        while caller is not None and not room_of(caller.f_code):
            caller = caller.f_back
        before = "a teacher" if caller is None else room_of(caller.f_code)
        name = "" if caller is None else caller.f_code.co_qualname
        if before != room and (kit or not {before, room} & UNDER_ALL):
            hop = (before, name, room, frame.f_code.co_qualname)
            found.setdefault((name, frame.f_code.co_qualname), hop)

    sys.setprofile(note)
    try:
        walk()
    finally:
        sys.setprofile(None)
    return list(found.values())


def a_game_becomes_cells() -> None:
    """A PGN file to the cells of a lesson."""
    text = "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6?? {a blunder} 4. Qxf7# 1-0"
    lesson = Lesson.from_text(text)
    points, _ = turning_points(lesson, most=4)
    lesson_cells(lesson, points, reading="lesson", name="lesson.ipynb")


def a_claim_is_answered() -> None:
    """A position through ``claims.mates`` to its answer, the proof book of its lesson beside it."""
    claims.mates(_before_the_blow, within=6, move="Nf3+")


def a_try_is_answered() -> None:
    """A student's move to its answer."""
    answer(_board, _tried, lesson_move=_own, book=_book)


def _without_kept_verdicts() -> Lesson:
    """Return the demo's game in a folder of its own: a try is answered there by searching."""
    alone = Path(tempfile.mkdtemp()) / GAME.name
    shutil.copy(GAME, alone)
    return Lesson.read(alone)


_lesson = Lesson.read(GAME)
_before_the_blow = _lesson.before("20... Nf3+")
_moment = _without_kept_verdicts().after("19... Rae8")
_own = _moment.after("Nxd6").move
_board, _book = _moment.board, book_of(_moment)
_tried = _board.parse_san("h3")

WALKS = (a_game_becomes_cells, a_claim_is_answered, a_try_is_answered)


if __name__ == "__main__":
    for one in WALKS:
        made = hops(one)
        print(f"\n{one.__doc__} {len(made)} hops")
        for number, (before, name, room, called) in enumerate(made, start=1):
            print(f"{number:3} {before} ({name or '…'}) -> {room} ({called})")
