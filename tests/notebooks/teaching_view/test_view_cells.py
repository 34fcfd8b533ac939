"""What stands on the page of a lesson, in its margin, and in the place of an error."""

import nbformat
import pytest

from chessnb.notebooks import code_cell, escape, markdown_cell, new_notebook
from chessnb.notebooks.teaching_view.view_cells import Faults, contents, heading_text, prepare


def error(name, value, *traceback):
    return nbformat.v4.new_output("error", ename=name, evalue=value, traceback=list(traceback))


@pytest.mark.parametrize("text", ["After 7. Re1", "1. e4 *e5*", "a_b_c $5 <b>", "Qxf7# & more"])
def test_a_heading_reads_as_it_was_written(text):
    assert heading_text(escape(text)) == text


def test_headings_are_found_and_code_is_none():
    source = "# One\n\n```\n## no\n```\n\n## Two ##\n\n### three"
    cells = [code_cell("c", "# not this"), markdown_cell("m", source)]
    assert list(contents(cells)) == [(1, 1, "One"), (1, 2, "Two")]


def test_the_words_about_running_go_and_the_boards_are_counted():
    cells = [
        markdown_cell("title", "# T"), markdown_cell("how to use", "Run."),
        code_cell("lesson", "1"), markdown_cell("stop", "## S"), code_cell("page", "2"),
    ]  # fmt: skip
    prepared = prepare(None, notebook=new_notebook(cells, notes={}), cwd="")
    assert [cell.source for cell in prepared.cells] == ["# T", "1", "## S", "2"]
    view = prepared.metadata.chessnb_view
    assert (view.title, view.boards, view.contents) == ("T", 1, [{"cell": 2, "text": "S"}])


def test_what_follows_from_a_failure_is_not_told_again():
    fault = Faults()
    missing = error("NameError", "name 'm' is not defined")
    assert fault(missing) == "There is nothing called “m” here."
    assert fault(missing) == ""
    assert fault(error("ValueError", "no")) == "ValueError: no."


def test_what_is_wrong_with_a_page_does_not_tell_its_answer():
    said = Faults()(error("PageError", "20... | mates | black | 6 | wrong", "20... Nf3+ no."))
    assert "Nf3" not in said
    assert "chessnb verify" in said
