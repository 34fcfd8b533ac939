"""Open a lesson in JupyterLab.

A server is started for this one lesson, on this computer only, protected by
its token.  It makes no calls to the network, and it changes nothing of the
teacher's own Jupyter settings.  It ends with Ctrl-C, or when JupyterLab is
shut down from its File menu.
"""

from __future__ import annotations

import codecs
import contextlib
import errno
import importlib.util
import json
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

from chessnb.errors import NotebookError
from chessnb.notebooks import read_notebook, write_notebook
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.kernels import kernel_environment
from chessnb.shell import typed
from chessnb.startup import undisturbed
from chessnb.whole_files import scratch_folder

_BYTE_ORDER_MARKS = (codecs.BOM_UTF8, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_HOST = "127.0.0.1"
_SECONDS_TO_START = 60.0
_SECONDS_TO_STOP = 20.0
_LOOK_EVERY_SECONDS = 0.1


def launch(
    path: str | os.PathLike[str],
    *,
    browser: bool = True,
    port: int | None = None,
    tell: Callable[[str], None] = lambda line: print(line, flush=True),
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
    _check_jupyterlab(str(path))
    if port is not None:
        _check_port(port, str(path))
    with scratch_folder() as folder:
        return _serve(notebook, folder, browser=browser, port=port, tell=tell)


def _check_jupyterlab(shown: str) -> None:
    if importlib.util.find_spec("jupyterlab") is None:
        raise NotebookError(
            "JupyterLab is not installed for this Python. Install it with: "
            f"{typed(sys.executable, '-m', 'pip', 'install', 'jupyterlab')}",
            path=shown,
        )


def _check_port(port: int, shown: str) -> None:
    if not 1 <= port <= 65535:
        reason = f"there is no port {port}. Choose one between 1024 and 65535."
        raise NotebookError(reason, path=shown)
    with socket.socket() as probe:
        if os.name == "posix":  # as the server does: a port that was just let go is free
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((_HOST, port))
        except OSError as error:
            if error.errno == errno.EADDRINUSE:
                reason = f"port {port} is taken by another program. Choose another, or none."
            else:
                reason = f"port {port} cannot be used ({error.strerror}). Choose one above 1023."
            raise NotebookError(reason, path=shown) from error


def _serve(
    notebook: Path, scratch: Path, *, browser: bool, port: int | None, tell: Callable[[str], None]
) -> bool:
    server = None
    try:
        with _ended_like_ctrl_c():
            with undisturbed():
                server = _start(notebook, scratch, browser=browser, port=port)
            information = _wait_for_information(server, scratch, notebook)
            _check_protected(information, notebook)
            tell(f"JupyterLab: {_address(information, notebook)}")
            tell("Ctrl-C ends it.")
            if server.wait() != 0:
                reason = f"JupyterLab broke off. It said: {_last_words(scratch)}"
                raise NotebookError(reason, path=str(notebook))
    except KeyboardInterrupt:
        tell("JupyterLab ends.")
        return True
    finally:
        if server is not None:
            _stop(server)
    return False


def _start(
    notebook: Path, scratch: Path, *, browser: bool, port: int | None
) -> subprocess.Popen[bytes]:
    arguments = [
        str(notebook),
        f"--ServerApp.root_dir={notebook.parent}",
        f"--ServerApp.ip={_HOST}",
        f"--ServerApp.open_browser={browser}",
        "--ServerApp.jpserver_extensions=chessnb.notebooks.server_extension=True",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    if port is not None:
        arguments += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        arguments.append("--ServerApp.allow_root=True")
    # A folder of its own tells where this server's information is; only this
    # user can read it.
    environment = kernel_environment() | {"JUPYTER_RUNTIME_DIR": str(scratch / "runtime")}
    with (scratch / "log").open("wb") as log:
        return subprocess.Popen(
            [sys.executable, "-m", "jupyterlab", *arguments],
            env=environment,
            cwd=notebook.parent,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            start_new_session=True,  # Ctrl-C comes to us, and we end it in good order
        )


def _wait_for_information(
    server: subprocess.Popen[bytes], scratch: Path, notebook: Path
) -> dict[str, Any]:
    """Return what the server says of itself, once it listens."""
    deadline = time.monotonic() + _SECONDS_TO_START
    while server.poll() is None and time.monotonic() < deadline:
        for file in (scratch / "runtime").glob("jpserver-*.json"):
            # It is being written, or nobody listens yet.
            with contextlib.suppress(OSError, json.JSONDecodeError):
                information: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
                with socket.create_connection((_HOST, information["port"]), timeout=10):
                    return information
        time.sleep(_LOOK_EVERY_SECONDS)
    reason = f"JupyterLab did not start. It said: {_last_words(scratch)}"
    raise NotebookError(reason, path=str(notebook))


def _last_words(scratch: Path) -> str:
    lines = (scratch / "log").read_text(encoding="utf-8", errors="replace").strip().splitlines()
    return " / ".join(line.strip() for line in lines[-5:] if line.strip())


def _check_protected(information: dict[str, Any], notebook: Path) -> None:
    if not information["token"] and not information["password"]:
        raise NotebookError(
            "your own Jupyter settings switch the server's token off, so anyone on this computer "
            "could use it. Remove IdentityProvider.token from them.",
            path=str(notebook),
        )


def _address(information: dict[str, Any], notebook: Path) -> str:
    token = f"?token={information['token']}" if information["token"] else ""
    return f"{information['url']}lab/tree/{quote(notebook.name)}{token}"


@contextlib.contextmanager
def _ended_like_ctrl_c() -> Iterator[None]:
    """Let the other ways to end a program (a closed terminal, ``kill``) do what Ctrl-C does."""
    names = [name for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    if threading.current_thread() is not threading.main_thread():
        names = []  # Python allows it in the main thread only
    before = {name: signal.getsignal(getattr(signal, name)) for name in names}
    for name in names:
        signal.signal(getattr(signal, name), signal.default_int_handler)
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(getattr(signal, name), handler)


def _stop(server: subprocess.Popen[bytes]) -> None:
    """End the server, which ends its kernels, if it has not ended already."""
    if server.poll() is not None:
        return
    server.terminate()
    try:
        server.wait(_SECONDS_TO_STOP)
    except subprocess.TimeoutExpired:
        server.kill()
        server.wait()
