"""A server for one lesson: started, waited for, told of, and ended in good order.

It listens on this computer only, protected by a token, makes no calls to the
network, and changes nothing of the teacher's own Jupyter settings.  It ends
with Ctrl-C, which comes to us, and when it ends of itself.
"""

from __future__ import annotations

import contextlib
import errno
import json
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chessnb.errors import NotebookError
from chessnb.shell import typed
from chessnb.startup import undisturbed

HOST = "127.0.0.1"
_SECONDS_TO_START = 60.0
_SECONDS_TO_STOP = 20.0
_LOOK_EVERY_SECONDS = 0.1


def say(line: str) -> None:
    """Print a line for the teacher at once."""
    print(line, flush=True)


@dataclass(frozen=True, kw_only=True)
class LessonServer:
    """A program that serves a lesson.

    Parameters
    ----------
    name : str
        What the teacher is told that it is.
    arguments : sequence of str
        What this Python is called with.
    environment : mapping
        Its environment variables; it writes the file that says where it
        listens into the folder that ``JUPYTER_RUNTIME_DIR`` names.
    page : str
        The lesson's address, behind that of the server.
    notebook : Path
        The lesson.
    """

    name: str
    arguments: Sequence[str]
    environment: Mapping[str, str]
    page: str
    notebook: Path

    def serve(self, scratch: Path, *, tell: Callable[[str], None]) -> bool:
        """Serve the lesson until the server ends; tell whether it was ended from here.

        Parameters
        ----------
        scratch : Path
            A folder for what it keeps meanwhile; only this user can read it.
        tell : callable
            Called with each line for the teacher; the first holds the address.

        Raises
        ------
        NotebookError
            If it does not start, or breaks off.
        """
        server = None
        try:
            with _ended_like_ctrl_c():
                with undisturbed():
                    server = self._start(scratch)
                information = self._wait_for_information(server, scratch)
                self._check_protected(information)
                tell(f"{self.name}: {self._address(information)}")
                tell("Ctrl-C ends it.")
                if server.wait() != 0:
                    raise self._error(f"{self.name} broke off. It said: {_last_words(scratch)}")
        except KeyboardInterrupt:
            tell(f"{self.name} ends.")
            return True
        finally:
            if server is not None:
                _stop(server)
        return False

    def _start(self, scratch: Path) -> subprocess.Popen[bytes]:
        # A folder of its own tells where this server's information is.
        environment = {**self.environment, "JUPYTER_RUNTIME_DIR": str(scratch / "runtime")}
        with (scratch / "log").open("wb") as log:
            return subprocess.Popen(
                [sys.executable, *self.arguments],
                env=environment,
                cwd=self.notebook.parent,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=subprocess.STDOUT,
                start_new_session=True,  # Ctrl-C comes to us, and we end it in good order
            )

    def _wait_for_information(
        self, server: subprocess.Popen[bytes], scratch: Path
    ) -> dict[str, Any]:
        """Return what the server says of itself, once it listens."""
        deadline = time.monotonic() + _SECONDS_TO_START
        while server.poll() is None and time.monotonic() < deadline:
            for file in (scratch / "runtime").glob("jpserver-*.json"):
                # It is being written, or nobody listens yet.
                with contextlib.suppress(OSError, json.JSONDecodeError):
                    information: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
                    with socket.create_connection((HOST, information["port"]), timeout=10):
                        return information
            time.sleep(_LOOK_EVERY_SECONDS)
        raise self._error(f"{self.name} did not start. It said: {_last_words(scratch)}")

    def _check_protected(self, information: Mapping[str, Any]) -> None:
        if not information["token"] and not information["password"]:
            raise self._error(
                "your own Jupyter settings switch the server's token off, so anyone on this "
                "computer could use it. Remove IdentityProvider.token from them."
            )

    def _address(self, information: Mapping[str, Any]) -> str:
        token = f"?token={information['token']}" if information["token"] else ""
        return f"{information['url']}{self.page}{token}"

    def _error(self, reason: str) -> NotebookError:
        return NotebookError(reason, path=str(self.notebook))


def missing(name: str, package: str, *, shown: str) -> NotebookError:
    """Return the error that says that a package is not installed, and how to install it."""
    return NotebookError(
        f"{name} is not installed for this Python. Install it with: "
        f"{typed(sys.executable, '-m', 'pip', 'install', package)}",
        path=shown,
    )


def check_port(port: int, *, shown: str) -> None:
    """Refuse a port that there is not, or that cannot be used.

    Raises
    ------
    NotebookError
        With the reason, and what to do.
    """
    if not 1 <= port <= 65535:
        reason = f"there is no port {port}. Choose one between 1024 and 65535."
        raise NotebookError(reason, path=shown)
    with socket.socket() as probe:
        if os.name == "posix":  # as the server does: a port that was just let go is free
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except OSError as error:
            if error.errno == errno.EADDRINUSE:
                reason = f"port {port} is taken by another program. Choose another, or none."
            else:
                reason = f"port {port} cannot be used ({error.strerror}). Choose one above 1023."
            raise NotebookError(reason, path=shown) from error


def _last_words(scratch: Path) -> str:
    lines = (scratch / "log").read_text(encoding="utf-8", errors="replace").strip().splitlines()
    return " / ".join(line.strip() for line in lines[-5:] if line.strip())


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
