"""What was given where a lesson or a ``Moment`` is taken, and what to write instead."""

from __future__ import annotations

from chessnb.errors import as_given, kind_of
from chessnb.lessons.addresses import is_address
from chessnb.lessons.lesson import Lesson
from chessnb.lessons.moment import Moment
from chessnb.mistakes import CallError


def check_lesson(given: object, *, call: str, at: bool = False) -> None:
    """Refuse what is no lesson.

    Parameters
    ----------
    given : object
        What should be a lesson.
    call : str
        What was called, as a teacher writes it.
    at : bool
        Whether a position may be named beside the lesson, with ``at=…``.

    Raises
    ------
    CallError
        With what to write.

    Examples
    --------
    >>> check_lesson("my-game.pgn", call="charts.material")
    Traceback (most recent call last):
    chessnb.mistakes.CallError: charts.material takes a lesson, and 'my-game.pgn' is a text: \
write lesson = Lesson.read('my-game.pgn'), then charts.material(lesson)
    """
    if isinstance(given, Lesson):
        return
    takes = f"{call} takes a lesson"
    if isinstance(given, Moment):
        place = f", at={given.address!r}" if at else ""
        raise CallError(f"{takes}, and this is one position of it: write {call}(lesson{place})")
    if isinstance(given, str):
        read = f"Lesson.read({given!r})" if _is_file(given) else "Lesson.read('GAME.pgn')"
        raise CallError(
            f"{takes}, and {as_given(given)} is a text: write lesson = {read}, then {call}(lesson)"
        )
    raise CallError(f"{takes}, not {kind_of(given)}: write {call}(lesson)")


def check_moment(given: object, *, name: str) -> None:
    """Refuse what is no ``Moment``, for an option of that name.

    Raises
    ------
    CallError
        With what to write.
    """
    if isinstance(given, Moment):
        return
    said = isinstance(given, str) and is_address(given)
    address = repr(given) if said else "'14. Nd5'"
    written = f"{name}=lesson.after({address})"
    raise CallError(f"{name} is a position of a lesson: write {written}")


def check_square(given: object, *, call: str) -> None:
    """Refuse a lesson or a position in the place of a square.

    Raises
    ------
    CallError
        With what to write.
    """
    if isinstance(given, Lesson | Moment):
        raise CallError(f"{call} takes the name of a square first: write {call}('f5', …)")


def _is_file(text: str) -> bool:
    return text.strip().lower().endswith(".pgn") and text.isprintable()
