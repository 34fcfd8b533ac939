"""Open a lesson in JupyterLab.

A server is started for this one lesson (:mod:`chessnb.notebooks.lesson_server`).
It ends with Ctrl-C, or when JupyterLab is shut down from its File menu.
"""

from __future__ import annotations

import codecs
import importlib.util
import json
import os
from collections.abc import Callable, Mapping
from pathlib import Path
from urllib.parse import quote

from chessnb.notebooks import read_notebook, write_notebook
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.kernels import kernel_environment
from chessnb.notebooks.lesson_server import HOST, LessonServer, check_port, missing, say
from chessnb.whole_files import scratch_folder

_BYTE_ORDER_MARKS = (codecs.BOM_UTF8, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)

_QUIET: Mapping[str, Mapping[str, object]] = {
    "labconfig/page_config.json": {
        "disabledExtensions": {"@voila-dashboards/jupyterlab-preview": True}
    },
    "labconfig/default_setting_overrides.json": {
        "@jupyterlab/apputils-extension:notification": {"fetchNews": "false"}
    },
    "jupyter_server_config.d/voila.json": {
        "ServerApp": {"jpserver_extensions": {"voila.server_extension": False}}
    },
}
"""Settings: JupyterLab asks for no news, and the library of the teaching view adds nothing."""


def launch(
    path: str | os.PathLike[str],
    *,
    browser: bool = True,
    port: int | None = None,
    tell: Callable[[str], None] = say,
) -> bool:
    """Open a notebook in JupyterLab, and stay until JupyterLab ends.

    Parameters
    ----------
    path : path
        The notebook.
    browser : bool
        Whether to open it in the browser; its address is told in any case.
    port : int, optional
        The port to listen on; without it, a free one is found.
    tell : callable
        Called with each line for the teacher; the first holds the address.

    Returns
    -------
    bool
        Whether it was ended from here, as with Ctrl-C, which is told too.

    Raises
    ------
    NotebookError
        If it is not a notebook, JupyterLab is missing, the port is taken, or
        JupyterLab does not start.
    """
    notebook = Path(os.path.abspath(path))
    content = read_notebook(notebook)
    check_hiding(notebook.parent, shown=str(path))
    if notebook.read_bytes().startswith(_BYTE_ORDER_MARKS):  # JupyterLab reads none of them
        write_notebook(content, notebook)
    if importlib.util.find_spec("jupyterlab") is None:
        raise missing("JupyterLab", "jupyterlab", shown=str(path))
    if port is not None:
        check_port(port, shown=str(path))
    with scratch_folder() as folder:
        server = LessonServer(
            name="JupyterLab",
            arguments=["-m", "jupyterlab", *_arguments(notebook, browser=browser, port=port)],
            environment=kernel_environment() | _own_settings(folder),
            page=f"lab/tree/{quote(notebook.name)}",
            notebook=notebook,
        )
        return server.serve(folder, tell=tell)


def _arguments(notebook: Path, *, browser: bool, port: int | None) -> list[str]:
    arguments = [
        str(notebook),
        f"--ServerApp.root_dir={notebook.parent}",
        f"--ServerApp.ip={HOST}",
        f"--ServerApp.open_browser={browser}",
        "--ServerApp.jpserver_extensions=chessnb.notebooks.server_extension=True",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    if port is not None:
        arguments += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        arguments.append("--ServerApp.allow_root=True")
    return arguments


def _own_settings(scratch: Path) -> dict[str, str]:
    """Write settings for this server alone; return the environment variable that names them."""
    settings = scratch / "settings"
    for name, content in _QUIET.items():
        file = settings / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps(content), encoding="utf-8")
    others = os.environ.get("JUPYTER_CONFIG_PATH")
    return {"JUPYTER_CONFIG_PATH": os.pathsep.join(filter(None, (str(settings), others)))}
