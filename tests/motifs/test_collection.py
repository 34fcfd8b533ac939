"""The collection of motifs: every file of a tactic, in one order, wherever the package lies."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import chessnb
from chessnb import motifs
from chessnb.motifs import tactics

FILES = sorted(Path(tactics.__file__).parent.glob("[!_]*.py"))


def test_every_file_is_a_motif_of_its_name():
    assert [path.stem for path in FILES] == sorted(
        motif.name.replace(" ", "_").replace("-", "_") for motif in motifs.MOTIFS
    )


def test_they_are_told_in_the_order_of_their_ranks():
    ranks = [motif.rank for motif in motifs.MOTIFS]
    assert ranks == sorted(set(ranks))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_file_says_what_counts_and_what_does_not(path):
    article = path.read_text(encoding="utf-8").split('"""')[1]
    parts = ["\nWhat counts\n", "\nWhat does not\n", "\nWhat shows it\n"]
    places = [article.find(part) for part in parts]
    assert -1 not in places
    assert places == sorted(places)


def test_the_collection_names_no_motif():
    folder = Path(motifs.__file__).parent
    for module in ("collection", "glossary", "motif", "near_miss", "lesson_scan"):
        text = (folder / f"{module}.py").read_text(encoding="utf-8")
        code = text.split('"""')[::2]  # doctests may name what they show
        for name in motifs.names():
            assert not any(f'"{name}"' in part for part in code), (module, name)


ASK = """
import sys
import types

# The package by itself: what the browser's half reads needs a folder, the motifs do not.
package = types.ModuleType("chessnb")
package.__path__ = [sys.argv[1] + "/chessnb"]
sys.modules["chessnb"] = package
from chessnb import motifs

print(motifs.__file__, *motifs.names(), sep="\\n")
"""


def test_they_are_found_in_a_zipped_package(tmp_path):
    """As a frozen program may have it, with no folder to look through."""
    package = Path(chessnb.__file__).parent
    archive = tmp_path / "chessnb.zip"
    with zipfile.ZipFile(archive, "w") as zipped:
        for path in package.rglob("*"):
            if path.suffix in (".py", ".json"):
                zipped.write(path, path.relative_to(package.parent))
    told = subprocess.run(
        [sys.executable, "-c", ASK, archive], capture_output=True, text=True, check=True
    ).stdout.splitlines()
    assert told[0].startswith(str(archive))
    assert told[1:] == list(motifs.names())
