"""What is drawn stays with its position; lines replace lines, marks of a square do not."""

import pytest

from chessnb.diagrams import Mark
from chessnb.errors import InputError
from chessnb.widgets.strokes import Strokes

FORCE = Mark(role="force", square="c3", to="f6")
BLOCKED = Mark(role="blocked", square="c3", to="f6")
RING = Mark(role="actor", square="f6")
TICKS = Mark(role="target", square="f6")


def test_strokes_are_kept_for_each_position() -> None:
    strokes = Strokes()
    strokes.draw("", RING)
    strokes.draw("e2e4", FORCE)
    assert strokes.on("") == (RING,)
    assert strokes.on("e2e4") == (FORCE,)
    assert strokes.on("e2e4 e7e5") == ()
    strokes.erase("", RING)
    assert list(strokes.state()) == ["e2e4"]


def test_a_line_replaces_the_line_between_the_same_squares() -> None:
    strokes = Strokes()
    for mark in (FORCE, RING, BLOCKED):
        strokes.draw("", mark)
    assert strokes.on("") == (RING, BLOCKED)
    back = Mark(role="force", square="f6", to="c3")
    strokes.draw("", back)
    assert strokes.on("") == (RING, BLOCKED, back)


def test_marks_of_one_square_stand_side_by_side_and_none_is_drawn_twice() -> None:
    strokes = Strokes()
    for mark in (RING, TICKS, RING):
        strokes.draw("", mark)
    assert strokes.on("") == (TICKS, RING)
    strokes.erase("", TICKS)
    strokes.erase("", TICKS)
    assert strokes.on("") == (RING,)


def test_only_marks_are_put() -> None:
    strokes = Strokes()
    strokes.put("", [RING])
    with pytest.raises(InputError, match="Mark"):
        strokes.put("", ["f6"])  # type: ignore[list-item]
    assert strokes.on("") == (RING,)
    strokes.put("", [])
    assert strokes.state() == {}
