"""Live views: a board, an explorer, a reply table, a chart; and what brings a position to life.

The names are looked up when they are first used: the widgets need packages
that take long to import, and a plain script has no use for them.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from chessnb.widgets.live_output import activate, still_and_live

if TYPE_CHECKING:
    from chessnb.widgets.branch_explorer import BranchExplorer
    from chessnb.widgets.live_board import LiveBoard
    from chessnb.widgets.live_chart import LiveChart
    from chessnb.widgets.motif_tags import MotifTags
    from chessnb.widgets.page_block import Page, page
    from chessnb.widgets.page_spread import PageSpread
    from chessnb.widgets.question import QuestionCard
    from chessnb.widgets.reply_explorer import ReplyExplorer
    from chessnb.widgets.sealed_steps import StudentLesson, student_lesson

__all__ = [
    "BranchExplorer",
    "LiveBoard",
    "LiveChart",
    "MotifTags",
    "Page",
    "PageSpread",
    "QuestionCard",
    "ReplyExplorer",
    "StudentLesson",
    "activate",
    "page",
    "still_and_live",
    "student_lesson",
]

_HOMES = {
    "BranchExplorer": "branch_explorer",
    "LiveBoard": "live_board",
    "LiveChart": "live_chart",
    "MotifTags": "motif_tags",
    "Page": "page_block",
    "PageSpread": "page_spread",
    "QuestionCard": "question",
    "ReplyExplorer": "reply_explorer",
    "StudentLesson": "sealed_steps",
    "page": "page_block",
    "student_lesson": "sealed_steps",
}


def __getattr__(name: str) -> Any:
    if name in _HOMES:
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


activate()  # in a notebook, importing the package is what brings its positions to life
