"""The names that a package gives out: complete, sorted, and really there."""

import importlib
import inspect
from pkgutil import iter_modules, walk_packages

import pytest

import chessnb

USED_WITHIN = {
    "chessnb.notebooks.verification": {"check_lessons", "propose_claims", "update_lessons"}
}
FOUND = {found.name for found in walk_packages(chessnb.__path__, "chessnb.") if found.ispkg}
PACKAGES = sorted({"chessnb", "chessnb.charts"} | FOUND)


def given_out_by(package):
    """The export list; a package that gives nothing out may have none."""
    return getattr(package, "__all__", [])


@pytest.mark.parametrize("name", PACKAGES)
def test_export_lists_are_sorted_and_true(name):
    package = importlib.import_module(name)
    # Constants first, then classes, then functions: as ruff sorts them too (RUF022).
    given = given_out_by(package)
    assert given == sorted(set(given), key=lambda x: (not x.isupper(), not x[0].isupper(), x))
    for export in given:
        assert getattr(package, export) is not None


@pytest.mark.parametrize("name", PACKAGES)
def test_export_lists_are_complete(name):
    package = importlib.import_module(name)
    own = {
        given
        for given, what in vars(package).items()
        if not given.startswith("_") and not inspect.ismodule(what)  # once imported, it is there
        if getattr(what, "__module__", "").startswith(name)
    }
    assert own - USED_WITHIN.get(name, set()) <= set(given_out_by(package))


def test_what_a_teacher_types_is_at_the_top():
    public = {name for name in dir(chessnb) if not name.startswith("_")}
    modules = {found.name for found in iter_modules(chessnb.__path__)}
    assert public - modules == set(chessnb.__all__) - modules
