"""Lessons: games and positions, their moments, sidelines, notes, saving."""

from chessnb.lesson.lesson import Lesson
from chessnb.lesson.moment import Moment

__all__ = ["Lesson", "Moment"]
