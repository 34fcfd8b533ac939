"""What the code of a lesson's cells says, read without running it."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, TypeGuard

from chessnb.errors import ChessnbError
from chessnb.lessons import Lesson, Moment

_READERS = ("Lesson.read", "Lesson.from_text")
_ADDRESSES = ("before", "after", "at")
_ASKING = ("page", "BranchExplorer")


def walked(source: str) -> Iterator[ast.AST]:
    """Yield all parts of a cell's code; none of what is no Python."""
    try:
        yield from ast.walk(ast.parse(source))
    except SyntaxError:  # a line of IPython's own, such as %pip
        return


def reads(node: ast.AST) -> TypeGuard[ast.Call]:
    """Tell whether a part of a cell reads a lesson."""
    return isinstance(node, ast.Call) and ast.unparse(node.func) in _READERS


def lesson_read_by(call: ast.Call, folder: Path) -> Lesson | None:
    """Read the lesson that a cell reads, where its options are written out."""
    try:
        given = [ast.literal_eval(one) for one in call.args]
        options = {one.arg: ast.literal_eval(one.value) for one in call.keywords if one.arg}
        if ast.unparse(call.func) == "Lesson.from_text":
            return Lesson.from_text(*given, **options)
        return Lesson.read(folder / given[0], **options)
    except (ValueError, TypeError, IndexError, ChessnbError):
        return None


def tried_moments(cells: Sequence[Any], folder: Path) -> Iterator[Moment]:
    """Yield the positions where students try moves first: of pages that ask, and of explorers.

    Parameters
    ----------
    cells : sequence of cells
        The lesson's.
    folder : Path
        Where the game files that it names are.

    Notes
    -----
    Only what stands there in so many words is found, as a draft writes it:
    ``lesson.before("White's 9th")``.
    """
    lessons: dict[str, Lesson | None] = {}
    for cell in cells:
        if cell["cell_type"] != "code":
            continue
        for node in walked(str(cell["source"])):
            if isinstance(node, ast.Assign) and reads(node.value):
                lesson = lesson_read_by(node.value, folder)
                lessons |= {ast.unparse(target): lesson for target in node.targets}
            elif isinstance(node, ast.Call) and _asks(node):
                moment = _named(node.args[0], lessons)
                if moment is not None:
                    yield moment


def _asks(call: ast.Call) -> bool:
    name = ast.unparse(call.func).split(".")[-1]
    asked = any(keyword.arg == "ask" for keyword in call.keywords)
    return name in _ASKING and bool(call.args) and (asked or name != "page")


def _named(given: ast.expr, lessons: dict[str, Lesson | None]) -> Moment | None:
    """Return the moment that is written as ``lesson.before("…")``."""
    if not isinstance(given, ast.Call) or not isinstance(given.func, ast.Attribute):
        return None
    lesson = lessons.get(ast.unparse(given.func.value))
    if lesson is None or given.func.attr not in _ADDRESSES:
        return None
    try:
        moment: Moment = getattr(lesson, given.func.attr)(*map(ast.literal_eval, given.args))
    except (ValueError, TypeError, ChessnbError):
        return None
    return moment
