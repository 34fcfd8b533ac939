"""Lessons: games and positions, sidelines, notes, saving."""

from chessnb.lessons.lesson import Lesson
from chessnb.lessons.moment import Moment
from chessnb.lessons.openings import Opening, opening_of

__all__ = ["Lesson", "Moment", "Opening", "opening_of"]
