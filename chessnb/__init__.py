"""Write a chess lesson once, as a notebook whose every finding is computed and checked again."""

from chessnb import facts
from chessnb.diagram import diagram
from chessnb.lesson import Lesson, Moment
from chessnb.widgets import LiveBoard

__all__ = ["Lesson", "LiveBoard", "Moment", "diagram", "facts"]
