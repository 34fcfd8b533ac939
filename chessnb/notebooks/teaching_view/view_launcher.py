"""Open a lesson as a page: what the command ``teach`` does."""

from __future__ import annotations

import importlib.util
import os
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from chessnb.errors import NotebookError
from chessnb.notebooks import is_lesson, read_notebook
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.kernels import kernel_environment
from chessnb.notebooks.lesson_server import LessonServer, check_port, missing, say
from chessnb.whole_files import scratch_folder

SHARE = Path(__file__).with_name("share")
"""Where the page's template lies, in the order of Jupyter's data folders."""

FIRST_PORT, PORTS = 20_000, 10_000
"""The ports of lessons: as systems come, a program that asks for any port is given none of them."""


def teach(
    path: str | os.PathLike[str],
    *,
    browser: bool = True,
    port: int | None = None,
    tell: Callable[[str], None] = say,
) -> bool:
    """Open a lesson as a page for a class, and stay until it is ended.

    Parameters
    ----------
    path : path
        The lesson; it is not changed.
    browser : bool
        Whether to open it in the browser; its address is told in any case.
    port : int, optional
        The port to listen on; without it, always the same for a lesson, so that the
        browser finds what it kept for it, or a free one where that is taken.
    tell : callable
        Called with each line for the teacher; the first holds the address.

    Returns
    -------
    bool
        Whether it was ended from here, as with Ctrl-C, which is told too.

    Raises
    ------
    NotebookError
        If it is no lesson, voila is missing, the port is taken, or the page
        cannot be served.
    """
    lesson = Path(os.path.abspath(path))
    content = read_notebook(lesson)
    if not is_lesson(content) and not _uses_chessnb(content):
        raise NotebookError(
            "this notebook is no lesson: no cell of it uses chessnb. Draft one from a game "
            "with “chessnb draft GAME.pgn”, or open this one with “chessnb open”.",
            path=str(path),
        )
    check_hiding(lesson.parent, shown=str(path))
    if importlib.util.find_spec("voila") is None:
        raise missing("voila, which shows the lesson as a page,", "voila", shown=str(path))
    if port is not None:
        check_port(port, shown=str(path))
    else:
        port = port_of(lesson)
    with scratch_folder() as folder:
        server = LessonServer(
            name="The lesson",
            arguments=_arguments(lesson, folder, browser=browser, port=port),
            environment=kernel_environment() | _data_folders(),
            page="",
            notebook=lesson,
        )
        return server.serve(folder, tell=tell)


def port_of(lesson: Path) -> int | None:
    """Return the port of a lesson's page, or None where another program has taken it.

    A browser keeps a reader's tries and the teacher's mark for an address, of
    which the port is a part: next week they are to be found.

    Parameters
    ----------
    lesson : Path
        The lesson, by its whole path.
    """
    port = FIRST_PORT + zlib.crc32(os.fsencode(lesson)) % PORTS
    try:
        check_port(port, shown=str(lesson))
    except NotebookError:
        return None
    return port


def _uses_chessnb(content: Mapping[str, Any]) -> bool:
    """Tell whether a notebook that was written by hand is a lesson all the same."""
    code = (cell["source"] for cell in content["cells"] if cell["cell_type"] == "code")
    return any("chessnb" in source for source in code)


def _arguments(lesson: Path, scratch: Path, *, browser: bool, port: int | None) -> list[str]:
    return [
        *("-m", "chessnb.notebooks.teaching_view.view_server"),
        *(str(lesson), str(scratch), str(port or 0), "browser" if browser else "none"),
    ]


def _data_folders() -> dict[str, str]:
    """Return the environment variable by which Jupyter finds the page's template."""
    others = os.environ.get("JUPYTER_PATH")
    return {"JUPYTER_PATH": os.pathsep.join(filter(None, (str(SHARE), others)))}
