"""The first moments of a command, and how Ctrl-C ends it.

Loading the package takes most of a second, and a teacher who types the wrong
file presses Ctrl-C at once.  Until the command line takes over, the program
then ends on the spot: nothing has been begun.  After that, whoever works is
told by a `KeyboardInterrupt`, once, and tidies up undisturbed.

Nothing of the package may be imported here, and little else: what stands
above this module's first line cannot be protected by it.
"""

from __future__ import annotations

import os
import signal
import sys
from types import FrameType
from typing import Any

STOPPED = 130
"""The exit code of a command that Ctrl-C has ended, as shells have it."""

SENTENCE = "chessnb: stopped."
"""What such a command says last."""


def begin() -> None:
    """Prepare for loading the package, where it is loaded to be the command ``chessnb``."""
    if not _is_command():
        return
    _listen(_end_at_once)
    if sys.argv[0] == "-m" and sys.path[:1] == [os.getcwd()]:
        # Python looks for modules here first: a lesson's helper called
        # random.py would be taken for Python's own.
        del sys.path[0]


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
            signal.raise_signal(signal.SIGINT)
        else:
            drop(dropped)

    sys.unraisablehook = drop_others


def ignore() -> None:
    """Let nothing disturb the last steps of a program whose work is done."""
    _listen(signal.SIG_IGN)


def _listen(answer: Any) -> None:
    signal.signal(signal.SIGINT, answer)


def _end_at_once(_number: int, _frame: FrameType | None) -> None:
    os.write(2, f"{SENTENCE}\n".encode())
    os._exit(STOPPED)


def _raise_once(_number: int, _frame: FrameType | None) -> None:
    ignore()
    raise KeyboardInterrupt
