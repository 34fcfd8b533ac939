"""What a cell's code says, read without running it."""

import ast

import pytest

from chessnb.notebooks import code_cell, markdown_cell
from chessnb.notebooks.cell_reading import lesson_read_by, reads, tried_moments, walked

GAME = '[Event "Club"]\n\n1. e4 e5 2. Nf3 Nc6 3. Bc4 *\n'
READ = "from chessnb import Lesson, page\nlesson = Lesson.read('game.pgn')"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "game.pgn").write_text(GAME)
    return tmp_path


def addresses(folder, *sources):
    cells = [markdown_cell("title", "# A lesson")]
    cells += [code_cell(f"cell {number}", source) for number, source in enumerate(sources)]
    return [moment.address for moment in tried_moments(cells, folder)]


def test_pages_that_ask_and_explorers_are_found(folder):
    asks = "with page(lesson.before('2... Nc6'), ask='find the move') as m:\n    m.changes()"
    explorer = "BranchExplorer(lesson.after('3. Bc4'))"
    assert addresses(folder, READ, asks, explorer) == ["2. Nf3", "3. Bc4"]


@pytest.mark.parametrize(
    "source",
    [
        "with page(lesson.after('2. Nf3')) as m:\n    m.changes()",  # it tells, and asks nothing
        "page(other.before('2... Nc6'), ask='find the move')",  # another lesson
        "page(lesson.before(where), ask='find the move')",  # not written out
        "page(lesson.before('9. Nc6'), ask='find the move')",  # not in the game
        "page(lesson.line('2... Nc6'), ask='find the move')",
        "page(ask='find the move')",
        "%pip install something",
        "page(",
    ],
)
def test_what_is_not_written_out_or_asks_nothing_is_left_out(folder, source):
    assert addresses(folder, READ, source) == []


def test_a_lesson_that_cannot_be_read_is_none(folder):
    calls = [node for node in walked("Lesson.read('no.pgn'); Lesson.read(name)") if reads(node)]
    assert [lesson_read_by(call, folder) for call in calls] == [None, None]
    (call,) = [node for node in walked("Lesson.from_text('1. e4 e5 *')") if reads(node)]
    assert isinstance(call, ast.Call)
    lesson = lesson_read_by(call, folder)
    assert lesson is not None
    assert lesson.end.address == "1... e5"
