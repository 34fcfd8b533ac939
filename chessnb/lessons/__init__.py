"""Lessons: games and positions, sidelines, notes, saving."""

from chessnb.lessons.lesson import Lesson
from chessnb.lessons.moment import Moment

__all__ = ["Lesson", "Moment"]
