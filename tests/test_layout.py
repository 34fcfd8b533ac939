"""The house as it is drawn in DEVELOPERS.md: rooms, names, sizes, no circles."""

import ast
import importlib
import pkgutil
import tomllib
from collections import defaultdict
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

import chessnb

ROOT = Path(chessnb.__file__).parent
MODULES = {
    ".".join(("chessnb", *path.relative_to(ROOT).with_suffix("").parts)).removesuffix(
        ".__init__"
    ): path
    for path in sorted(ROOT.rglob("*.py"))
}
LONGEST = 500


def names_of(module):
    return {name for name in MODULES if name.rpartition(".")[0] == module}


def imported(module, path):
    """The package's modules that a module imports, wherever in it, for types only too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name in MODULES)
        elif isinstance(node, ast.ImportFrom) and node.module in MODULES:
            for alias in node.names:
                inner = f"{node.module}.{alias.name}"
                yield inner if inner in MODULES else node.module


def test_no_modules_import_in_a_circle():
    graph = defaultdict(set)
    for module, path in MODULES.items():
        graph[module] |= {other for other in imported(module, path) if other != module}
        # A package's front door runs before what lies behind it: that is no circle of its own.
        graph[module] -= {module.rpartition(".")[0]}
    graph = {
        module: {other for other in others if not module.startswith(f"{other}.")}
        for module, others in graph.items()
    }
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        pytest.fail(" -> ".join(error.args[1]))


def test_no_two_modules_have_one_name():
    places = defaultdict(list)
    for module, path in MODULES.items():
        if path.name != "__init__.py":
            places[path.stem.lstrip("_")].append(module)
    assert not {name: found for name, found in places.items() if len(found) > 1}


def test_no_module_is_longer_than_can_be_read_in_one_sitting():
    lengths = {name: len(path.read_text().splitlines()) for name, path in MODULES.items()}
    too_long = {name: length for name, length in lengths.items() if length > LONGEST}
    assert set(too_long) == {"chessnb.search.core"}, "the compiled core is one file by design"


def test_no_function_takes_the_place_of_a_module():
    for module, path in MODULES.items():
        if path.name != "__init__.py" or module == "chessnb":
            continue
        package = importlib.import_module(module)
        for name in getattr(package, "__all__", ()):
            assert f"{module}.{name}" not in MODULES, f"{module}.{name} is a module too"


def test_every_package_says_what_lies_in_it():
    for found in pkgutil.walk_packages([str(ROOT)], "chessnb."):
        if found.ispkg:
            tree = ast.parse(MODULES[found.name].read_text(encoding="utf-8"))
            assert ast.get_docstring(tree), found.name


def test_the_contract_knows_every_room():
    settings = tomllib.loads((ROOT.parent / "pyproject.toml").read_text(encoding="utf-8"))
    layers = settings["tool"]["importlinter"]["contracts"][0]["layers"]
    rooms = {room.strip() for layer in layers for room in layer.split("|")}
    assert rooms == {name.removeprefix("chessnb.") for name in names_of("chessnb")}
