"""What leaves the notebook: a lesson on paper.

``copied_lesson`` has a lesson as plain values, ``prose`` and ``card_text`` its
texts without markup, ``lettering`` sets them; ``student_sheet`` and
``teachers_key`` say what stands on paper, and ``typesetting`` makes the PDF of it.
"""

from chessnb.publishing.copied_lesson import LessonCopy, lesson_copy
from chessnb.publishing.paper import Paper, Printed, print_copy, print_lesson

__all__ = ["LessonCopy", "Paper", "Printed", "lesson_copy", "print_copy", "print_lesson"]
