"""The student edition: the lesson without claims, answers, and what they found.

What is taken out is not in the file any more: neither the cell nor its
output.  The moves that the lesson tells stay; so does the game file beside
it, which the boards read.
"""

from __future__ import annotations

import ast
import os
import re
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.board.naming import counted
from chessnb.errors import NotebookError
from chessnb.notebooks import cell_key, is_edited, is_lesson, read_notebook, write_notebook
from chessnb.notebooks.answer_cells import is_answer
from chessnb.notebooks.live_parts import without_live_parts

if TYPE_CHECKING:
    from nbformat import NotebookNode

_WHY = re.compile(r"(?m)^\*Why stop here: .*\*\n?")
_NOTES_FOR_REDRAFT = ("cells", "removed")


@dataclass(frozen=True, kw_only=True)
class StudentEdition:
    """What was written.

    Attributes
    ----------
    path : Path
        The student's notebook.
    kept, removed : int
        How many cells were kept and taken out.
    """

    path: Path
    kept: int
    removed: int

    @property
    def in_words(self) -> str:
        """Say it in one sentence."""
        return f"{counted(self.kept, 'cell')}, {counted(self.removed, 'answer')} taken out."


def student_edition(
    lesson_path: str | os.PathLike[str], student_path: str | os.PathLike[str]
) -> StudentEdition:
    """Write the student edition of a lesson.

    Parameters
    ----------
    lesson_path : path
        The lesson.
    student_path : path
        The notebook to write, in the lesson's own folder so that the game
        file is found from it; an older student edition there is replaced.

    Raises
    ------
    NotebookError
        If the lesson cannot be used, or the place would overwrite a lesson
        or lies in another folder.
    """
    source, target = Path(lesson_path), Path(student_path)
    lesson = read_notebook(source)
    if not is_lesson(lesson):
        raise NotebookError("this notebook is not a lesson", path=str(source))
    _check_target(source, target)
    edition = without_answers(lesson)
    write_notebook(edition, target)
    kept = len(edition["cells"])
    return StudentEdition(path=target, kept=kept, removed=len(lesson["cells"]) - kept)


def without_answers(lesson: NotebookNode) -> NotebookNode:
    """Return a copy of a lesson without its answers; the lesson is not changed."""
    edition = deepcopy(without_live_parts(lesson))
    edition["cells"] = [_plain(_bare_page(cell)) for cell in edition["cells"]]
    edition["cells"] = [cell for cell in edition["cells"] if not _goes(cell)]
    notes = edition["metadata"].setdefault("chessnb", {})
    for name in _NOTES_FOR_REDRAFT:
        notes.pop(name, None)
    notes["edition"] = "student"
    return edition


def _goes(cell: Mapping[str, Any]) -> bool:
    """Tell whether a cell is taken out: an answer, or the drafted recap, which tells them all."""
    return is_answer(cell) or (cell_key(cell) == "recap" and not is_edited(cell))


def _bare_page(cell: Any) -> Any:
    """Take out of a page what it finds and what it has shown: the question and the board stay."""
    if cell["cell_type"] != "code" or not _is_page(str(cell["source"])):
        return cell
    (block,) = ast.parse(str(cell["source"])).body
    assert isinstance(block, ast.With)
    block.body = [ast.Pass()]
    cell["source"] = ast.unparse(block)
    cell["outputs"], cell["execution_count"] = [], None
    return cell


def _is_page(source: str) -> bool:
    """Tell whether a cell is a page and nothing else."""
    try:
        body = ast.parse(source).body
    except SyntaxError:
        return False
    if len(body) != 1 or not isinstance(body[0], ast.With):
        return False
    opened = body[0].items[0].context_expr
    return isinstance(opened, ast.Call) and ast.unparse(opened.func) == "page"


def _plain(cell: Any) -> Any:
    """Take out of a drafted stop why the class stops there: it gives the answer away."""
    if cell["cell_type"] == "markdown":
        cell["source"] = _WHY.sub("", str(cell["source"])).rstrip()
    return cell


def _check_target(source: Path, target: Path) -> None:
    if target.suffix != ".ipynb":
        raise NotebookError(
            "a student edition is a notebook: give it a name that ends in .ipynb", path=str(target)
        )
    if source.resolve().parent != target.resolve().parent:
        raise NotebookError(
            "a student edition lies beside its lesson, so that its game file is found;"
            f" choose a name in {source.resolve().parent}",
            path=str(target),
        )
    if target.exists():
        there = read_notebook(target)
        if there["metadata"].get("chessnb", {}).get("edition") != "student":
            raise NotebookError(
                "there is another notebook here already, and it is no student edition",
                path=str(target),
            )
