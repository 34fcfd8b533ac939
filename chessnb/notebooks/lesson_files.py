"""Lesson notebooks as files: read with a teacher's errors, written whole or not at all."""

from __future__ import annotations

import json
import os
import warnings
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.errors import NotebookError
from chessnb.notebooks.quick_loading import without_address_grammars
from chessnb.shell import typed
from chessnb.whole_files import write_whole

if TYPE_CHECKING:
    from nbformat import NotebookNode

_FORMAT = 4


def read_notebook(path: str | os.PathLike[str]) -> NotebookNode:
    """Return the notebook in a file.

    A notebook from a time before cells had ids gets ids by their places, so
    that reading it twice gives the same.

    Parameters
    ----------
    path : path
        The ``.ipynb`` file.

    Raises
    ------
    NotebookError
        If there is no such file, it cannot be read, or it is not a notebook
        of version 4 of the format, the one JupyterLab writes.
    """
    content = _parsed(Path(path))
    _check_version(content, Path(path))
    with without_address_grammars():
        import nbformat  # takes a while, and a file that is not there is told at once

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            notebook: NotebookNode = _untyped(nbformat.v4).to_notebook(content)
            _give_ids(notebook)
            nbformat.validate(notebook)
        except (nbformat.ValidationError, AttributeError, KeyError, TypeError) as error:
            raise NotebookError(
                f"it is not a notebook that Jupyter could open ({_first_line(error)}). "
                "Take an older copy, or open it in a text editor and repair it.",
                path=str(path),
            ) from error
    return notebook


def _why_unread(error: json.JSONDecodeError, path: Path) -> str:
    if path.suffix.lower() == ".pgn":
        return (
            "this is a game file (PGN), not a lesson. Make a lesson of it first: "
            f"{typed('chessnb', 'draft', _from_here(path))}"
        )
    if not error.doc.strip():
        return "this file is empty. Take an older copy."
    return (
        f"this is not a notebook: it breaks off or goes wrong at line {error.lineno} "
        f"({error.msg}). Take an older copy, or repair it in a text editor."
    )


def _from_here(path: Path) -> str:
    """Return a path as it can be typed where the program was started."""
    here = Path.cwd()
    return str(path.relative_to(here) if path.is_relative_to(here) else path)


def _parsed(path: Path) -> Any:
    try:
        return json.loads(path.read_bytes())
    except FileNotFoundError:
        reason = "there is no such file. Check the folder and the spelling."
    except IsADirectoryError:
        reason = "this is a folder. Name the notebook in it."
    except PermissionError:
        reason = "you are not allowed to read this file."
    except OSError as error:
        reason = f"the file cannot be read ({error.strerror})."
    except UnicodeDecodeError:
        reason = "this is not a notebook: it is not text."
    except json.JSONDecodeError as error:
        reason = _why_unread(error, path)
    except RecursionError:
        reason = "this is not a notebook: it is nested too deep."
    raise NotebookError(reason, path=str(path))


def _check_version(content: Any, path: Path) -> None:
    version = content.get("nbformat") if isinstance(content, dict) else None
    if version == _FORMAT and isinstance(content.get("cells"), list):
        return
    if isinstance(version, int) and version < _FORMAT:
        reason = (
            f"this notebook is in the old format {version}. "
            "Open it once in JupyterLab and save it; that renews it."
        )
    elif isinstance(version, int) and version > _FORMAT:
        reason = (
            f"this notebook is in format {version}, newer than the {_FORMAT} "
            "that is understood here. Update chessnb, or save it in the older format."
        )
    else:
        reason = "this is a file of data (JSON), but not a notebook."
    raise NotebookError(reason, path=str(path))


def _give_ids(notebook: NotebookNode) -> None:
    """Give ids to cells that should have one: by place, so that they are always the same."""
    if (notebook["nbformat"], notebook["nbformat_minor"]) < (4, 5):
        notebook["nbformat_minor"] = 5
    used = {cell.get("id") for cell in notebook["cells"]}
    for number, cell in enumerate(notebook["cells"], start=1):
        if "id" not in cell:
            name = f"cell-{number}"
            while name in used:
                name += "x"
            cell["id"] = name
            used.add(name)


def _untyped(module: Any) -> Any:
    """Return a module whose functions carry no types, for the type checker's sake."""
    return module


def _first_line(error: Exception) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]


def write_notebook(notebook: NotebookNode, path: str | os.PathLike[str]) -> None:
    """Write a notebook to a file: the whole of it, or nothing.

    See :mod:`chessnb.whole_files`.  The same notebook gives the same bytes.

    Parameters
    ----------
    notebook : NotebookNode
        The notebook; it is not changed.
    path : path
        The ``.ipynb`` file.  A file that is there keeps its permissions; a
        link is followed.

    Raises
    ------
    NotebookError
        If it is not a valid notebook, or the file cannot be written there.
    """
    target = Path(os.path.realpath(path))
    data = notebook_bytes(notebook, path=path)
    _check_target(target, shown=str(path))
    try:
        write_whole(target, data)
    except OSError as error:
        raise NotebookError(
            f"it could not be written to this folder ({error.strerror}). "
            "What stood there before is unchanged.",
            path=str(path),
        ) from error


def notebook_bytes(
    notebook: NotebookNode, *, path: str | os.PathLike[str] = "the notebook"
) -> bytes:
    """Return the bytes that :func:`write_notebook` would write.

    Raises
    ------
    NotebookError
        If it is not a valid notebook; ``path`` is what the error names.
    """
    with without_address_grammars():
        import nbformat

    try:
        nbformat.validate(notebook)
        nodes = _untyped(nbformat).from_dict(notebook)  # plain dicts put into it are welcome
        return (str(_untyped(nbformat.v4).writes(nodes)) + "\n").encode()
    except (nbformat.ValidationError, TypeError) as error:
        reason = f"this would not be a notebook that Jupyter can open ({_first_line(error)})."
        raise NotebookError(reason, path=str(path)) from error
    except UnicodeEncodeError as error:
        reason = "it holds half of a two-part character, which no file can hold. Remove it."
        raise NotebookError(reason, path=str(path)) from error


def _check_target(target: Path, *, shown: str) -> None:
    if target.is_dir():
        raise NotebookError("this is a folder. Give the notebook a name in it.", path=shown)
    if not target.parent.is_dir():
        reason = f"there is no folder {str(target.parent)!r}. Make it first."
        raise NotebookError(reason, path=shown)
    if target.exists() and not os.access(target, os.W_OK):
        raise NotebookError("this file is write-protected.", path=shown)
    if not os.access(target.parent, os.W_OK):
        reason = f"you are not allowed to write into the folder {str(target.parent)!r}."
        raise NotebookError(reason, path=shown)
