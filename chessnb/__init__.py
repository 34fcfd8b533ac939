"""Write a chess lesson once, as a notebook whose every finding is computed and checked again.

The names are looked up when they are first used: all of them together take most of a second
to load, and no command and no cell needs them all.
"""

from __future__ import annotations

from chessnb.startup import begin

begin()  # before all else: Ctrl-C may come while the rest is loaded

import sys
from importlib import import_module
from typing import TYPE_CHECKING, Any

from chessnb.mistakes import introduce

if TYPE_CHECKING:
    from chessnb import charts, claims, facts, motifs
    from chessnb.diagrams import diagram
    from chessnb.lessons import Lesson, Moment
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

_HOMES = {
    "Lesson": "lessons",
    "Moment": "lessons",
    "class_record": "teaching.class_record",
    "diagram": "diagrams",
    "mates_with_adviser": "teaching.grown_proof",
    "questions": "teaching.questions",
    "recall": "teaching.recall",
    "reply_table": "verdicts.replies",
}
_MODULES = ("charts", "claims", "facts", "motifs")


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    if name in _MODULES:
        found: Any = import_module(f"{__name__}.{name}")
    else:
        home = import_module(f"{__name__}.{_HOMES.get(name, 'widgets')}")
        found = home if home.__name__.endswith(f".{name}") else getattr(home, name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted(__all__)


if "IPython" in sys.modules:  # in a notebook, importing the package brings its positions to life
    import_module("chessnb.widgets")

introduce(__name__)
del begin, introduce
