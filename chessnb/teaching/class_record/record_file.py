"""The file of a class record: SQLite, with a rollback journal, written by many at once.

A write-ahead log needs memory that the writers share, which a school's network
drive does not give; so the journal is the old one, and a write is on the disk
before it is acknowledged.  Each call opens the file for itself and waits for
the others; what was acknowledged is there, whatever is killed meanwhile.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.teaching.class_record.kept_answers import (
    NAMES,
    ClassRecordError,
    KeptAnswer,
    read_nickname,
)
from chessnb.teaching.recall.schedule import Schedule

if TYPE_CHECKING:
    import sqlite3

VERSION = 1
"""The version of the tables; a newer one is not touched."""

PATIENCE = 30.0
"""So many seconds a call waits for those who write."""

VARIABLE = "CHESSNB_RECORD"
"""The variable of the environment that names another file."""

_TABLES = (
    """CREATE TABLE IF NOT EXISTS answers (
        id TEXT PRIMARY KEY NOT NULL, nickname TEXT NOT NULL, question TEXT NOT NULL,
        kind TEXT NOT NULL, prompt TEXT NOT NULL, fen TEXT NOT NULL, given TEXT NOT NULL,
        result TEXT NOT NULL, credit REAL NOT NULL, hints INTEGER NOT NULL,
        tries INTEGER NOT NULL, seconds REAL NOT NULL, at TEXT NOT NULL)""",
    """CREATE TABLE IF NOT EXISTS schedules (
        nickname TEXT PRIMARY KEY NOT NULL, cards TEXT NOT NULL)""",
    "CREATE TABLE IF NOT EXISTS slips (id TEXT PRIMARY KEY NOT NULL, checksum TEXT NOT NULL)",
)
_INSERT = (
    f"INSERT OR IGNORE INTO answers ({', '.join(NAMES)}) "
    f"VALUES ({', '.join(':' + name for name in NAMES)})"
)


def usual_path() -> Path:
    """Return where the record of this computer's user lies, outside of every repository."""
    named = os.environ.get(VARIABLE)
    if named:
        return Path(named)
    home = Path.home()
    if sys.platform == "win32":
        base = Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif sys.platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        base = Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share")
    return base / "chessnb" / "class-record.sqlite"


class ClassRecord:
    """What a class has answered, in one file.

    Parameters
    ----------
    path : path, optional
        The file; by default one among the user's own data.  It is made with
        the first answer.

    Raises
    ------
    ClassRecordError
        If it lies in a repository, from where answers could be published.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     len(ClassRecord(f"{folder}/record.sqlite").answers())
    0
    """

    def __init__(self, path: str | os.PathLike[str] | None = None) -> None:
        self.path = Path(os.path.abspath(usual_path() if path is None else Path(path)))
        repository = _repository_of(self.path)
        if repository is not None:
            raise ClassRecordError(
                f"{self.path} lies in the repository {repository}, from where answers could be "
                "published: choose a file outside of it"
            )

    def __repr__(self) -> str:
        return f"ClassRecord({str(self.path)!r})"

    # -- writing -------------------------------------------------------------

    def add(self, *answers: KeptAnswer) -> int:
        """Keep answers; when this returns they are on the disk.

        Returns
        -------
        int
            How many of them were new.

        Raises
        ------
        ClassRecordError
            If the file cannot be used; then none of them is kept.
        """
        with self._writing() as database:
            return _insert(database, answers)

    def add_slip(self, slip: str, checksum: str, answers: Sequence[KeptAnswer]) -> int | None:
        """Keep the answers of a slip, all or none; None if the slip was imported before.

        Raises
        ------
        ClassRecordError
            If another slip of the same name was, or the file cannot be used.
        """
        with self._writing() as database:
            known = database.execute("SELECT checksum FROM slips WHERE id = ?", (slip,)).fetchone()
            if known is not None:
                if known[0] != checksum:
                    raise ClassRecordError("another slip that calls itself the same was imported")
                return None
            database.execute("INSERT INTO slips (id, checksum) VALUES (?, ?)", (slip, checksum))
            return _insert(database, answers)

    def delete(self, nickname: str) -> int:
        """Delete a student wholly: every answer, and what the file still held of them.

        That a slip was imported is still known, by its number, so that it
        does not bring the student back.

        Returns
        -------
        int
            How many answers there were.
        """
        name = read_nickname(nickname)
        if not self.path.exists():
            return 0
        with self._writing() as database:
            gone = database.execute("DELETE FROM answers WHERE nickname = ?", (name,)).rowcount
            database.execute("DELETE FROM schedules WHERE nickname = ?", (name,))
        with self._open() as database:
            database.execute("VACUUM")
        return int(gone)

    def keep_schedule(self, nickname: str, schedule: Schedule) -> None:
        """Keep what comes back to a student, and when, in the place of what was kept before."""
        row = (read_nickname(nickname), schedule.text())
        with self._writing() as database:
            database.execute("INSERT OR REPLACE INTO schedules VALUES (?, ?)", row)

    # -- reading -------------------------------------------------------------

    def answers(self, nickname: str | None = None) -> tuple[KeptAnswer, ...]:
        """Return the answers of a student, or of all, the earliest first."""
        if not self.path.exists():
            return ()
        asked = f"SELECT {', '.join(NAMES)} FROM answers"
        with self._open() as database:
            if nickname is None:
                rows = database.execute(f"{asked} ORDER BY at, rowid").fetchall()
            else:
                rows = database.execute(
                    f"{asked} WHERE nickname = ? ORDER BY at, rowid", (read_nickname(nickname),)
                ).fetchall()
        return tuple(KeptAnswer(**dict(zip(NAMES, row, strict=True))) for row in rows)

    def nicknames(self) -> tuple[str, ...]:
        """Return who has answered, sorted."""
        return tuple(sorted({one.nickname for one in self.answers()}))

    def schedule(self, nickname: str) -> Schedule:
        """Return what comes back to a student, and when; nothing if nothing is kept."""
        if not self.path.exists():
            return Schedule()
        asked = "SELECT cards FROM schedules WHERE nickname = ?"
        with self._open() as database:
            row = database.execute(asked, (read_nickname(nickname),)).fetchone()
        return Schedule() if row is None else Schedule.read(row[0])

    def is_sound(self) -> bool:
        """Tell whether the file is whole, as SQLite checks it."""
        with self._open() as database:
            return bool(database.execute("PRAGMA integrity_check").fetchone() == ("ok",))

    # -- the file ------------------------------------------------------------

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """Open the file to write: all of it or nothing."""
        with self._open() as database:
            database.execute("BEGIN IMMEDIATE")
            try:
                yield database
            except BaseException:
                database.execute("ROLLBACK")
                raise
            database.execute("COMMIT")

    @contextmanager
    def _open(self) -> Iterator[sqlite3.Connection]:
        import sqlite3

        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with closing(self._connect()) as database:
                yield database
        except sqlite3.Error as error:
            raise ClassRecordError(f"{self.path}: {_in_words(error)}") from None
        except OSError as error:
            raise ClassRecordError(f"{self.path}: {error.strerror or error}") from None

    def _connect(self) -> sqlite3.Connection:
        """Open the file, made where it is not there yet, readable by its owner alone."""
        import sqlite3

        if not self.path.exists():
            os.close(os.open(self.path, os.O_RDWR | os.O_CREAT, 0o600))
        database = sqlite3.connect(self.path, timeout=PATIENCE, isolation_level=None)
        try:
            database.execute(f"PRAGMA busy_timeout = {int(PATIENCE * 1000)}")
            self._prepare(database)
        except BaseException:
            database.close()
            raise
        return database

    def _prepare(self, database: Any) -> None:
        version = database.execute("PRAGMA user_version").fetchone()[0]
        if version > VERSION:
            raise ClassRecordError(f"{self.path} was made by a newer version of chessnb")
        database.execute("PRAGMA journal_mode = DELETE")
        database.execute("PRAGMA synchronous = EXTRA")
        database.execute("PRAGMA secure_delete = ON")
        if version == VERSION:
            return
        database.execute("BEGIN IMMEDIATE")
        for table in _TABLES:
            database.execute(table)
        database.execute(f"PRAGMA user_version = {VERSION}")
        database.execute("COMMIT")


def _insert(database: Any, answers: Iterable[KeptAnswer]) -> int:
    return sum(database.execute(_INSERT, one.data()).rowcount for one in answers)


def _repository_of(path: Path) -> Path | None:
    """Return the repository that a file lies in, or None."""
    real = Path(os.path.realpath(path))
    return next((folder for folder in real.parents if (folder / ".git").exists()), None)


def _in_words(error: Exception) -> str:
    said = str(error)
    if "locked" in said or "busy" in said:
        return f"another program has written into it for {PATIENCE:g} seconds; try again"
    if "not a database" in said or "malformed" in said:
        return "this is not a class record, or it is damaged"
    if "readonly" in said or "unable to open" in said:
        return "it cannot be written here"
    return said
