"""Files: a teacher's errors on reading; whole or not at all on writing."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest

from chessnb.errors import NotebookError
from chessnb.notebooks import (
    code_cell,
    markdown_cell,
    new_notebook,
    notebook_bytes,
    read_notebook,
    write_notebook,
)


def a_lesson(words="# The loose rook"):
    return new_notebook([markdown_cell("title", words), code_cell("one", "1 + 1")], notes={})


AS_PLAIN_USER = """
import os, sys
from chessnb.errors import NotebookError
from chessnb.notebooks import *
notebook_bytes(new_notebook([], notes={}))  # everything is imported before rights are given up
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
for act in (lambda: read_notebook(sys.argv[1]),
            lambda: write_notebook(new_notebook([], notes={}), sys.argv[1]),
            lambda: write_notebook(new_notebook([], notes={}), sys.argv[2])):
    try:
        act()
    except NotebookError as error:
        print(error.reason)
"""


def test_what_is_written_is_read_again(tmp_path):
    path = tmp_path / "größe [1] lesson.ipynb"
    write_notebook(a_lesson(), path)
    assert read_notebook(path) == a_lesson()
    assert nbformat.read(path, as_version=4) == a_lesson()  # Jupyter's own reader


def test_the_same_lesson_gives_the_same_bytes(tmp_path):
    write_notebook(a_lesson(), tmp_path / "a.ipynb")
    write_notebook(read_notebook(tmp_path / "a.ipynb"), tmp_path / "b.ipynb")
    assert (tmp_path / "a.ipynb").read_bytes() == (tmp_path / "b.ipynb").read_bytes()
    assert (tmp_path / "a.ipynb").read_bytes() == notebook_bytes(a_lesson())
    # The order in which the metadata came does not matter.
    shuffled = json.loads(notebook_bytes(a_lesson()))
    shuffled = nbformat.from_dict(dict(reversed(shuffled.items())))
    assert notebook_bytes(shuffled) == notebook_bytes(a_lesson())


def test_nothing_but_the_notebook_is_left_in_the_folder(tmp_path):
    path = tmp_path / "lesson.ipynb"
    for words in ("# One", "# Two"):
        write_notebook(a_lesson(words), path)
    assert [entry.name for entry in tmp_path.iterdir()] == ["lesson.ipynb"]
    assert read_notebook(path).cells[0].source == "# Two"


def test_permissions_and_links_are_respected(tmp_path):
    real = tmp_path / "real.ipynb"
    write_notebook(a_lesson("# One"), real)
    usual = tmp_path / "usual"
    usual.write_text("")
    assert stat.S_IMODE(real.stat().st_mode) == stat.S_IMODE(usual.stat().st_mode)
    real.chmod(0o640)
    link = tmp_path / "link.ipynb"
    link.symlink_to(real)
    write_notebook(a_lesson("# Two"), link)
    assert link.is_symlink()
    assert read_notebook(real).cells[0].source == "# Two"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


READING = [
    ("not there", None, "no such file"),
    ("text", b"1. e4 e5", "goes wrong at line 1"),
    ("cut off", notebook_bytes(a_lesson())[:200], "breaks off or goes wrong"),
    ("empty", b"", "this file is empty"),
    ("bytes", b"\xff\xfe\x00\x00\x81", "not text"),
    ("other JSON", b'{"moves": []}', "data (JSON), but not a notebook"),
    ("blank", b" \n", "this file is empty"),
    ("a list", b"[1]", "data (JSON), but not a notebook"),
    ("true", b'{"nbformat": "4", "cells": []}', "not a notebook"),
    ("old", b'{"nbformat": 3, "worksheets": []}', "old format 3"),
    ("new", b'{"nbformat": 5, "cells": []}', "format 5, newer"),
    ("no cells", b'{"nbformat": 4, "nbformat_minor": 5, "metadata": {}}', "not a notebook"),
    ("bad cell", b'{"nbformat": 4, "nbformat_minor": 5, "metadata": {}, "cells": [3]}', "open"),
    ("no metadata", b'{"nbformat": 4, "nbformat_minor": 5, "cells": []}', "could open"),
    ("bad minor", b'{"nbformat": 4, "nbformat_minor": "x", "metadata": {}, "cells": []}', "open"),
    ("deep", b"[" * 200_000, "too deep"),
]


@pytest.mark.parametrize(("name", "data", "message"), READING, ids=[case[0] for case in READING])
def test_what_cannot_be_read_is_said(tmp_path, name, data, message):
    path = tmp_path / f"{name}.ipynb"
    if data is not None:
        path.write_bytes(data)
    with pytest.raises(NotebookError) as caught:
        read_notebook(path)
    assert message in str(caught.value)
    assert str(caught.value).startswith(str(path))
    assert caught.value.path == str(path)


def test_a_folder_is_not_a_notebook(tmp_path):
    with pytest.raises(NotebookError, match="this is a folder"):
        read_notebook(tmp_path)
    with pytest.raises(NotebookError, match="this is a folder"):
        write_notebook(a_lesson(), tmp_path)


@pytest.mark.thorough
def test_a_file_that_may_not_be_read_or_written(tmp_path):
    tmp_path.chmod(0o755)
    for folder in tmp_path.parents:
        if folder.stat().st_uid == os.geteuid() and str(folder).startswith("/tmp/"):
            folder.chmod(folder.stat().st_mode | 0o055)
    path = tmp_path / "lesson.ipynb"
    write_notebook(a_lesson(), path)
    before = path.read_bytes()
    path.chmod(0o000)
    tmp_path.chmod(0o555)
    answer = subprocess.run(
        [sys.executable, "-c", AS_PLAIN_USER, path, tmp_path / "new.ipynb"],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    tmp_path.chmod(0o755)
    assert answer.stdout.splitlines() == [
        "you are not allowed to read this file.",
        "this file is write-protected.",
        f"you are not allowed to write into the folder {str(tmp_path)!r}.",
    ], answer.stderr
    path.chmod(0o644)
    assert path.read_bytes() == before


def test_a_folder_that_is_not_there(tmp_path):
    with pytest.raises(NotebookError, match=r"there is no folder .*Make it first"):
        write_notebook(a_lesson(), tmp_path / "nowhere" / "lesson.ipynb")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_leaves_the_old_file(tmp_path, monkeypatch):
    path = tmp_path / "lesson.ipynb"
    write_notebook(a_lesson("# One"), path)
    really_open = os.open

    def full(name, *rest):
        return really_open("/dev/full", os.O_WRONLY) if ".chessnb-" in str(name) else really_open(
            name, *rest
        )  # fmt: skip

    monkeypatch.setattr(os, "open", full)
    with pytest.raises(NotebookError, match="No space left"):
        write_notebook(a_lesson("# Two"), path)
    monkeypatch.undo()
    assert read_notebook(path).cells[0].source == "# One"


def test_what_would_not_be_a_notebook_is_not_written(tmp_path):
    path = tmp_path / "lesson.ipynb"
    broken = a_lesson()
    broken["cells"][0]["cell_type"] = "diagram"
    with pytest.raises(NotebookError, match="would not be a notebook"):
        write_notebook(broken, path)
    with pytest.raises(NotebookError, match="two-part character"):
        write_notebook(a_lesson("\ud800"), path)
    assert not path.exists()


def test_cells_of_an_older_notebook_get_the_same_ids_each_time(tmp_path):
    path = tmp_path / "old.ipynb"
    cells = [
        {"cell_type": "markdown", "metadata": {}, "source": ["a\n", "b"]},
        {"cell_type": "markdown", "metadata": {}, "source": "c"},
    ]
    content = {"nbformat": 4, "nbformat_minor": 4, "metadata": {}, "cells": cells}
    path.write_text(json.dumps(content))
    first, second = read_notebook(path), read_notebook(path)
    assert first == second
    assert [cell.id for cell in first.cells] == ["cell-1", "cell-2"]
    assert first.cells[0].source == "a\nb"
    nbformat.validate(first)
