"""The first moments of a command, and how Ctrl-C ends it.

Loading the package takes most of a second, and a teacher who types the wrong
file presses Ctrl-C at once.  Until the command line takes over, the program
then ends on the spot: nothing has been begun.  After that, whoever works is
told by a `KeyboardInterrupt`, once, and tidies up undisturbed.

Nothing of the package may be imported here, and little else: what stands
above this module's first line cannot be protected by it.
"""

from __future__ import annotations

import contextlib
import importlib.util
import os
import signal
import sys
import threading
from collections.abc import Iterator
from types import FrameType
from typing import Any, NoReturn

STOPPED = 130
"""The exit code of a command that Ctrl-C has ended, as shells have it."""

SENTENCE = "chessnb: stopped."
"""What such a command says last."""

_SECONDS_TO_LEAVE = 0.05
"""So long a destructor may still take."""


class HiddenModule(ImportError):  # noqa: N818 (a name a teacher reads)
    """A file is taken for a module that the package needs."""

    def _render_traceback_(self) -> list[str]:
        """Return what a notebook shows (an IPython hook)."""
        return [str(self)]


def begin() -> None:
    """Prepare for loading the package; what it is loaded for, a cell or a command, is found out.

    Raises
    ------
    HiddenModule
        If a file ``chess.py`` stands where Python looks first.
    """
    if _is_command():
        _listen(_end_at_once)
        if sys.argv[0] == "-m" and sys.path[:1] == [os.getcwd()]:
            # Python looks for modules here first: a lesson's helper called
            # random.py would be taken for Python's own.
            del sys.path[0]
    if hiding := _hides_chess():
        raise HiddenModule(
            f"{hiding} hides the module “chess”, which chessnb needs. Give the file another name."
        )


def _hides_chess() -> str:
    """Return the file that would be taken for python-chess, which is a folder; else nothing."""
    if "chess" in sys.modules:
        return ""
    found = importlib.util.find_spec("chess")
    single = found is not None and found.submodule_search_locations is None
    return str(found.origin) if found and single else ""


def _is_command() -> bool:
    if sys.argv[:1] == ["-m"]:  # which Python replaces once the package is loaded
        given = sys.orig_argv
        return "-m" in given and given[given.index("-m") + 1 :][:1] == ["chessnb"]
    name = os.path.basename(sys.argv[0]) if sys.argv else ""
    return name.removesuffix(".exe") == "chessnb"


def listen() -> None:
    """Have Ctrl-C raise a `KeyboardInterrupt`, once: what is tidied up then is not disturbed.

    One that is raised where Python has to drop it, as in a destructor, is
    raised again.
    """
    _listen(_raise_once)
    drop = sys.unraisablehook

    def drop_others(dropped: Any) -> None:
        if issubclass(dropped.exc_type, KeyboardInterrupt):
            _listen(_raise_once)
            # Later, and from elsewhere: raised here it would be dropped again.
            again = threading.Timer(_SECONDS_TO_LEAVE, _interrupt_main_thread)
            again.daemon = True
            again.start()
        else:
            drop(dropped)

    sys.unraisablehook = drop_others


@contextlib.contextmanager
def undisturbed() -> Iterator[None]:
    """Put Ctrl-C off until a step is done that must not be left half-way.

    Such as starting a program: one whose start is interrupted is nobody's.
    """
    if threading.current_thread() is not threading.main_thread():
        yield  # only the main thread is interrupted
        return
    asked: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _frame: asked.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if asked:
            signal.raise_signal(signal.SIGINT)


def _interrupt_main_thread() -> None:
    main_thread = threading.main_thread().ident
    if sys.platform != "win32" and main_thread is not None:
        signal.pthread_kill(main_thread, signal.SIGINT)  # which also ends what it waits for
    else:
        signal.raise_signal(signal.SIGINT)


def ignore() -> None:
    """Let nothing disturb the last steps of a program whose work is done."""
    _listen(signal.SIG_IGN)


def end() -> NoReturn:
    """End a program that Ctrl-C has stopped and that has tidied up.

    Python itself may end it by the signal instead of with an exit code, if
    the interrupt fell into a text that it was running as a program.
    """
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError):
            stream.flush()
    os._exit(STOPPED)


def _listen(answer: Any) -> None:
    signal.signal(signal.SIGINT, answer)


def _end_at_once(_number: int, _frame: FrameType | None) -> None:
    os.write(2, f"{SENTENCE}\n".encode())
    os._exit(STOPPED)


def _raise_once(_number: int, _frame: FrameType | None) -> None:
    ignore()
    raise KeyboardInterrupt
