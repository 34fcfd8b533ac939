"""The source archive of the package ``chess``, whose data files are outside checks.

Fetched once by package name into ``.references/`` beside the tests; the
version is the one that is installed.
"""

import subprocess
import sys
import tarfile
from functools import cache
from importlib.metadata import version
from pathlib import Path

PLACE = Path(__file__).parents[2] / ".references"


@cache
def chess_archive() -> Path:
    """Return the unpacked archive's folder."""
    name = f"chess-{version('chess')}"
    folder = PLACE / name
    if not folder.is_dir():
        PLACE.mkdir(exist_ok=True)
        subprocess.run(
            [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary=:all:",
             f"--dest={PLACE}", f"chess=={version('chess')}"],
            check=True,
        )  # fmt: skip
        with tarfile.open(PLACE / f"{name}.tar.gz") as archive:
            archive.extractall(PLACE, filter="data")
    return folder


def game_files() -> list[Path]:
    """Return every PGN file of the archive, found by pattern; what lies there twice, once."""
    files = {path.read_bytes(): path for path in sorted(chess_archive().rglob("*.pgn"))[::-1]}
    assert len(files) >= 10, "the archive has lost its games"
    return sorted(files.values())
