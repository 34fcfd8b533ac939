"""SVG paths turned into pixels, without any drawing program.

Enough of SVG 2's path grammar for the pieces and the marks: straight lines,
Bézier curves and arcs of circles.
"""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Iterable, Iterator
from itertools import pairwise

Line = list[complex]
"""Points one after another, x + y·i; the pen is down between them."""
Pixels = dict[tuple[int, int], float]
"""How much of each pixel, by column and row, is covered: over 0 and up to 1."""

STEPS = 24
"""Into how many straight pieces a curve is cut."""
ARGUMENTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "A": 7, "Z": 0}


def lines(path: str) -> list[Line]:
    """Return what a path draws, a list of points for every stroke of it."""
    drawn: list[Line] = []
    for command, numbers in _commands(path):
        here = drawn[-1][-1] if drawn else 0j
        whole = command.upper()
        base = here if command.islower() else 0j
        if whole == "M":
            drawn.append([base + complex(*numbers)])
        elif whole == "Z":
            drawn[-1].append(drawn[-1][0])
        elif whole == "H":
            drawn[-1].append(complex(base.real + numbers[0], here.imag))
        elif whole == "V":
            drawn[-1].append(complex(here.real, base.imag + numbers[0]))
        elif whole == "A":
            assert numbers[0] == numbers[1], "only arcs of circles"
            drawn[-1] += _arc(here, base + complex(*numbers[5:]), numbers)
        else:
            steers = [base + complex(*numbers[at : at + 2]) for at in range(0, len(numbers), 2)]
            drawn[-1] += _curve([here, *steers])
    return drawn


def _commands(path: str) -> Iterator[tuple[str, list[float]]]:
    for command, text in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        numbers = [float(number) for number in text.split()]
        assert len(numbers) == ARGUMENTS[command.upper()], (command, text)
        yield command, numbers


def _curve(points: list[complex]) -> Line:
    """Cut a Bézier curve of any degree, by de Casteljau's construction."""
    if len(points) == 2:
        return points[1:]
    return [_between(points, step / STEPS) for step in range(1, STEPS + 1)]


def _between(points: list[complex], share: float) -> complex:
    while len(points) > 1:
        points = [a + (b - a) * share for a, b in pairwise(points)]
    return points[0]


def _arc(start: complex, end: complex, numbers: list[float]) -> Line:
    """Cut an arc of a circle; SVG 2, appendix B.2.4 and B.2.5, for equal radii."""
    half = (end - start) / 2
    radius = max(numbers[0], abs(half))
    height = math.sqrt(radius**2 - abs(half) ** 2)
    large, clockwise = bool(numbers[3]), bool(numbers[4])
    aside = height if large != clockwise else -height
    centre = (start + end) / 2 + 1j * aside * half / abs(half)
    turn = cmath.phase((end - centre) / (start - centre))
    if clockwise and turn < 0:
        turn += math.tau
    elif not clockwise and turn > 0:
        turn -= math.tau
    return [
        centre + (start - centre) * cmath.rect(1, turn * step / STEPS)
        for step in range(1, STEPS + 1)
    ]


def filled(path: str, *, size: int, square: float = 45) -> Pixels:
    """Return the pixels that a closed path covers, by the nonzero rule.

    Parameters
    ----------
    path : str
        In units from the top left corner of a square.
    size : int
        How many pixels the square is wide.
    """
    fine = 4
    edges = [pair for line in lines(path) for pair in pairwise(line)]
    counts: Pixels = {}
    for row in range(size * fine):
        level = (row + 0.5) * square / size / fine
        turns = _crossings(edges, level)
        for column in range(size * fine):
            x = (column + 0.5) * square / size / fine
            if sum(way for place, way in turns if place < x):
                pixel = (column // fine, row // fine)
                counts[pixel] = counts.get(pixel, 0) + 1 / fine**2
    return counts


def _crossings(edges: list[tuple[complex, complex]], level: float) -> list[tuple[float, int]]:
    """Return where the edges cross a level, and which way they go."""
    found = []
    for a, b in edges:
        if (a.imag <= level) != (b.imag <= level):
            place = a.real + (b.real - a.real) * (level - a.imag) / (b.imag - a.imag)
            found.append((place, 1 if b.imag > a.imag else -1))
    return found


def inked(path: str, *, dash: str | None, size: int, square: float = 45) -> Pixels:
    """Return the pixels that a pen walking along a path touches.

    Parameters
    ----------
    path : str
        In units of the drawing.
    dash : str or None
        How long the pen is down and up by turns, as in SVG.
    """
    touched: Pixels = {}
    pattern = [float(part) for part in dash.split()] if dash else [1.0, 0.0]
    for line in lines(path):
        walked = 0.0
        for place in _walk(line, step=0.2):
            if walked % sum(pattern) <= pattern[0]:
                touched[int(place.real * size // square), int(place.imag * size // square)] = 1
            walked += 0.2
    return touched


def _walk(line: Line, *, step: float) -> Iterator[complex]:
    left = 0.0
    for a, b in pairwise(line):
        length = abs(b - a)
        while left < length:
            yield a + (b - a) * left / length
            left += step
        left -= length


def apart(one: Pixels, other: Pixels, *, shift: int = 0) -> float:
    """Return how much two pictures differ at the least, laid on each other as well as can be.

    Parameters
    ----------
    shift : int
        By how many pixels either way the second may be moved.

    Returns
    -------
    float
        The ink that only one of them has as a share of what either has: 0 for
        the same picture, 1 for two that have nothing in common.
    """
    ways = range(-shift, shift + 1)
    return min(_difference(one, moved(other, x, y)) for x in ways for y in ways)


def moved(picture: Pixels, x: int, y: int) -> Pixels:
    """Return a picture moved by whole pixels."""
    return {(column + x, row + y): share for (column, row), share in picture.items()}


def _difference(one: Pixels, other: Pixels) -> float:
    places: Iterable[tuple[int, int]] = one.keys() | other.keys()
    pairs = [(one.get(place, 0), other.get(place, 0)) for place in places]
    return sum(abs(a - b) for a, b in pairs) / sum(max(a, b) for a, b in pairs)
