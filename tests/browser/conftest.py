"""A real browser and a real JupyterLab, for the tests in this folder.

Both are started once in each process that needs them, and end with it.  The
server listens on 127.0.0.1 only and keeps everything in a temporary folder.
"""

from __future__ import annotations

import asyncio
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from browser.lab import Lab
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Error,
    Page,
    ViewportSize,
    sync_playwright,
)

CHROMIUM = next(
    (
        path
        for name in ("chromium", "chromium-browser", "google-chrome")
        if (path := shutil.which(name))
    ),
    "/usr/bin/chromium",
)
# Chromium would load two pages of its own for each page that is opened: lists of proposals
# under an address field that no one sees.  This switch replaces Playwright's, whose names follow.
SWITCHED_OFF = [
    "WebUIOmniboxPopup", "WebUIOmniboxAimPopup",
    "AimEnabled", "AvoidCorsURLLoaderRestartOnRedirect", "AvoidUnnecessaryBeforeUnloadCheckSync",
    "DestroyProfileOnBrowserClose", "HttpsFirstBalancedModeAutoEnable", "HttpsUpgrades",
    "LensOverlay", "MediaRouter", "NetworkTimeServiceQuerying", "OptimizationHints",
    "PaintHolding", "PreconnectToSearch", "ThirdPartyStoragePartitioning",
]  # fmt: skip
CHROMIUM_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    f"--disable-features={','.join(SWITCHED_OFF)}",
]
VIEWPORT: ViewportSize = {"width": 1000, "height": 900}
PACKAGE_ROOT = Path(__file__).parents[2]
SHIPPED = PACKAGE_ROOT / "chessnb" / "notebooks" / "etc" / "chessnb.json"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let one process run all tests that need JupyterLab, so that it is started once."""
    for item in items:
        if "lab" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.xdist_group("JupyterLab"))


@pytest.fixture(scope="session")
def chromium() -> Iterator[tuple[Browser, asyncio.AbstractEventLoop]]:
    """One Chromium for all tests of a process, and Playwright's event loop.

    While Playwright is on, its loop counts as running in this thread, and no
    other test could have one of its own: between the browser's tests it does
    not count.
    """
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        loop = asyncio.get_running_loop()
        asyncio._set_running_loop(None)
        yield chromium, loop
        asyncio._set_running_loop(loop)
        chromium.close()


@pytest.fixture
def browser(chromium: tuple[Browser, asyncio.AbstractEventLoop]) -> Iterator[Browser]:
    """Chromium, for one test."""
    opened, loop = chromium
    asyncio._set_running_loop(loop)
    yield opened
    asyncio._set_running_loop(None)


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A fresh page, which must end without an error of its own and without a call abroad."""
    context, page, errors = _opened(browser)
    yield page
    context.close()
    assert errors == []


def _opened(browser: Browser) -> tuple[BrowserContext, Page, list[str]]:
    """Return a page in a context of its own, and the list of what goes wrong in it."""
    context = browser.new_context(viewport=VIEWPORT)
    page = context.new_page()
    page.set_default_timeout(20_000)
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.extend(_not_notebooks(error)))
    page.on("request", lambda request: errors.extend(_abroad(request.url)))
    return context, page, errors


def _not_notebooks(error: Error) -> list[str]:
    """Return an error, unless it is Jupyter's own, with an empty notebook too.

    Notebook 7 has some of its own, and JupyterLab drops what it asked a kernel
    that is ended meanwhile.  The board's own code comes from ``blob:`` addresses.
    """
    stack = str(error.stack)
    if str(error).startswith("Error: Canceled future for") and "blob:" not in stack:
        return []
    return [] if "/static/notebook/" in stack and "blob:" not in stack else [str(error)]


def _abroad(url: str) -> list[str]:
    """Return an address that is neither this machine's nor within the page."""
    local = ("http://127.0.0.1", "ws://127.0.0.1", "data:", "blob:", "about:")
    return [] if url.startswith(local) else [f"a request to {url}"]


@pytest.fixture(scope="session")
def lab_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """A JupyterLab server: its address, and the folder of its notebooks."""
    home = tmp_path_factory.mktemp("jupyter")
    notebooks = home / "notebooks"
    notebooks.mkdir()
    settings = home / "jupyter_config_dir" / "jupyter_server_config.d"
    settings.mkdir(parents=True)
    shutil.copy(SHIPPED, settings)  # as an installed package has them
    port = _free_port()
    log = (home / "log.txt").open("w", encoding="utf-8")
    server = subprocess.Popen(
        _command(port, notebooks), env=_environment(home), cwd=notebooks, stdout=log, stderr=log
    )
    address = f"http://127.0.0.1:{port}"
    try:
        _wait_for(f"{address}/api", server, home / "log.txt")
        yield address, notebooks
    finally:
        server.terminate()
        try:
            server.wait(timeout=20)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait(timeout=20)
        log.close()


@pytest.fixture(scope="session")
def lab_pages() -> list[tuple[Page, list[str]]]:
    """The page that holds JupyterLab, once it is there."""
    return []


@pytest.fixture
def lab(
    lab_server: tuple[str, Path], lab_pages: list[tuple[Page, list[str]]], browser: Browser
) -> Iterator[Lab]:
    """JupyterLab, ready to open notebooks in a page.

    The page is loaded once for all tests, for that takes seconds; a test that
    leaves it otherwise than it was has it loaded again for the next one.
    """
    address, notebooks = lab_server
    if not lab_pages:
        lab_pages.append(_opened(browser)[1:])
    page, errors = lab_pages[0]
    lab = Lab(page=page, address=address, folder=notebooks)
    page.set_viewport_size(VIEWPORT)
    yield lab
    lab.leave()
    assert [errors.pop() for _ in errors[:]] == []


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def _command(port: int, notebooks: Path) -> list[str]:
    return [
        sys.executable,
        "-m",
        "jupyterlab",
        "--no-browser",
        "--allow-root",
        "--ip=127.0.0.1",
        f"--port={port}",
        "--ServerApp.port_retries=0",
        "--IdentityProvider.token=",
        "--ServerApp.password=",
        f"--ServerApp.root_dir={notebooks}",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.expose_app_in_browser=True",
        "--JupyterNotebookApp.expose_app_in_browser=True",
    ]


def _environment(home: Path) -> dict[str, str]:
    names = ["JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR"]
    names += ["JUPYTERLAB_SETTINGS_DIR", "JUPYTERLAB_WORKSPACES_DIR"]
    path = os.pathsep.join(filter(None, [os.environ.get("PYTHONPATH"), str(PACKAGE_ROOT)]))
    return {
        **os.environ,
        **{name: str(home / name.lower()) for name in names},
        "PYTHONPATH": path,
        "PYDEVD_DISABLE_FILE_VALIDATION": "1",
    }


def _wait_for(address: str, server: subprocess.Popen[bytes], log: Path) -> None:
    deadline = time.monotonic() + 60
    while time.monotonic() < deadline:
        if server.poll() is not None:
            break
        try:
            with urllib.request.urlopen(address, timeout=2):
                return
        except (urllib.error.URLError, OSError):
            time.sleep(0.2)
    pytest.fail(f"JupyterLab did not start:\n{log.read_text(encoding='utf-8')[-3000:]}")
