"""The exceptions: the tree that is drawn of them, and what a message says of what came."""

import importlib
import pkgutil
import re
from collections.abc import Iterator

import chess
import pytest

import chessnb
from chessnb import errors
from chessnb.errors import ChessnbError, InputError, PositionError, as_given

DRAWN = re.compile(
    r"^    (?P<branch>[│ ]*[├└]── )?(?P<name>[A-Z]\w+)(?: \((?P<also>\w+)\))?"
    r"(?:  +(?P<words>.+?)(?: \(in (?P<home>[\w.]+)\))?)?$",
    re.MULTILINE,
)

Tree = dict[str, tuple[str, str, str]]
"""By the name of a class: its parent in the tree, what else of Python's it is, its module."""


def drawn() -> Tree:
    """Read the tree at the top of the module."""
    above: list[str] = []
    tree: Tree = {}
    for line in DRAWN.finditer(errors.__doc__ or ""):
        depth = len(line["branch"] or "") // 4
        del above[depth:]
        home = line["home"] or "errors"
        tree[line["name"]] = (above[-1] if above else "", line["also"] or "", f"chessnb.{home}")
        above.append(line["name"])
    return tree


def subclasses(of: type) -> Iterator[type]:
    for one in of.__subclasses__():
        yield one
        yield from subclasses(one)


def real() -> Tree:
    """Find every exception of the package, in all its modules."""
    for module in pkgutil.walk_packages(chessnb.__path__, "chessnb."):
        importlib.import_module(module.name)
    return {
        one.__name__: (_parent(one), _of_python(one), one.__module__)
        for one in {ChessnbError, *subclasses(ChessnbError)}
        if one.__module__.startswith("chessnb.") and not one.__name__.startswith("_")
    }


def _parent(one: type) -> str:
    """Return the nearest ancestor that has a name of its own for teachers."""
    named = [base for base in one.__mro__[1:] if issubclass(base, ChessnbError)]
    return next((base.__name__ for base in named if not base.__name__.startswith("_")), "")


def _of_python(one: type) -> str:
    own = [base.__name__ for base in one.__bases__ if base.__module__ == "builtins"]
    return "" if own == ["Exception"] else "".join(own)


def test_the_drawn_tree_is_complete_and_exact() -> None:
    assert drawn() == real()


def test_the_drawing_is_one_tree_in_a_column() -> None:
    lines = [line for line in (errors.__doc__ or "").splitlines() if "──" in line]
    assert len(lines) == len(drawn()) - 1
    assert sum("└──" in line and not line.startswith("    │") for line in lines) == 1
    assert "└──" in lines[-1]
    starts = {len(re.match(r"(.*?  +)(?=[a-z])", line)[1]) for line in lines}  # type: ignore[index]
    assert len(starts) == 1


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ("e9", "'e9'"),
        (None, "None"),
        (7, "7"),
        (["e4"], "['e4']"),
        ([object()], "a list"),
        ({chess.Board: 1}, "a dict"),
        (object(), "an object"),
        (chess, "a module"),
        (len, "a function"),
        (chess.Board, "the class Board"),
        ("x" * 1000, f"'{'x' * 59}…"),
        ("two\nlines", "'two\\nlines'"),
    ],
)
def test_what_came_is_named_on_one_line_without_an_address(given: object, words: str) -> None:
    assert as_given(given) == words


def test_an_input_error_says_what_was_expected_and_what_came() -> None:
    error = InputError("a side is 'White' or 'Black'", given="green")
    assert isinstance(error, ValueError)
    assert (error.expected, error.given) == ("a side is 'White' or 'Black'", "green")
    assert str(error) == error.reason == "a side is 'White' or 'Black', not 'green'"
    assert error.shown == "A side is 'White' or 'Black', not 'green'."


def test_an_endless_position_is_not_repeated() -> None:
    error = PositionError("this is not a FEN", given="8/" * 5000)
    assert len(str(error)) < 100
    assert error.given == "8/" * 5000
