"""The file that a lesson is published as: where it may stand, and how it is written."""

from __future__ import annotations

from pathlib import Path

from chessnb.errors import NotebookError
from chessnb.whole_files import write_whole

LESSON_FILES = (".ipynb", ".pgn")
"""What a lesson is made of is never written over."""


def check_output(target: Path, *, what: str, instead: str) -> None:
    """Refuse, before anything is run, a place where nothing should be written.

    Parameters
    ----------
    target : Path
        The file to write.
    what : str
        What it is called: ``"the page"``.
    instead : str
        What is said where it is the name of a lesson's own file.

    Raises
    ------
    NotebookError
        If it is a folder, its folder does not exist, or it is such a file.
    """
    if target.is_dir():
        raise NotebookError(f"this is a folder. Give {what} a name in it.", path=str(target))
    if not target.parent.is_dir():
        raise NotebookError(
            f"there is no folder {str(target.parent)!r}. Make it first.", path=str(target)
        )
    if target.suffix.lower() in LESSON_FILES:
        raise NotebookError(instead, path=str(target))


def write_output(target: Path, data: bytes) -> None:
    """Write what is published, whole or not at all.

    Raises
    ------
    NotebookError
        If it cannot be written.
    """
    try:
        write_whole(target, data)
    except OSError as error:
        raise NotebookError(
            f"it could not be written ({error.strerror})", path=str(target)
        ) from error
