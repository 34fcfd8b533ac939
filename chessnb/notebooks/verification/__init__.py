"""Check lessons again: every finding, every claim, every error shown on purpose."""

from __future__ import annotations

import os
from collections.abc import Sequence

from chessnb.errors import NotebookError
from chessnb.notebooks.verification.lesson_check import OnCell, check_lessons
from chessnb.notebooks.verification.output_difference import SANITIZE_FILE
from chessnb.notebooks.verification.proposed_claims import propose_claims
from chessnb.notebooks.verification.report import Complaint, Kind, LessonReport, Report
from chessnb.notebooks.verification.resaving import update_lessons

__all__ = ["SANITIZE_FILE", "Complaint", "Kind", "LessonReport", "OnCell", "Report", "verify"]


def verify(
    paths: Sequence[str | os.PathLike[str]],
    *,
    update: bool = False,
    propose: bool = False,
    on_cell: OnCell | None = None,
    seconds_a_cell: int = 600,
) -> Report:
    """Compute lessons again and compare what is found with what they have saved.

    Parameters
    ----------
    paths : sequence of paths
        Notebooks, and folders of notebooks.
    update : bool
        Instead of complaining about what differs, list it and save the lesson
        with what was found now, without widget views, widget state and times.
        A lesson in which a cell raises an error that is not shown on purpose
        is not saved.
    propose : bool
        Put the claims that would prove sentences into the cells of their
        sections, run the lessons, and save them; nothing else in them is
        touched.  A lesson with complaints is left as it is.
    on_cell : callable, optional
        Told how far the check is: the notebook, how many cells are done, and
        of how many.
    seconds_a_cell : int
        How long one cell may take.

    Returns
    -------
    Report
        A report on each lesson.  One that cannot be read or run is reported
        too, and is not an error.

    Notes
    -----
    About three seconds, one more for each lesson, and what its cells take.
    A lesson without saved outputs, a cell that was not run before saving, and
    a cell whose comparison a tag switches off are complaints: they would pass
    without having been compared.  So is a card that was changed by hand: it is
    what students read, and nbval does not compare it.  A card that only says
    the same in other words than today's is none.

    Where nothing is wrong, but a lesson has to be saved again (more was found
    than it says, or it was saved before findings had records), that is told
    as such, and is exit code 1 all the same, because plain nbval would call
    the lesson different.
    """
    if update and propose:
        shown = ", ".join(map(str, paths))
        raise NotebookError("first update the lesson, then propose claims for it", path=shown)
    work = update_lessons if update else propose_claims if propose else check_lessons
    return work(paths, on_cell=on_cell, seconds_a_cell=seconds_a_cell)
