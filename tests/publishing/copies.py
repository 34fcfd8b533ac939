"""Lessons as values, made by hand, for tests of what is set of them."""

from dataclasses import replace
from pathlib import Path

from chessnb import Lesson
from chessnb.notebooks import escape
from chessnb.publishing.copied_lesson import LessonCopy, Words
from chessnb.teaching.page_copy import PageCopy, Told, page_copy
from chessnb.teaching.spread import Spread
from chessnb.widgets.page_spread import PageSpread

MATE_IN_ONE = "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 24"


def told(*, kind="fact", head="", text="", known="", card="", items=()):
    return Told(kind=kind, head=head, text=text, known=known, card=card, items=tuple(items))


def page_of(**given):
    values = {
        "title": "The key", "minutes": 45, "fen": MATE_IN_ONE, "last_move": "", "turned": False,
        "caption": "After 23... h6. White to move.", "recalled": "23. Ra1 h6", "question": "White to move. Find the move.",
        "answer": "24. Ra8#", "game": "", "ply": 46, "ahead": 1, "notes": (), "moves": ("Ra8#",), "names": (),
    }  # fmt: skip
    paragraphs = tuple(given.pop("told", ()))
    return PageCopy(**{**values, **given, "told": paragraphs})


def lesson_of(*parts, name="lesson.ipynb"):
    opening = tuple(part.source for part in parts[:1] if isinstance(part, Words))
    return LessonCopy(path=Path(name), parts=parts, opening=opening)


GAME = """\
[White "Orsolya Pellwick"]
[Black "Dunmarrow, Tobin"]
[Result "*"]

1. e4 e5 2. Bc4 {Pellwick aims at f7.} Nc6 3. Qh5 Nf6 (3... g6 {The calm one.} 4. Qf3) 4. Qxf7# {Mate.} *
"""


def recorded_lesson(game=GAME, *, title="The quick mate", extra=()):
    """A lesson of two pages that ask, recorded in this process as a kernel would."""
    lesson = Lesson.from_text(game, title=title)
    pages = []
    for address in ("3... Nf6", "4. Qxf7#"):
        spread = Spread(moment=lesson.before(address), ask="find the move")
        live = PageSpread(spread)
        pages.append(replace(page_copy(spread), recording=live.recording()))
        live.close()
    words = [Words(source=f"# {escape(lesson.title)}\n\nFor the club."), *extra]
    heads = [
        Words(source="## Black's 3rd move"),
        Words(source="## White's 4th move\n\nHere 3... Nf6 was played."),
    ]
    return lesson_of(
        *words, heads[0], pages[0], heads[1], pages[1], Words(source="## What to remember\n\n- 4. Qxf7#"),
    )  # fmt: skip
