"""What was drawn on a live board, kept for each position of its line.

A stroke belongs to the position it was drawn on: it is there again when the
position is shown again, and another move does not carry it along.  The
browser's twin is ``frontend/strokes.js``.
"""

from __future__ import annotations

from collections.abc import Iterable

from chessnb.diagrams import Mark
from chessnb.diagrams.marks import read_marks


class Strokes:
    """The marks of each position, addressed by the moves that lead there.

    Examples
    --------
    >>> strokes = Strokes()
    >>> strokes.draw("e2e4", Mark(role="force", square="f1", to="c4"))
    >>> strokes.draw("e2e4", Mark(role="blocked", square="f1", to="c4"))
    >>> strokes.on("e2e4")
    (Mark(role='blocked', square='f1', to='c4'),)
    >>> strokes.on("")
    ()
    """

    def __init__(self) -> None:
        self._drawn: dict[str, tuple[Mark, ...]] = {}

    def on(self, line: str) -> tuple[Mark, ...]:
        """Return the marks on the position after these moves, in the order they were drawn.

        Parameters
        ----------
        line : str
            The moves from the board's start, in UCI, with a space between them.
        """
        return self._drawn.get(line, ())

    def put(self, line: str, marks: Iterable[Mark]) -> None:
        """Have these marks on a position instead of those that are there.

        Raises
        ------
        InputError
            If one of them is no mark.
        """
        given = read_marks(marks)
        self._drawn.pop(line, None)
        if given:
            self._drawn[line] = given

    def draw(self, line: str, mark: Mark) -> None:
        """Add a mark; a line between two squares takes the place of one that is there."""
        self.put(line, (*_without(self.on(line), mark), mark))

    def erase(self, line: str, mark: Mark) -> None:
        """Take a mark away, if it is there."""
        self.put(line, _without(self.on(line), mark))

    def state(self) -> dict[str, list[dict[str, str | None]]]:
        """Return all marks, ready for JSON."""
        return {
            line: [{"role": mark.role, "square": mark.square, "to": mark.to} for mark in marks]
            for line, marks in self._drawn.items()
        }


def _without(marks: Iterable[Mark], mark: Mark) -> tuple[Mark, ...]:
    return tuple(other for other in marks if not _same(other, mark))


def _same(one: Mark, other: Mark) -> bool:
    """Tell whether two marks lie on each other: lines do whatever their role."""
    if (one.square, one.to) != (other.square, other.to):
        return False
    return one.to is not None or one.role == other.role
