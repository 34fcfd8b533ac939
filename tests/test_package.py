"""What an installed package holds."""

import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_the_wheel_brings_all_that_is_needed(tmp_path):
    copy = tmp_path / "source"
    copy.mkdir()
    tracked = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout
    for name in filter(None, tracked.split("\0")):
        if name.startswith(("chessnb/", "pyproject.toml", "README.md", "LICENSE")):
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            (copy / name).write_bytes((ROOT / name).read_bytes())
    wanted = {
        path.relative_to(copy).as_posix()
        for path in (copy / "chessnb").rglob("*")
        if path.is_file()
    }
    subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", tmp_path, copy],
        check=True,
    )  # fmt: skip
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        held = {name for name in archive.namelist() if "dist-info" not in name}
    assert wanted <= held
    assert not any(name.endswith(".c") for name in held)
    assert any(name.endswith("jupyter_server_config.d/chessnb.json") for name in held)
    assert any(name.endswith(".js") for name in held)
    assert "chessnb/py.typed" in held
