"""A better sentence never turns a lesson red: a copy of the package speaks otherwise.

The copy stands on the path before the real package, in nbval's kernel and in
``verify``, as a later version of chessnb would.
"""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import chessnb
from chessnb.notebooks.verification import SANITIZE_FILE

pytestmark = pytest.mark.thorough

ROOT = Path(__file__).parents[3]

# Every room in which sentences are made, with words that both lessons show.
OTHER_WORDS = {
    "claims/sentences.py": [("mates in {", "gives mate in {"), (" loses at least ", " costs "),
                            ("{record.place} shows ", "{record.place} is an example of ")],
    "claims/claim.py": [('opening = "is wrong"', 'opening = "is not so"')],
    "claims/asked.py": [("the 50-move rule are left out", "the 50-move rule play no part")],
    "facts/_material.py": [("is {_with_articles(mine)} ahead", "is up {_with_articles(mine)}")],
    "facts/_phrases.py": [('yield f"attacks ', 'yield f"aims at '), ("gives check", "checks")],
    "verdicts/move_verdict.py": [('f"mated in {', 'f"is mated in {')],
    "verdicts/replies.py": [("nobody has proved", "it is not proved")],
    "motifs/evidence.py": [("It mates", "This mates"), ("It wins", "This wins")],
    "board/naming.py": [(" to move{", " is to move{")],
}  # fmt: skip


@pytest.fixture(scope="module")
def reworded(tmp_path_factory):
    """Return the environment of a Python that finds a chessnb with other words."""
    folder = tmp_path_factory.mktemp("reworded")
    source = Path(chessnb.__file__).parent
    shutil.copytree(source, folder / "chessnb", ignore=shutil.ignore_patterns("__pycache__", "*.c"))
    for name, pairs in OTHER_WORDS.items():
        file = folder / "chessnb" / name
        text = file.read_text(encoding="utf-8")
        for old, new in pairs:
            assert old in text, (name, old)
            text = text.replace(old, new)
        file.write_text(text, encoding="utf-8")
    return {**os.environ, "PYTHONPATH": str(folder), "PYDEVD_DISABLE_FILE_VALIDATION": "1"}


@pytest.fixture
def lessons(tmp_path):
    """Copy the lessons that are shipped, and the small one that shows a refuted claim."""
    shutil.copytree(ROOT / "notebooks", tmp_path / "notebooks")
    small = shutil.copy(ROOT / "tests" / "lessons" / "reworded.ipynb", tmp_path / "notebooks")
    return [*(tmp_path / "notebooks" / f"{name}.ipynb" for name in ("lantern-street", "motifs")), Path(small)]  # fmt: skip


def nbval(paths, environment):
    """Return how plain pytest ends, with nbval and the shipped sanitize file."""
    options = ["--nbval", "--nbval-current-env", "--nbval-sanitize-with", SANITIZE_FILE]
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *options, *paths],
        cwd=paths[0].parent, env=environment, capture_output=True, text=True, check=False, timeout=400,
    )  # fmt: skip


def command(environment, *arguments):
    return subprocess.run(
        [sys.executable, "-m", "chessnb", *map(str, arguments)],
        cwd=Path(arguments[-1]).parent,  # where no chessnb lies that would come first
        env=environment, capture_output=True, text=True, check=False, timeout=400,
    )  # fmt: skip


def outputs(path, sort):
    """Return what the cells of a lesson hold: their records, or what readers see."""
    found = []
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        for output in cell.get("outputs", ()):
            if sort == "records":
                found.append(output.get("data", {}).get("text/plain") or output.get("evalue"))
            else:
                found.append(output.get("data", {}).get("text/html") or output.get("traceback"))
    return found


def test_other_words_leave_every_lesson_green(reworded, lessons):
    done = nbval(lessons, reworded)
    assert done.returncode == 0, done.stdout[-3000:]
    verified = command(reworded, "verify", *lessons)
    assert verified.returncode == 0, verified.stdout
    assert verified.stdout.count(": verified: ") == len(lessons)


def test_other_words_change_the_cards_and_no_record(reworded, lessons):
    before = [(outputs(path, "records"), outputs(path, "cards")) for path in lessons]
    updated = command(reworded, "verify", "--update", *lessons)
    assert updated.returncode == 0, updated.stdout
    assert " change" not in updated.stdout
    for path, (records, cards) in zip(lessons, before, strict=True):
        assert outputs(path, "records") == records
        changed = [old != new for old, new in zip(cards, outputs(path, "cards"), strict=True)]
        assert sum(changed) > len(changed) / 2, path
    told = json.dumps([outputs(path, "cards") for path in lessons])
    for word in ("gives mate in 6", "is not so", "play no part", "is up", "is an example of"):  # fmt: skip
        assert word in told


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("agrees", "8/8/8/4K3 w", "8/8/8/2R1K3 w"),  # another attacker
        ("motifs", "4k3/8/2n5/1B6/3P4", "4k3/8/2n5/8/3P4"),  # a claim that is refuted now
    ],
)
def test_a_fact_that_changes_turns_a_lesson_red(tmp_path, name, old, new):
    folder = ROOT / "notebooks" if name == "motifs" else ROOT / "tests" / "lessons"
    content = json.loads((folder / f"{name}.ipynb").read_text(encoding="utf-8"))
    [cell] = (one for one in content["cells"] if old in "".join(one["source"]))
    cell["source"] = "".join(cell["source"]).replace(old, new)
    content["cells"] = content["cells"][: content["cells"].index(cell) + 5]
    path = tmp_path / "lesson.ipynb"
    path.write_text(json.dumps(content), encoding="utf-8")
    done = nbval([path], {**os.environ, "PYDEVD_DISABLE_FILE_VALIDATION": "1"})
    assert done.returncode == 1, done.stdout
    assert "Cell 1 " in done.stdout  # the cell of the fact, counted from 0
