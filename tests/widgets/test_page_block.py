"""A page: one cell that shows all that is found, and one error for all that is wrong."""

import json
from pathlib import Path

import nbformat
import pytest

from chessnb import Lesson, claims, facts, page
from chessnb.errors import LessonError
from chessnb.findings.gathering import PageError, close_page, open_page
from chessnb.findings.seal import is_sealed
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, run_notebook, write_notebook
from chessnb.notebooks.verification import verify

GAME = '[Event "Club"]\n[Result "*"]\n[SetUp "1"]\n[FEN "{fen}"]\n\n1. Ra8# {On the back rank.} (1. Ra7 {Too slow.}) *\n'
BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
OPENING = 'from chessnb import Lesson, claims, facts, page\nlesson = Lesson.read("game.pgn")'
TRUE = """\
with page(lesson.start, ask="find the move") as m:
    claims.mates(m, within=1)
    facts.material(m)
    claims.mates(m, within=1, move="Ra8#")"""
TWO_FALSE = """\
with page(lesson.start) as m:
    claims.mates(m, within=1, move="Ra7")
    claims.mates(m, within=1)
    claims.pinned(m, "f7", to="king")
    m.after("Ra9").changes()"""
PYTHONS = """\
with page(lesson.start) as m:
    claims.mates(m, within=1)
    1 / 0"""


def a_lesson(folder: Path, *cells: str) -> Path:
    (folder / "game.pgn").write_text(GAME.replace("{fen}", BACK_RANK), encoding="utf-8")
    code = [code_cell(f"code {number}", source) for number, source in enumerate((OPENING, *cells))]
    for cell in code[1:]:
        if cell["source"] != TRUE:
            cell["metadata"]["tags"] = ["raises-exception"]
    path = folder / "lesson.ipynb"
    notebook = new_notebook([markdown_cell("title", "## The back rank"), *code], notes={})
    write_notebook(run_notebook(notebook, folder=folder), path)
    return path


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    path = a_lesson(tmp_path_factory.mktemp("pages"), TRUE, TWO_FALSE, PYTHONS)
    return path, nbformat.read(path, as_version=4).cells


def test_a_page_is_one_output_with_a_record_for_each_finding(ran):
    (output,) = ran[1][2].outputs
    assert output.output_type == "display_data"
    assert output.data["text/plain"].splitlines() == [
        f"1. | position | {BACK_RANK} | rules",
        "1. | mates | white | 1 | proved",
        "1. | material | white R | black PPP | white 2 points | rules",
        "1. Ra8# | mates | 1 | proved",
    ]


def test_the_still_page_shows_all_beside_one_diagram_and_is_sealed(ran):
    (output,) = ran[1][2].outputs
    shown = output.data["text/html"]
    assert shown.count("<img ") == 1
    assert is_sealed(output.data["text/plain"], shown)
    for told in ("White to move. Find the move.", "1. Ra8#", "On the back rank.", "Too slow.",
                 "White mates in 1 with 1. Ra8#", "Run this cell"):  # fmt: skip
        assert told in shown


def test_all_that_is_wrong_is_told_by_one_error_behind_the_page(ran):
    shown, error = ran[1][3].outputs
    assert shown.data["text/plain"].splitlines()[1:] == [
        "1. Ra7 | mates | 1 | wrong",
        "1. | mates | white | 1 | proved",
        "1. | pinned | Pf7 | to Kg8 | wrong",
    ]
    assert error.ename == "PageError"
    assert len(error.traceback) == 1
    first, second, third = error.traceback[0].splitlines()
    assert first.startswith("“White mates in 1 with 1. Ra7” is wrong: ")
    assert "is wrong" in second
    assert "Ra9" in third
    assert error.evalue.splitlines()[:2] == [
        "1. Ra7 | mates | 1 | wrong",
        "1. | pinned | Pf7 | to Kg8 | wrong",
    ]
    assert is_sealed(shown.data["text/plain"], shown.data["text/html"], beside=error.traceback[0])


def test_an_error_of_pythons_passes_behind_what_was_found(ran):
    shown, error = ran[1][4].outputs
    assert shown.data["text/plain"].endswith("1. | mates | white | 1 | proved")
    assert error.ename == "ZeroDivisionError"


@pytest.mark.thorough
def test_nbval_agrees_with_pages(ran):
    report = verify([ran[0]])
    assert report.exit_code == 0, report.lines()


@pytest.mark.thorough
def test_two_claims_of_three_that_went_stale_are_both_named_in_one_run(tmp_path):
    """The game is edited: the rook begins on b1, and there is no mate on a8 any more."""
    path = a_lesson(tmp_path, TRUE)
    stale = BACK_RANK.replace("5ppp", "8")
    game = GAME.replace("{fen}", stale).replace("Ra8#", "Ra8+")
    (tmp_path / "game.pgn").write_text(game, encoding="utf-8")
    report = verify([path])
    (complaint,) = [one for one in report.lessons[0].complaints if one.kind == "error"]
    assert report.exit_code == 1
    assert "“White mates in 1” is wrong" in complaint.message
    assert "1. | mates | white | 1 | wrong" in complaint.message
    assert "Ra8#" in complaint.message


@pytest.mark.thorough
def test_what_verify_updates_is_a_page_again(tmp_path):
    path = a_lesson(tmp_path, TRUE)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("white 2 points", "white 3 points"), encoding="utf-8")
    assert verify([path]).exit_code == 1
    verify([path], update=True)
    assert verify([path]).exit_code == 0
    assert "widget-view" not in json.dumps(nbformat.read(path, as_version=4))


# -- without a kernel -----------------------------------------------------------


@pytest.fixture
def lesson():
    return Lesson.from_text("1. f3 e5 2. g4 Qh4#")


def test_a_script_prints_the_records(lesson, capsys):
    with page(lesson.start) as m:
        facts.material(m)
    assert [line.split(" | ")[1] for line in capsys.readouterr().out.splitlines()] == [
        "position",
        "material",
    ]


def test_after_a_page_that_failed_the_next_one_opens(lesson):
    with pytest.raises(PageError), page(lesson.start) as m:
        claims.checkmate(m)
    with page(lesson.start):
        pass
    with pytest.raises(claims.FalseClaim):
        claims.checkmate(lesson.start)


def test_a_page_within_a_page_is_refused_and_the_outer_one_told(lesson):
    with (
        pytest.raises(PageError, match="a page is open already"),
        page(lesson.start),
        page(lesson.end),
    ):
        pass
    open_page()
    close_page()


def test_what_cannot_be_asked_is_refused(lesson):
    with pytest.raises(LessonError, match="the line ends here"):
        page(lesson.end, ask="find the move")
    with pytest.raises(LessonError, match="a page asks 'find the move'"):
        page(lesson.start, ask="what is threatened")
    with pytest.raises(LessonError, match="nothing to think about: write the question"):
        page(lesson.start, ask="think")
    with pytest.raises(LessonError, match="a page shows a position of a lesson"):
        page("start")
