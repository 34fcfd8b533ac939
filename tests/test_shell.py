"""What is printed to be typed: a shell takes it apart into the words that were meant."""

import os
import shlex
import subprocess
from pathlib import Path

import pytest

from chessnb.shell import typed

NAMES = [
    "fork.ipynb",
    "my lessons/fork.ipynb",
    "it's",
    'a "b"',
    "$HOME",
    "`ls`",
    "größe ♞.pgn",
    "(1)&;",
]


@pytest.mark.parametrize("name", NAMES)
def test_words_come_back_as_they_were(name):
    assert shlex.split(typed("chessnb", "open", Path(name), windows=False)) == [
        "chessnb", "open", name,
    ]  # fmt: skip


@pytest.mark.skipif(os.name != "posix", reason="the shell of POSIX systems")
@pytest.mark.parametrize("name", NAMES)
def test_a_real_shell_agrees(name):
    told = subprocess.run(
        typed("printf", "%s", name, windows=False), shell=True, capture_output=True, check=True
    ).stdout
    assert told.decode() == name


@pytest.mark.parametrize(
    ("name", "quoted"),
    [
        ("C:\\lessons\\fork.ipynb", "C:\\lessons\\fork.ipynb"),
        ("C:\\my lessons\\fork.ipynb", '"C:\\my lessons\\fork.ipynb"'),
        ("größe.pgn", "größe.pgn"),
        ("round (1).pgn", '"round (1).pgn"'),
        ("it's.pgn", '"it\'s.pgn"'),
        ("$5 it's.pgn", "'$5 it''s.pgn'"),
        ("", '""'),
    ],
)
def test_on_windows(name, quoted):
    assert typed("open", name, windows=True) == f"open {quoted}"
