"""The server of the teaching view, a program of its own: ``python -m …view_server``.

It is voila's, with the lesson's page, this Python for a kernel, a token, and
no setting of the teacher's own; nothing in it asks another host for anything.
Its arguments are the lesson, a folder to keep things in, the port (0 for any),
and ``browser`` where the lesson is to be opened in one.
"""

from __future__ import annotations

import json
import os
import secrets
import sys
from pathlib import Path
from typing import Any

import tornado.ioloop
from ipykernel.kernelspec import RESOURCES, get_kernel_dict
from jupyter_client.kernelspec import KernelSpec, KernelSpecManager
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from traitlets.config import Config
from voila.app import Voila

from chessnb.diagrams.ink import ink_rules
from chessnb.notebooks.lesson_server import HOST
from chessnb.notebooks.teaching_view.view_cells import Faults, prepare

_EXTENSIONS = [
    "anywidget",
    "@jupyter-widgets/jupyterlab-manager",
    "@voila-dashboards/widgets-manager8",
]
"""What of JupyterLab's front end a live board needs."""

_SECONDS_BETWEEN_SIGNS_OF_LIFE = 5


class ThisPython(KernelSpecManager):
    """Knows one kernel: this Python, under every name."""

    def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
        """Return this Python."""
        return KernelSpec(resource_dir=str(RESOURCES), **get_kernel_dict())

    def get_all_specs(self) -> dict[str, Any]:
        """Return this Python under the name that every lesson is given."""
        spec = self.get_kernel_spec("python3").to_dict()
        return {"python3": {"resource_dir": str(RESOURCES), "spec": spec}}


class LessonView(Voila):  # type: ignore[misc]  # voila is untyped
    """The server of one lesson."""

    port: int

    def listen(self) -> None:
        """Listen, say where, open the browser, and serve until a signal ends it."""
        sockets = bind_sockets(self.port, HOST)
        HTTPServer(self.app).add_sockets(sockets)
        self.port = sockets[0].getsockname()[1]
        self._say_where()
        if self.open_browser:
            self.launch_browser()
        self.ioloop = tornado.ioloop.IOLoop.current()
        try:
            self.ioloop.start()
        finally:
            self.stop()

    def _url(self, ip: str) -> str:
        """Return the address; the browser is handed the token with it, in a private file."""
        return f"http://{ip}:{self.port}{self.base_url}"

    def _say_where(self) -> None:
        folder = Path(os.environ["JUPYTER_RUNTIME_DIR"])
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        told = {"url": self._url(HOST), "port": self.port, "token": self.token, "password": False}
        part = folder / "part"
        part.write_text(json.dumps(told), encoding="utf-8")
        part.replace(folder / f"jpserver-{os.getpid()}.json")


def settings(scratch: Path) -> Config:
    """Return all that voila is told."""
    config = Config()
    config.VoilaConfiguration.update(
        template="lesson",
        theme="light",
        allow_template_override="NO",
        allow_theme_override="NO",
        show_tracebacks=True,  # the template tells an error in a sentence
        file_allowlist=[r".*\.(png|jpg|jpeg|gif|svg)"],
        extension_allowlist=_EXTENSIONS,
        kernel_spec_manager_class=ThisPython,
        prelaunch_hook=prepare,
        resources={"ink": ink_rules()},
    )
    config.VoilaConfiguration.http_keep_alive_timeout = _SECONDS_BETWEEN_SIGNS_OF_LIFE
    config.VoilaExecutor.update(allow_errors=True, timeout=None)
    config.VoilaExporter.update(
        anchor_link_text="§",  # an empty link is left open by the writer; the style hides it
        filters={"faults": lambda _: Faults()},
    )
    config.Voila.connection_dir_root = str(scratch)
    return config


def main(lesson: str, folder: str, port: str, browser: str) -> None:
    """Serve a lesson until a signal ends it."""
    app = LessonView(
        config=settings(Path(folder)),
        config_file_paths=[],
        ip=HOST,
        port=int(port),
        token=secrets.token_hex(24),
        open_browser=browser == "browser",
        notebook_path=lesson,
        log_level="WARN",
    )
    app.initialize([])
    app.start()


if __name__ == "__main__":
    main(*sys.argv[1:])
