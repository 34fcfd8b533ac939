"""How far a command is: told in one line on a terminal, in a few lines elsewhere."""

from __future__ import annotations

import sys

_LONG = 100
"""So many moves or cells are worth a line now and then where no terminal shows them all."""

_LINES = 5
"""How many such lines there are."""


class Progress:
    """Says how far a run is: in one line on a terminal, elsewhere in a few, if it takes long."""

    def __init__(self, what: str) -> None:
        from rich.console import Console
        from rich.markup import escape

        from chessnb.search.compiled_core import slow_warning

        self._escape = escape

        self._what = what
        self._console = Console(stderr=True)
        self._long = 1 if slow_warning() else _LONG
        self._told = ""

    def __enter__(self) -> Progress:
        self._status = self._console.status(f"{self._what} …")
        self._status.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._status.stop()

    def move(self, number: int, count: int) -> None:
        """Say which move of the game is looked at."""
        self._tell(f"{self._what} … move {number} of {count}", number, count)

    def cell(self, number: int, count: int) -> None:
        """Say which cell is running."""
        self._tell(f"{self._what} … cell {number} of {count}", number, count)

    def game(self, number: int, count: int) -> None:
        """Say which game is looked through."""
        self._tell(f"{self._what} … game {number} of {count}", number, count)

    def position(self, number: int, count: int) -> None:
        """Say at which position every move is looked at."""
        self._tell(f"{self._what} … position {number} of {count}", number, count)

    def lesson(self, path: str, done: int, count: int) -> None:
        """Say how far the check of a lesson is."""
        self._tell(f"{self._what} {path} … cell {done} of {count}", done, count)

    def _tell(self, words: str, number: int, count: int) -> None:
        if self._console.is_terminal:
            self._status.update(self._escape(words))
            return
        told = f"{count} {number * _LINES // count}"
        if count >= self._long and told != self._told:
            self._told = told
            print(words, file=sys.stderr, flush=True)
