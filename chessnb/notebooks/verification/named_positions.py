"""Which positions the cells of a lesson speak of, read from their code without running it.

Only what the lesson itself offers is followed: ``Lesson.read("…")``,
``lesson.after("…")``, ``m.next`` and the like, with literal arguments, and
names that were given to them.  Everything else is passed over.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from chessnb.lessons import Lesson, Moment

_LESSON_CALLS = frozenset({"add_line", "add_position", "after", "at", "before", "remove_line"})
_LESSON_FIELDS = frozenset({"start", "end"})
_MOMENT_CALLS = frozenset({"after"})
_MOMENT_FIELDS = frozenset({"next", "back"})


class CodeReader:
    """Follows a lesson's code cell by cell.

    Parameters
    ----------
    folder : Path
        Where the notebook lies: game files are named relative to it.

    Attributes
    ----------
    lessons : list of Lesson
        The lessons that were read, in order.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.names: dict[str, Lesson | Moment] = {}
        self.lessons: list[Lesson] = []
        self._found: list[Moment] = []

    def variable_of(self, moment: Moment | None) -> str:
        """Return what the code calls the lesson of a position; "lesson" if it has no name."""
        for name, value in self.names.items():
            if isinstance(value, Lesson) and moment is not None and moment.lesson is value:
                return name
        return "lesson"

    def moments(self, source: str) -> list[Moment]:
        """Follow a cell's code and return the positions that it names, in order."""
        try:
            tree = ast.parse(without_magics(source))
        except (SyntaxError, ValueError, MemoryError, RecursionError):
            return []
        self._found = []
        for statement in tree.body:
            self._follow(statement)
        return self._found

    def _follow(self, statement: ast.stmt) -> None:
        if isinstance(statement, ast.With):
            self._enter(statement)
            return
        plain = isinstance(statement, ast.Assign | ast.Expr)
        value = self._value(statement.value) if plain else None  # type: ignore[attr-defined]
        if value is None:
            for inner in ast.walk(statement):
                if isinstance(inner, ast.Call | ast.Attribute):
                    self._value(inner)
        elif isinstance(statement, ast.Assign):
            for target in statement.targets:
                if isinstance(target, ast.Name):
                    self.names[target.id] = value

    def _enter(self, block: ast.With) -> None:
        """Follow a page: ``with page(lesson.before("…")) as m``, then what stands in its block."""
        for item in block.items:
            opened = item.context_expr
            value = self._value(opened)
            if isinstance(opened, ast.Call) and opened.args and value is None:
                value = self._value(opened.args[0])
            if isinstance(item.optional_vars, ast.Name) and value is not None:
                self.names[item.optional_vars.id] = value
        for statement in block.body:
            self._follow(statement)

    def _value(self, node: ast.expr) -> Lesson | Moment | None:
        """Evaluate an expression that the lesson's own methods make up; else ``None``."""
        try:
            return self._evaluate(node)
        except Exception:  # whatever is wrong with it is said when the cell runs
            return None

    def _evaluate(self, node: ast.expr) -> Lesson | Moment | None:
        value = self._evaluated(node)
        if isinstance(value, Moment) and value not in self._found:
            self._found.append(value)
        return value

    def _evaluated(self, node: ast.expr) -> Lesson | Moment | None:
        if isinstance(node, ast.Name):
            return self.names.get(node.id)
        if isinstance(node, ast.Attribute):
            return self._field(self._evaluate(node.value), node.attr)
        if isinstance(node, ast.Call):
            return self._call(node)
        return None

    @staticmethod
    def _field(owner: Lesson | Moment | None, name: str) -> Lesson | Moment | None:
        allowed = _LESSON_FIELDS if isinstance(owner, Lesson) else _MOMENT_FIELDS
        if owner is None or name not in allowed:
            return None
        value = getattr(owner, name)
        return value if isinstance(value, Lesson | Moment) else None

    def _call(self, node: ast.Call) -> Lesson | Moment | None:
        function = node.func
        if isinstance(function, ast.Name) and function.id == "Lesson":
            return self._keep(Lesson(**self._keywords(node)))
        if not isinstance(function, ast.Attribute):
            return None
        if isinstance(function.value, ast.Name) and function.value.id == "Lesson":
            return self._read(function.attr, node)
        owner = self._evaluate(function.value)
        allowed = _LESSON_CALLS if isinstance(owner, Lesson) else _MOMENT_CALLS
        if owner is None or function.attr not in allowed:
            return None
        value = getattr(owner, function.attr)(*self._arguments(node), **self._keywords(node))
        return value if isinstance(value, Moment) else None

    def _read(self, how: str, node: ast.Call) -> Lesson | None:
        arguments = self._arguments(node)
        if how == "read" and arguments:
            path = self.folder / str(arguments[0])
            return self._keep(Lesson.read(path, **self._keywords(node)))
        if how == "from_text" and arguments:
            return self._keep(Lesson.from_text(*arguments, **self._keywords(node)))
        return None

    def _keep(self, lesson: Lesson) -> Lesson:
        self.lessons.append(lesson)
        return lesson

    def _arguments(self, node: ast.Call) -> list[Any]:
        return [self._argument(argument) for argument in node.args]

    def _keywords(self, node: ast.Call) -> Mapping[str, Any]:
        return {word.arg: self._argument(word.value) for word in node.keywords if word.arg}

    def _argument(self, node: ast.expr) -> Any:
        """Return a literal, or the position that a name stands for."""
        value = self._evaluate(node)
        return ast.literal_eval(node) if value is None else value


def without_magics(source: str) -> str:
    """Return a cell's code without IPython's own commands."""
    return "\n".join(
        "" if line.lstrip().startswith(("%", "!")) else line for line in source.split("\n")
    )


def sections(cells: list[Mapping[str, Any]]) -> Iterator[list[int]]:
    """Yield the numbers (from 0) of the cells of each section: a heading begins a new one."""
    section: list[int] = []
    for index, cell in enumerate(cells):
        heads = cell["cell_type"] == "markdown" and any(
            line.startswith("#") for line in str(cell["source"]).splitlines()
        )
        if heads and section:
            yield section
            section = []
        section.append(index)
    if section:
        yield section
