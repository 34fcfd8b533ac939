"""What leaves the notebook: a lesson on paper, and as one file for any browser.

``copied_lesson`` has a lesson as plain values, ``prose`` and ``card_text`` its
texts without markup, ``lettering`` sets them; ``student_sheet`` and
``teachers_key`` say what stands on paper, ``exercise_sheet`` what is collected
over a course, and ``typesetting`` makes the PDF of it.  ``one_file_page`` is the
page that needs nothing else.
"""

from chessnb.publishing.copied_lesson import LessonCopy, lesson_copy
from chessnb.publishing.exercise_sheet import print_exercises
from chessnb.publishing.one_file_page import OneFile, page_copied, page_lesson
from chessnb.publishing.paper import Paper, Printed, print_copy, print_lesson
from chessnb.publishing.teachers_key import plan_of

__all__ = [
    "LessonCopy",
    "OneFile",
    "Paper",
    "Printed",
    "lesson_copy",
    "page_copied",
    "page_lesson",
    "plan_of",
    "print_copy",
    "print_exercises",
    "print_lesson",
]
