"""Running the teacher's cells of a sealed lesson: in names of their own, and nothing shown yet."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from typing import Any

from chessnb.errors import ChessnbError
from chessnb.findings import PageError, escaped
from chessnb.teaching.sealed_lesson import SealedCell
from chessnb.widgets.branch_explorer import BranchExplorer
from chessnb.widgets.page_block import Page, taking

Bundle = Mapping[str, Any]
"""An output, by MIME type."""


class SealedCells:
    """Where a sealed lesson's cells run: they know each other's names, and nobody else does."""

    def __init__(self) -> None:
        self._names: dict[str, Any] = {"__name__": "__main__", "get_ipython": _shell}

    def run(self, cell: SealedCell, *, shown: bool = True) -> list[Page | Bundle]:
        """Run a cell, and return what it shows, in order.

        Parameters
        ----------
        cell : SealedCell
            The cell.
        shown : bool
            Whether it is to be seen; else it runs only for what it does, and
            no view of it is made.
        """
        if cell.kind == "words":
            return [{"text/markdown": cell.source, "text/plain": cell.source}] if shown else []
        things: list[Page | Bundle] = []
        token = taking.set(things.append)
        try:
            with _captured() as printed:
                value = self._execute(cell.source, things)
            things += printed if shown else []
            if isinstance(value, BranchExplorer):
                value.students = True
            if value is not None and shown:
                things.append(_bundle_of(value))
        except Exception as error:  # the teacher's own slip: the student reads its sentence
            sentence = error.shown if isinstance(error, ChessnbError) else str(error)
            html = f"<p>{escaped(sentence)}</p>"
            things.append({"text/plain": sentence, "text/html": html})
        finally:
            taking.reset(token)
        return things if shown else []

    def _execute(self, source: str, things: list[Page | Bundle]) -> Any:
        """Run a cell's code; return the value of its last line if that is an expression."""
        shell = _shell()
        if shell is not None:
            source = shell.transform_cell(source)
        tree = ast.parse(source)
        last = tree.body.pop() if tree.body and isinstance(tree.body[-1], ast.Expr) else None
        try:
            exec(compile(tree, "<lesson>", "exec"), self._names)
        except PageError:
            if not things:  # what is wrong with a page that was taken stands on it
                raise
            return None
        if last is None or source.rstrip().endswith(";"):
            return None
        assert isinstance(last, ast.Expr)
        return eval(compile(ast.Expression(last.value), "<lesson>", "eval"), self._names)


@contextmanager
def _captured() -> Iterator[list[Bundle]]:
    """Gather what is displayed and printed meanwhile."""
    things: list[Bundle] = []
    if _shell() is None:
        yield things
        return
    from IPython.utils.capture import capture_output

    with capture_output() as captured:
        yield things
    if captured.stdout:
        things.append({"text/plain": captured.stdout})
    things += [output.data for output in captured.outputs]


def _bundle_of(value: Any) -> Bundle:
    shell = _shell()
    if shell is None:
        return {"text/plain": repr(value)}
    bundle: Bundle = shell.display_formatter.format(value)[0]
    if not bundle:  # a value that shows itself, as a widget of another's does
        with suppress(Exception):
            return {"text/plain": repr(value)}
    return bundle


def _shell() -> Any:
    ipython = sys.modules.get("IPython")
    return None if ipython is None else ipython.get_ipython()
