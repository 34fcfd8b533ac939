"""Recall: a line from memory, with hints; a game guessed move by move; what comes back when.

``recall.drill(lesson, side="White")`` asks for the moves of the lesson's main
line, as they stand there.  ``recall.guess(lesson)`` asks for the next move of
a game, and judges a guess by what it does.  What was missed in a drill comes
back on later days (:class:`Schedule`); how well it was known is taken from
tries, hints and time, and nobody is asked to say it.
"""

from chessnb.teaching.recall.guessing import Guessed, Guessing, guess
from chessnb.teaching.recall.memory_drill import Attempt, Drill, Recalled, Stop, Summary, drill
from chessnb.teaching.recall.schedule import Grade, Schedule, ScheduleError, grade_of

__all__ = [
    "Attempt",
    "Drill",
    "Grade",
    "Guessed",
    "Guessing",
    "Recalled",
    "Schedule",
    "ScheduleError",
    "Stop",
    "Summary",
    "drill",
    "grade_of",
    "guess",
]
