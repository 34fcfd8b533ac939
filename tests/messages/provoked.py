"""The errors of files, lessons, notebooks and commands, provoked one by one.

In ``others.txt`` the margin says how a thing is tried, and the text in
quotation marks is what is tried: the content of a game file, an expression
with the names below, or a command line.
"""

import contextlib
import io
import os
import sys
import tempfile
from pathlib import Path

FILES = {
    "good.pgn": b"1. e4 e5 *\n",
    "two.pgn": b'[White "Quill"]\n\n1. e4 *\n\n[White "Sedge"]\n\n1. d4 *\n',
    "empty.pgn": b"",
    "picture.pgn": b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00",
    "letter.pgn": b"Dear colleague,\nplease find the game below.\n",
    "data.ipynb": b"{}",
    "cut.ipynb": b'{"cells": [{"cell_type":',
    "empty.ipynb": b"",
    "old.ipynb": b'{"nbformat": 3, "nbformat_minor": 0, "worksheets": [], "metadata": {}}',
    "other.ipynb": b'{"nbformat": 4, "nbformat_minor": 5, "cells": [], "metadata": {}}',
}
GAME = "1. e4 e5 2. Nf3 (2. f4 exf4) Nc6 3. Bb5 a6 4. Ba4 (4. Bxc6 dxc6) Nf6 5. O-O *"


def answer(margin, written):
    """Return the message that something raises or prints, in a folder with the files."""
    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        for name, content in FILES.items():
            Path(name).write_bytes(content)
        Path("folder").mkdir()
        return HOW[margin](written).replace(os.path.realpath(folder), "FOLDER")


def of_game_file(content):
    Path("game.pgn").write_text(content, encoding="utf-8")
    return of_expression("Lesson.read('game.pgn')")


def of_expression(text):
    error = raised_by(text)
    return "no error" if error is None else f"{type(error).__name__}: {error}"


def shown_in_notebook(text):
    """Return what a notebook shows in the place of a traceback."""
    (line,) = raised_by(text)._render_traceback_()
    return line


def raised_by(text):
    import chess

    from chessnb import (
        BranchExplorer,
        Lesson,
        LiveBoard,
        ReplyExplorer,
        charts,
        claims,
        diagram,
        facts,
        reply_table,
    )
    from chessnb.diagrams import Mark
    from chessnb.errors import ChessnbError
    from chessnb.notation import read_line, read_move, read_movetext
    from chessnb.notebooks import read_notebook

    names = {
        "chess": chess, "Lesson": Lesson, "Mark": Mark, "diagram": diagram, "facts": facts,
        "claims": claims, "charts": charts, "reply_table": reply_table, "LiveBoard": LiveBoard,
        "BranchExplorer": BranchExplorer, "ReplyExplorer": ReplyExplorer,
        "read_line": read_line, "read_move": read_move, "read_movetext": read_movetext,
        "read_notebook": read_notebook,
        "lesson": Lesson(read_movetext(GAME), title="A test"), "KINGS": "4k3/8/8/8/8/8/8/4K3 w - - 0 1",
    }  # fmt: skip
    try:
        eval(text, names)
    except ChessnbError as error:
        return error
    return None


def of_command(line):
    """Return the one line that a command prints before it ends with code 2."""
    from chessnb.cli import main

    told, arguments, code = io.StringIO(), sys.argv, None
    sys.argv = ["chessnb", *line.split()]
    try:
        with contextlib.redirect_stderr(told), contextlib.redirect_stdout(told):
            main()
    except SystemExit as end:
        code = end.code
    finally:
        sys.argv = arguments
    assert code == 2, f"{line}: {code}"
    (message,) = told.getvalue().strip().split(os.linesep)
    return message


HOW = {
    "a game file": of_game_file,
    "an expression": of_expression,
    "shown in a notebook": shown_in_notebook,
    "a command": of_command,
}
