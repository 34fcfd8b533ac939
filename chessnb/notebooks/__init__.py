"""Lesson notebooks: their cells, their files, and running them.

Nothing here needs nbformat or nbclient before it is called.
"""

from chessnb.notebooks.lesson_cells import (
    cell_id,
    cell_key,
    code_cell,
    drafted_cells,
    is_edited,
    markdown_cell,
    new_notebook,
    place,
    place_in_words,
    section_of,
)
from chessnb.notebooks.lesson_files import notebook_bytes, read_notebook, write_notebook
from chessnb.notebooks.live_parts import is_lesson, strip_widgets, without_live_parts
from chessnb.notebooks.markdown import escape, plain, unescape
from chessnb.notebooks.runner import CellFailed, run_notebook

__all__ = [
    "CellFailed",
    "cell_id",
    "cell_key",
    "code_cell",
    "drafted_cells",
    "escape",
    "is_edited",
    "is_lesson",
    "markdown_cell",
    "new_notebook",
    "notebook_bytes",
    "place",
    "place_in_words",
    "plain",
    "read_notebook",
    "run_notebook",
    "section_of",
    "strip_widgets",
    "unescape",
    "without_live_parts",
    "write_notebook",
]
