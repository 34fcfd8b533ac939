"""Build the wheel that holds nothing compiled: for a browser, or wherever nothing is compiled.

    python .ci/pure.py FOLDER

The same sources without their table of extension modules, so that the wheel
is ``py3-none-any``.  It gives the same answers as the compiled one, slowly.
"""

import re
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
EXTENSIONS = re.compile(r"(?m)^ext-modules = .*\n")
COMPILED = ("*.so", "*.pyd", "*.c", "__pycache__")


def copied(target: Path) -> None:
    """Copy what the wheel is made of, without what was or would be compiled."""
    shutil.copytree(ROOT / "chessnb", target / "chessnb", ignore=shutil.ignore_patterns(*COMPILED))
    for name in ("README.md", "LICENSE"):
        shutil.copy(ROOT / name, target)
    settings, found = EXTENSIONS.subn("", (ROOT / "pyproject.toml").read_text("utf-8"))
    if found != 1:
        sys.exit("pyproject.toml: its one line of ext-modules was not found")
    (target / "pyproject.toml").write_text(settings, "utf-8")


def build(folder: Path) -> Path:
    """Build the wheel into a folder, and return it."""
    with tempfile.TemporaryDirectory() as scratch:
        source, built = Path(scratch) / "source", Path(scratch) / "built"
        copied(source)
        pip = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps"]
        subprocess.run([*pip, "--wheel-dir", built, source], check=True)
        (wheel,) = built.glob("*.whl")
        check(wheel)
        folder.mkdir(parents=True, exist_ok=True)
        return Path(shutil.copy(wheel, folder))


def check(wheel: Path) -> None:
    """Refuse a wheel that is not what it should be."""
    names = zipfile.ZipFile(wheel).namelist()
    compiled = [name for name in names if name.endswith((".so", ".pyd", ".c"))]
    if compiled or not wheel.name.endswith("-py3-none-any.whl"):
        sys.exit(f"{wheel.name} is not pure: {compiled}")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("Use: python .ci/pure.py FOLDER")
    print(build(Path(sys.argv[1])))
