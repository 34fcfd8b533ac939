"""The student edition: a folder with a notebook and one sealed file, which runs alone there.

The notebook holds the title page and a short cell for each step; all else
(the game, the teacher's words and cells, the proofs) is in the sealed file and
is opened step by step.  It is a curtain, not a lock: nothing that was not
asked for can be read or searched, but whoever knows how can open it all.
"""

from __future__ import annotations

import ast
import os
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import chess.pgn

from chessnb.board.naming import counted
from chessnb.errors import NotebookError
from chessnb.lessons import Lesson
from chessnb.lessons.addresses import walk
from chessnb.lessons.game_files import open_game_file
from chessnb.notebooks import (
    cell_key,
    code_cell,
    is_lesson,
    markdown_cell,
    new_notebook,
    read_notebook,
    write_notebook,
)
from chessnb.notebooks.answer_cells import TEACHERS_TAGS
from chessnb.notebooks.cell_reading import lesson_read_by, reads, tried_moments, walked
from chessnb.notebooks.markdown import unescape
from chessnb.search.proof_book import book_of
from chessnb.teaching.kept_verdicts import keep_verdicts
from chessnb.teaching.sealed_lesson import (
    GameText,
    SealedCell,
    SealedLesson,
    Step,
    is_sealed_file,
    write_sealed,
)
from chessnb.teaching.spoilers import names_a_move

if TYPE_CHECKING:
    from nbformat import NotebookNode

EDITION = "student"
"""What the notebook of a student edition says of itself."""

_HEADING = re.compile(r"(?m)^#{1,6}[ \t]+(.*?)[ \t#]*$")
_HOW_TO_USE = (
    "*Run this notebook (menu Run, “Run All Cells”). Play your move on the board, or type it. "
    "When you have found it, the next step opens by itself.*"
)


@dataclass(frozen=True, kw_only=True)
class StudentEdition:
    """What was written.

    Attributes
    ----------
    folder : Path
        The student's folder.
    path : Path
        The notebook in it.
    steps : int
        How many steps it has.
    removed : int
        How many of the teacher's cells were left out.
    """

    folder: Path
    path: Path
    steps: int
    removed: int

    @property
    def in_words(self) -> str:
        """Say it in one sentence."""
        each = "each " if self.steps != 1 else ""
        said = f"{counted(self.steps, 'step')}, {each}sealed until it is asked for"
        if self.removed:
            said += f"; {counted(self.removed, 'cell')} marked as answers left out"
        return f"{said}."


def student_edition(
    lesson_path: str | os.PathLike[str],
    folder: str | os.PathLike[str],
    *,
    on_position: Callable[[int, int], None] | None = None,
) -> StudentEdition:
    """Write the student edition of a lesson: a folder of its own.

    Parameters
    ----------
    lesson_path : path
        The lesson.
    folder : path
        The folder to write; an older student edition there is replaced.
    on_position : callable, optional
        Called before each position where students try moves, with its number
        and how many there are.

    Raises
    ------
    NotebookError
        If the lesson cannot be used, or something stands in the folder that
        is no student edition.

    Notes
    -----
    The game files that the lesson reads travel in the sealed file, with the
    proofs kept beside them.  Other files (pictures, tables) do not.

    What every move does where students try first is computed here and travels with the proofs,
    so that a first try is answered at once on any computer: about a second a position.
    """
    source, target = Path(lesson_path), Path(folder)
    lesson = read_notebook(source)
    if not is_lesson(lesson):
        raise NotebookError("this notebook is not a lesson", path=str(source))
    if lesson["metadata"]["chessnb"].get("edition") == EDITION:
        raise NotebookError("this is a student edition: name the lesson itself", path=str(source))
    notebook_path, sealed_path = (target / f"{source.stem}{end}" for end in (".ipynb", ".sealed"))
    _check_target(target, notebook_path, sealed_path)
    cells = [cell for cell in lesson["cells"] if not _tags(cell) & TEACHERS_TAGS]
    answers = _first_answers(cells, source.parent, on_position)
    open_part, sealed = _divided(cells, source, answers)
    _make(target)
    try:
        write_sealed(sealed, sealed_path)
    except OSError as error:
        raise NotebookError(
            f"it could not be written ({error.strerror})", path=str(sealed_path)
        ) from error
    write_notebook(_notebook(open_part, sealed_path.name, len(sealed.steps)), notebook_path)
    return StudentEdition(
        folder=target,
        path=notebook_path,
        steps=len(sealed.steps),
        removed=len(lesson["cells"]) - len(cells),
    )


# -- what is open, and what is sealed ------------------------------------------------


def _first_answers(
    cells: Sequence[Any], folder: Path, on_position: Callable[[int, int], None] | None
) -> dict[Path, str]:
    """Return the proofs of each game file, by its place, with what every first try does."""
    moments = list(tried_moments(cells, folder))
    proofs: dict[Path, str] = {}
    for number, moment in enumerate(moments, start=1):
        if on_position is not None:
            on_position(number, len(moments))
        keep_verdicts(moment)
        if book := book_of(moment):
            proofs[book.path.resolve()] = book.text
    return proofs


def _divided(
    cells: Sequence[Any], source: Path, proofs: Mapping[Path, str]
) -> tuple[list[str], SealedLesson]:
    """Divide a lesson into the texts that can be read at once, and what is sealed."""
    begin, end = _first_code(cells), _read_by(cells)
    files, tells = _files(cells, source, proofs)
    open_part, kept_back = _opening(cells, tells)
    prose = [cell for cell in cells[begin:end] if cell["cell_type"] == "markdown"]
    steps = list(_steps([*prose, *cells[end:]]))
    if late := "\n\n".join(filter(None, kept_back)):
        words = SealedCell(kind="words", source=late)
        steps[:1] = [Step(cells=(words, *(steps[0].cells if steps else ())))]
    code = [cell for cell in cells[begin:end] if cell["cell_type"] == "code"]
    first = Step(cells=tuple(map(_sealed_cell, code)))
    title = next((found[1] for text in open_part if (found := _HEADING.search(text))), "")
    return [text for text in open_part if text], SealedLesson(
        title=unescape(title), files=files, first=first, steps=tuple(steps)
    )


def title_page(cells: Sequence[Any], source: Path) -> tuple[list[str], list[str]]:
    """Return the texts of a lesson's title page: what can be read at once, and what is not.

    Parameters
    ----------
    cells : sequence of cells
        The lesson's, without those that only the teacher sees.
    source : Path
        The lesson's file: the games that it names are looked for beside it.
    """
    open_part, kept_back = _opening(cells, _files(cells, source, {})[1])
    return [text for text in open_part if text], [text for text in kept_back if text]


def _opening(cells: Sequence[Any], tells: _Tells) -> tuple[list[str], list[str]]:
    """Part each text of the title page into what can be read at once, and what comes late."""
    texts = [
        str(cell["source"])
        for cell in cells[: _first_code(cells)]
        if cell["cell_type"] == "markdown" and cell_key(cell) != "how to use"
    ]
    parts = [_parted(text, tells) for text in texts]
    return [said for said, _ in parts], [hidden for _, hidden in parts]


def _first_code(cells: Sequence[Any]) -> int:
    """Return where the lesson is read: all before it is the title page."""
    for index, cell in enumerate(cells):
        if cell["cell_type"] == "code":
            return index
    return len(cells)


def _read_by(cells: Sequence[Any]) -> int:
    """Return how many cells it takes until the lesson is read; one of code, if none reads it."""
    for index, cell in enumerate(cells):
        if cell["cell_type"] == "code" and any(map(reads, walked(str(cell["source"])))):
            return index + 1
    return min(_first_code(cells) + 1, len(cells))


def _steps(cells: Sequence[Any]) -> Iterator[Step]:
    """Yield the steps: each leads to a page, the last one to the end."""
    gathered: list[SealedCell] = []
    for cell in cells:
        if cell["cell_type"] == "raw" or not str(cell["source"]).strip():
            continue
        gathered.append(_sealed_cell(cell))
        if _asks(cell):
            yield Step(cells=tuple(gathered))
            gathered = []
    if gathered:
        yield Step(cells=tuple(gathered))


def _sealed_cell(cell: Mapping[str, Any]) -> SealedCell:
    source = str(cell["source"])
    if cell["cell_type"] == "markdown":
        return SealedCell(kind="words", source=source)
    shown = len(cell.get("outputs", ()))
    return SealedCell(kind="code", source=source, places=max(1, shown, _pages(source)))


def _asks(cell: Mapping[str, Any]) -> bool:
    """Tell whether a step ends with a cell: whether it holds a page."""
    return cell["cell_type"] == "code" and _pages(str(cell["source"])) > 0


def _pages(source: str) -> int:
    """Count the pages of a cell."""
    return sum(
        isinstance(node, ast.With)
        and isinstance(opened := node.items[0].context_expr, ast.Call)
        and ast.unparse(opened.func).split(".")[-1] == "page"
        for node in walked(source)
    )


def _tags(cell: Mapping[str, Any]) -> set[str]:
    return set(cell.get("metadata", {}).get("tags", ()))


# -- the games -------------------------------------------------------------------------


class _Tells:
    """What a text must not name before it is asked for: the moves and the sidelines."""

    def __init__(self, moves: set[str], names: set[str]) -> None:
        self.moves = frozenset(moves)
        self.names = names

    def is_told_by(self, text: str) -> bool:
        said = unescape(text).casefold()
        return names_a_move(unescape(text), self.moves) or any(name in said for name in self.names)


def _parted(text: str, tells: _Tells) -> tuple[str, str]:
    """Part a text into the paragraphs that give nothing away, and those that do."""
    paragraphs = re.split(r"\n{2,}", text.strip())
    kept = [one for one in paragraphs if not tells.is_told_by(one)]
    late = [one for one in paragraphs if tells.is_told_by(one)]
    return "\n\n".join(kept), "\n\n".join(late)


def _files(
    cells: Sequence[Any], source: Path, proofs: Mapping[Path, str]
) -> tuple[dict[str, GameText], _Tells]:
    """Return the game files that a lesson names, and what they hold."""
    files: dict[str, GameText] = {}
    moves: set[str] = set()
    names: set[str] = set()
    for cell in cells:
        for node in walked(str(cell["source"]) if cell["cell_type"] == "code" else ""):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                _keep_file(node.value, source.parent, files, proofs)
            if reads(node):
                lesson = lesson_read_by(node, source.parent)
                if lesson is not None:
                    moves |= set(_moves(lesson))
                    names |= {name.casefold() for name in lesson.lines()}
    return files, _Tells(moves, names)


def _moves(lesson: Lesson) -> Iterator[str]:
    for tree in lesson.trees():
        for node in walk(tree):
            if isinstance(node, chess.pgn.ChildNode) and node.move:
                yield node.san()


def _keep_file(
    name: str, folder: Path, files: dict[str, GameText], proofs: Mapping[Path, str]
) -> None:
    path = folder / name if name.lower().endswith(".pgn") else None
    if path is None or not path.is_file():
        return
    with open_game_file(path) as handle:
        games = handle.read()
    place = path.with_suffix(".proofs.json")
    kept = proofs.get(place.resolve()) or (
        place.read_text(encoding="utf-8") if place.is_file() else ""
    )
    files[name] = GameText(games=games, proofs=kept)


# -- the notebook and its folder ---------------------------------------------------------


def _notebook(texts: Sequence[str], sealed_name: str, count: int) -> NotebookNode:
    """Return the student's notebook."""
    opening = f"from chessnb import student_lesson\n\nlesson = student_lesson({sealed_name!r})"
    cells = [markdown_cell(f"opening {number}", text) for number, text in enumerate(texts, start=1)]
    cells += [markdown_cell("how to use", _HOW_TO_USE), code_cell("lesson", opening)]
    cells += [
        code_cell(f"step {number}", f"lesson.step({number})") for number in range(1, count + 1)
    ]
    return new_notebook(cells, notes={"edition": EDITION})


def _check_target(folder: Path, notebook: Path, sealed: Path) -> None:
    if folder.suffix == ".ipynb" or (folder.exists() and not folder.is_dir()):
        raise NotebookError(
            "a student edition is a folder of its own: give the name of a folder", path=str(folder)
        )
    if notebook.exists():
        there = read_notebook(notebook)
        if there["metadata"].get("chessnb", {}).get("edition") != EDITION:
            raise NotebookError(
                "there is another notebook here already, and it is no student edition",
                path=str(notebook),
            )
    if sealed.exists() and not is_sealed_file(sealed):
        raise NotebookError(
            "there is another file here already, and it is no sealed lesson", path=str(sealed)
        )


def _make(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise NotebookError(
            f"this folder cannot be made ({error.strerror})", path=str(folder)
        ) from error
