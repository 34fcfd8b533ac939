"""Lessons as values, made by hand, for tests of what is set of them."""

from pathlib import Path

from chessnb.publishing.copied_lesson import LessonCopy, Words
from chessnb.teaching.page_copy import PageCopy, Told

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
