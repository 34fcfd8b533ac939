"""Which steps of a sealed lesson are open: each behind the question of the one before it."""

from __future__ import annotations

from collections.abc import Iterator

WAITS = "This opens when the question before it has been answered."
"""What a student reads where a step is not open yet."""


class StepOrder:
    """How far a student has come.

    Parameters
    ----------
    count : int
        How many steps there are.

    Examples
    --------
    >>> order = StepOrder(3)
    >>> order.is_open(1), order.is_open(2)
    (True, False)
    >>> order.show(1, asks=True), order.is_open(2)
    (None, False)
    >>> order.answer(1), order.is_open(2), order.is_open(3)
    (None, True, False)
    """

    def __init__(self, count: int) -> None:
        self.count = count
        self._answered: set[int] = set()
        self._wanted: set[int] = set()

    def is_open(self, number: int) -> bool:
        """Tell whether a step may be seen: what comes before is answered, or it was asked for."""
        return number == 1 or number in self._wanted or number - 1 in self._answered

    def want(self, number: int) -> None:
        """Open a step all the same."""
        self._wanted.add(number)

    def show(self, number: int, *, asks: bool) -> None:
        """Note that a step is seen; one that asks nothing is answered with that."""
        if not asks:
            self.answer(number)

    def answer(self, number: int) -> None:
        """Note that the question of a step is answered: its move was found, or was shown."""
        self._answered.add(number)

    def to_open(self, locked: set[int]) -> Iterator[int]:
        """Yield those of some locked steps that may be seen now, in order."""
        for number in sorted(locked):
            if self.is_open(number):
                yield number
