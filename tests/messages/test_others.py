"""What is said of files, lessons, notebooks and commands that cannot be used."""

import contextlib
import io

import chess
import pytest
from IPython.core.interactiveshell import InteractiveShell
from traitlets.config import Config

from messages import frozen, provoked

OTHERS = frozen.read("others.txt")


@pytest.mark.parametrize("entry", OTHERS, ids=lambda entry: f"{entry.heading}: {entry.written}")
def test_the_message_is_frozen(entry):
    assert provoked.answer(entry.margin, entry.written) == entry.answer


def test_no_message_names_python_or_this_computer():
    for entry in OTHERS:
        for word in ("Traceback", "object at 0x", "NoneType", "site-packages", "/tmp/"):
            assert word not in entry.answer


def test_ipython_shows_the_sentence_alone():
    shell = InteractiveShell(config=Config({"HistoryManager": {"enabled": False}}))
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        ran = shell.run_cell("from chessnb.notation import read_move; read_move('start', 'Bg5')")
    assert printed.getvalue() == f"{ran.error_in_exec.shown}\n"
    # What the check of lessons compares keeps the kind and the position.
    assert type(ran.error_in_exec).__name__ == "IllegalMove"
    assert str(ran.error_in_exec).endswith(
        "[rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1]"
    )


@pytest.mark.parametrize(
    "entry",
    [entry for entry in OTHERS if entry.margin == "shown in a notebook"],
    ids=lambda entry: entry.written,
)
def test_a_position_that_can_be_played_is_shown_in_words_and_another_as_it_was_given(entry):
    error = provoked.raised_by(entry.written)
    given = getattr(error, "fen", None) or getattr(error, "given", None)
    assert not entry.answer.startswith(type(error).__name__)
    if hasattr(error, "fen"):
        board = chess.Board(given)
        side = "White" if board.turn else "Black"
        assert entry.answer.endswith(f". {side} to move, move {board.fullmove_number}.")
        assert given not in entry.answer
    elif given is not None:
        assert given in entry.answer
