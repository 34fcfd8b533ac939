"""Searches in slices: counted in positions, watched while they run, stopped at any time.

A search is a generator.  It yields the number of positions it has looked at
after each slice, and returns its answer.  :func:`finish` runs one to the end;
:func:`in_slices` runs one under asyncio, so that a kernel goes on hearing
messages, and a search that nobody waits for any more is cancelled.  Both cut
the same slices, so the answer and the count are the same.

Budgets are positions, never seconds: the same question has the same answer on
a slow machine.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Generator
from typing import Generic, TypeVar

T = TypeVar("T")

Searching = Generator[int, None, T]
"""A search under way: yields positions looked at so far, returns its answer."""

SLICE = 50_000
"""Positions between two looks at the clock, the stop button, and other messages."""

BUDGET = 2_000_000
"""Positions for one question, unless it is told otherwise: about a second, compiled."""

MOST_POSITIONS = 1_000_000_000
"""The largest budget: some minutes, compiled."""

Watcher = Callable[[int], object]
"""Is told how many positions a search has looked at; 0 when it has ended."""

watchers: list[Watcher] = []
"""Who shows the progress of searches that :func:`finish` runs; empty outside a notebook."""


def finish(searching: Searching[T]) -> T:
    """Run a search to its end.

    An interrupt (the stop button, Ctrl-C) leaves nothing half done: a search
    keeps its state to itself.
    """
    shown = False
    try:
        while True:
            positions = next(searching)
            for watcher in watchers:
                watcher(positions)
                shown = True
    except StopIteration as end:
        answer: T = end.value
        return answer
    finally:
        searching.close()
        if shown:
            for watcher in watchers:
                watcher(0)


class Paused(Generic[T]):
    """A search that is run for some positions, left, and gone on with later.

    Attributes
    ----------
    answer : T or None
        Its answer, once it has ended.
    spent : int
        About how many positions it has looked at: what one of its questions
        looks at after the last slice is left out.
    """

    def __init__(self, searching: Searching[T]) -> None:
        self.answer: T | None = None
        self.spent = 0
        self._searching = searching
        self._last = 0

    def run(self, positions: int) -> Searching[None]:
        """Go on until it ends, or has looked at so many more positions."""
        until = self.spent + positions
        while self.answer is None and self.spent < until:
            try:
                looked = next(self._searching)
            except StopIteration as end:
                self.answer = end.value
                return
            # Its questions are counted from 0, one after another.
            self.spent += looked - self._last if looked > self._last else looked
            self._last = looked
            yield self.spent

    def close(self) -> None:
        """End the search, whether it has an answer or not."""
        self._searching.close()


async def in_slices(searching: Searching[T], watch: Watcher | None = None) -> T:
    """Run a search to its end, letting other tasks run between its slices.

    Parameters
    ----------
    searching : Searching
        The search; it is closed when this ends in whatever way.
    watch : callable, optional
        Told the positions after each slice.

    Raises
    ------
    asyncio.CancelledError
        If the task was cancelled meanwhile.
    """
    try:
        while True:
            positions = next(searching)
            if watch is not None:
                watch(positions)
            await asyncio.sleep(0)
    except StopIteration as end:
        answer: T = end.value
        return answer
    finally:
        searching.close()
