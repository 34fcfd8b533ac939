"""Write a chess lesson once, as a notebook whose every finding is computed and checked again."""

from chessnb.startup import begin

begin()  # before all else, since loading the rest takes most of a second

from chessnb import charts, claims, facts, motifs
from chessnb.diagrams import diagram
from chessnb.lessons import Lesson, Moment
from chessnb.mistakes import introduce
from chessnb.teaching import class_record, questions, recall
from chessnb.teaching.grown_proof import mates_with_adviser
from chessnb.verdicts.replies import reply_table
from chessnb.widgets import (
    BranchExplorer,
    LiveBoard,
    MotifTags,
    QuestionCard,
    ReplyExplorer,
    page,
    student_lesson,
)

__version__ = "0.1.0"

__all__ = [
    "BranchExplorer",
    "Lesson",
    "LiveBoard",
    "Moment",
    "MotifTags",
    "QuestionCard",
    "ReplyExplorer",
    "charts",
    "claims",
    "class_record",
    "diagram",
    "facts",
    "mates_with_adviser",
    "motifs",
    "page",
    "questions",
    "recall",
    "reply_table",
    "student_lesson",
]

introduce(__name__)
del begin, introduce
