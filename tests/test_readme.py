"""What the README shows runs, as it stands there."""

import re
import shutil
from pathlib import Path

import pytest

from chessnb.search.compiled_core import TIMES_SLOWER

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
BLOCKS = re.findall(r"```python\n(.*?)```", README, re.DOTALL)


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
    assert not re.search(
        r"(?<![\\/\w])chessnb (draft|open|teach|verify|student|print|page)\b", before
    )


def test_one_number_says_how_slow_it_is_without_a_compiler():
    assert f"takes about {TIMES_SLOWER}\ntimes as long" in README
    others = [path for path in (ROOT / "chessnb").rglob("*.py") if path.name != "compiling.py"]
    for path in (ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / ".ci" / "try", *others):
        text = path.read_text("utf-8").replace(f"about {TIMES_SLOWER}\ntimes", "")
        assert not re.search(r"(\d+|fifty|eighty)\s+times\s+(as\s+(long|slow)|slower)", text), path


def test_the_first_command_is_the_script_that_is_there():
    first = re.findall(r"```sh\n(.*?)```", README, re.DOTALL)[0].split()
    assert first == ["bash", ".ci/try"]
    assert (ROOT / ".ci" / "try").is_file()


def test_the_readme_has_code():
    assert len(BLOCKS) >= 2


def test_every_picture_is_there_is_shown_and_is_small():
    shown = re.findall(r"!\[(.+?)\]\((.+?)\)", README)
    assert all(words.endswith(".") for words, _ in shown), "what it shows, in a sentence"
    pictures = set((ROOT / "notebooks" / "pictures").iterdir())
    assert {ROOT / place for _, place in shown} == pictures
    sizes = [path.stat().st_size for path in pictures]
    assert max(sizes) < 150_000
    assert sum(sizes) < 1_000_000
