"""What an installed package holds."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
import yaml

import chessnb

pytestmark = pytest.mark.thorough

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


def test_the_pure_wheel_holds_nothing_compiled_and_all_else(tmp_path):
    done = subprocess.run(
        [sys.executable, ".ci/pure.py", tmp_path / "new folder"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    (wheel,) = (tmp_path / "new folder").iterdir()
    assert done.stdout.strip() == str(wheel)
    assert wheel.name == f"chessnb-{chessnb.__version__}-py3-none-any.whl"
    with zipfile.ZipFile(wheel) as archive:
        held = set(archive.namelist())
        (tags,) = [name for name in held if name.endswith(".dist-info/WHEEL")]
        assert "Root-Is-Purelib: true" in archive.read(tags).decode()
    tracked = subprocess.run(
        ["git", "ls-files", "chessnb"], cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout.split()
    assert set(tracked) <= held
    assert not any(name.endswith((".so", ".pyd", ".c")) for name in held)


def workflows():
    return sorted((ROOT / ".github" / "workflows").glob("*.yml"))


@pytest.mark.parametrize("path", workflows(), ids=lambda path: path.name)
def test_a_workflow_can_be_read_and_runs_what_is_there(path):
    jobs = yaml.safe_load(path.read_text("utf-8"))["jobs"]
    commands = [step["run"] for job in jobs.values() for step in job["steps"] if "run" in step]
    assert commands
    for command in commands:
        for word in command.split():
            if word.startswith(".ci/"):
                assert (ROOT / word).is_file(), command
