"""What the README shows runs, as it stands there."""

import re
import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BLOCKS = re.findall(r"```python\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)


@pytest.mark.parametrize("block", BLOCKS, ids=lambda block: block.splitlines()[2])
def test_every_block_of_code_runs(block, tmp_path, monkeypatch):
    shutil.copytree(ROOT / "notebooks" / "games", tmp_path / "games")
    monkeypatch.chdir(tmp_path)
    exec(compile(block, "README.md", "exec"), {})


def test_every_command_is_on_the_path_before_it_is_typed():
    text = (ROOT / "README.md").read_text("utf-8")
    prepare = text[text.index("## Prepare a lesson") :]
    assert prepare.index(". .venv/bin/activate") < prepare.index("\nchessnb draft")
    before = text[: text.index("## Prepare a lesson")]
    assert not re.search(r"(?<![\\/\w])chessnb (draft|open|verify|student)\b", before)


def test_the_readme_has_code():
    assert len(BLOCKS) >= 2
