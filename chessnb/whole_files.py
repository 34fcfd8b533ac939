"""Files written whole or not at all: the one way in which this package writes.

The new bytes go to a file of their own beside the place, are forced to the
disk, and take the place in one step.  Whenever the program is stopped, the
old file or the new one stands there, whole.

A program that is killed while it writes leaves such a file of its own behind
(``.chessnb-….tmp``).  Whoever writes into the folder next takes it away, if
no living program has it in hand: its writer holds a lock on it to the end,
which the system lets go of when the program ends, however it ends.  The
folders in which a program keeps what it needs only while it runs are cleared
up in the same way.
"""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import shutil
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

try:
    import fcntl
except ImportError:  # Windows, where a file that is open cannot be removed at all
    fcntl = None  # type: ignore[assignment]

_OURS = re.compile(r"\.chessnb-[0-9a-f]{16}\.tmp")
_SCRATCH = "chessnb-run-"
_SECONDS_TO_LOCK = 60.0
"""A file that was just made may not be locked yet, and on Windows not be in place."""

_BINARY = getattr(os, "O_BINARY", 0)


def write_whole(path: str | os.PathLike[str], data: bytes | str) -> None:
    """Write a file: the whole of it, or nothing.

    Parameters
    ----------
    path : path
        The file.  One that is there keeps its permissions; a link is followed.
    data : bytes or str
        What it is to hold; a text is written as UTF-8, its line ends as they are.

    Raises
    ------
    OSError
        If it cannot be written; what was there is then unchanged.
    UnicodeEncodeError
        If the text holds what no file can hold.
    """
    target = Path(os.path.realpath(path))
    content = data.encode() if isinstance(data, str) else data
    _write(target, content)
    _sync_folder(target.parent)
    remove_left_behind(target.parent)


def _write(target: Path, content: bytes) -> None:
    temporary = target.with_name(f".chessnb-{secrets.token_hex(8)}.tmp")
    try:
        # os.open lets the system apply the user's own default permissions.
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY
        with open(os.open(temporary, flags, 0o666), "wb") as file:
            _lock(file.fileno())
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            if target.exists():
                temporary.chmod(target.stat().st_mode & 0o7777)
            if fcntl:  # so it is locked until it is in place
                os.replace(temporary, target)
        if not fcntl:
            os.replace(temporary, target)
    except BaseException:
        with contextlib.suppress(OSError):
            temporary.unlink()
        raise


def _sync_folder(folder: Path) -> None:
    """Force the folder's new entry to the disk, where the system can do that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def remove_left_behind(folder: Path) -> None:
    """Remove from a folder what killed programs have left there; never an error."""
    with contextlib.suppress(OSError):
        for path in _left_behind(folder):
            with contextlib.suppress(OSError):
                path.unlink()


def _left_behind(folder: Path) -> Iterator[Path]:
    """Yield the files of ours that no living program has in hand."""
    old = time.time() - _SECONDS_TO_LOCK
    with os.scandir(folder) as entries:
        for entry in entries:
            if not _OURS.fullmatch(entry.name) or not entry.is_file(follow_symlinks=False):
                continue
            with contextlib.suppress(OSError):
                if entry.stat().st_mtime < old and _has_no_writer(entry.path):
                    yield Path(entry.path)


@contextlib.contextmanager
def scratch_folder() -> Iterator[Path]:
    """Give a new folder for what is needed only while a program runs; it goes in the end.

    What killed programs of this user have left goes too, where the system has
    locks to tell them from living ones.
    """
    _remove_left_folders(Path(tempfile.gettempdir()))
    with tempfile.TemporaryDirectory(prefix=_SCRATCH, ignore_cleanup_errors=True) as folder:
        handle = os.open(folder, os.O_RDONLY) if fcntl else None
        try:
            if handle is not None:
                _lock(handle)
            yield Path(folder)
        finally:
            if handle is not None:
                os.close(handle)


def _remove_left_folders(place: Path) -> None:
    old = time.time() - _SECONDS_TO_LOCK
    with contextlib.suppress(OSError), os.scandir(place) as entries:
        for entry in entries if fcntl else ():
            if not entry.name.startswith(_SCRATCH) or not entry.is_dir(follow_symlinks=False):
                continue
            with contextlib.suppress(OSError):
                known = entry.stat(follow_symlinks=False)
                mine = known.st_uid == os.getuid() and known.st_mtime < old
                if mine and _has_no_writer(entry.path):
                    shutil.rmtree(entry.path, ignore_errors=True)


def _has_no_writer(path: str) -> bool:
    if not fcntl:
        return True
    handle = os.open(path, os.O_RDONLY)
    try:
        return _lock(handle)
    finally:
        os.close(handle)


def _lock(handle: int) -> bool:
    """Take the lock of an open file, and tell whether nobody else had it."""
    if fcntl:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:  # another has it, or this disk knows no locks
            return False
    return True
