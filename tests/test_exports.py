"""The names that a package gives out: complete, sorted, and really there."""

import importlib

import pytest

PACKAGES = [
    "chessnb", "chessnb.diagram", "chessnb.draft", "chessnb.facts", "chessnb.lesson",
    "chessnb.notation", "chessnb.notebook", "chessnb.verify", "chessnb.widgets",
]  # fmt: skip


@pytest.mark.parametrize("name", PACKAGES)
def test_export_lists_are_sorted_and_true(name):
    package = importlib.import_module(name)
    # Constants first, then classes, then functions: as ruff sorts them too (RUF022).
    order = sorted(set(package.__all__), key=lambda x: (not x.isupper(), not x[0].isupper(), x))
    assert package.__all__ == order
    for export in package.__all__:
        assert getattr(package, export) is not None


def test_what_a_teacher_types_is_at_the_top():
    import chessnb

    public = {name for name in dir(chessnb) if not name.startswith("_")}
    modules = {
        "diagram", "draft", "errors", "facts", "finding", "lesson", "notation", "notebook",
        "mistakes", "position", "verify", "widgets", "cli", "launch", "book", "proof", "solver",
        "verdicts", "replies", "engine", "student",
        "shell", "starting", "whole_files",
    }  # fmt: skip
    assert public - modules == set(chessnb.__all__) - modules
