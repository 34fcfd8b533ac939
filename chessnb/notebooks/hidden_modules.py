"""A file beside a lesson that hides a module which the lesson needs.

Python looks for modules in the lesson's own folder first.  A ``chess.py`` or
``random.py`` there is taken for the real one, and what follows is an error
in some module that the teacher has never heard of, or no kernel at all.
"""

from __future__ import annotations

import os
import subprocess
import sys
from functools import cache
from importlib.machinery import PathFinder, all_suffixes
from pathlib import Path

from chessnb.errors import NotebookError
from chessnb.notebooks.kernels import kernel_environment

_LOADED = (
    "import sys, ipykernel.ipkernel, ipykernel.kernelapp, chessnb.widgets.search_note; "
    "print(*{name.partition('.')[0] for name in sys.modules})"
)
"""Prints what a kernel has loaded in which a lesson was begun."""


def check_hiding(folder: str | os.PathLike[str], *, shown: str) -> None:
    """Refuse to run a lesson whose folder hides a module that it needs.

    Parameters
    ----------
    folder : path
        The lesson's folder.
    shown : str
        What the error calls the lesson.

    Raises
    ------
    NotebookError
        With the file that is in the way.

    Notes
    -----
    Costs nothing unless a file there has the name of another module.
    """
    names = _modules_in(Path(folder))
    doubtful = {name for name in names if _is_elsewhere(name, Path(folder))}
    if not doubtful:
        return
    for name in sorted(doubtful & _needed()):
        raise NotebookError(
            f"{names[name]} beside the lesson hides the module “{name}”, which the lesson needs. "
            "Give it another name, or put it into another folder.",
            path=shown,
        )


def _modules_in(folder: Path) -> dict[str, str]:
    """Return what Python takes for modules in a folder: their names, and what they are there."""
    found = {}
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        for suffix in all_suffixes():
            if path.name.endswith(suffix):
                found[path.name.removesuffix(suffix)] = path.name
        if (path / "__init__.py").is_file():
            found[path.name] = f"the folder {path.name}"
    return found


def _is_elsewhere(name: str, folder: Path) -> bool:
    """Tell whether there is another module of that name: Python's own, or an installed one."""
    if name in sys.stdlib_module_names or name == "chessnb":
        return name != "chessnb" or Path(__file__).parents[2] != folder.resolve()
    others = [entry for entry in sys.path if Path(entry or ".").resolve() != folder.resolve()]
    return PathFinder.find_spec(name, others) is not None


@cache
def _needed() -> frozenset[str]:
    """Return the modules that a lesson's kernel loads (a second or two, once)."""
    told = subprocess.run(
        [sys.executable, "-P", "-c", _LOADED],
        env=kernel_environment(),
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    ).stdout
    return frozenset(told.split())
