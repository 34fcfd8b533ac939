"""What a claim shows in a real kernel: a finding, or a diagram and one sentence."""

import re
from pathlib import Path

import pytest

from chessnb.notebooks import code_cell, markdown_cell, new_notebook, run_notebook, write_notebook
from chessnb.notebooks.verification import verify

GAME = '[Event "Lantern Street"]\n[Result "*"]\n[SetUp "1"]\n[FEN "{fen}"]\n\n1. Ra7 Kf8 *\n'
BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
OPENING = 'from chessnb import Lesson, claims\nlesson = Lesson.read("game.pgn")'
TRUE = "claims.mates(lesson.start, within=1)"
FALSE = 'claims.mates(lesson.start, within=1, move="Ra7")'
UNPROVED = 'claims.mates("start", within=6, budget=2_000)'


def a_lesson(folder: Path, *cells: str) -> Path:
    """Write a lesson whose claims may fail, and run it."""
    (folder / "game.pgn").write_text(GAME.format(fen=BACK_RANK), encoding="utf-8")
    code = [code_cell(f"code {number}", source) for number, source in enumerate((OPENING, *cells))]
    for cell in code[1:]:
        if not cell["source"].startswith(TRUE):
            cell["metadata"]["tags"] = ["raises-exception"]
    path = folder / "lesson.ipynb"
    notebook = new_notebook([markdown_cell("title", "## The back rank"), *code], notes={})
    write_notebook(run_notebook(notebook, folder=folder), path)
    return path


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    import nbformat

    path = a_lesson(tmp_path_factory.mktemp("claims"), TRUE, FALSE, UNPROVED)
    return path, nbformat.read(path, as_version=4).cells


def test_a_claim_that_holds_is_a_record_and_a_diagram(ran):
    (output,) = ran[1][2].outputs
    assert output.data["text/plain"] == "1. | mates | white | 1 | proved"
    assert "<img src='data:image/svg+xml;base64," in output.data["text/html"]


@pytest.mark.parametrize(
    ("cell", "name", "record", "sentence", "caption"),
    [
        (3, "FalseClaim", "1. Ra7 | mates | 1 | wrong", "“White mates in 1 with 1. Ra7” is wrong: no mate in 1",
         r"After 1\. Ra7 \w+\. White to move\."),
        (4, "UnprovedClaim", "1. | mates | white | 6 | not proved", "“White mates in 6” is not proved: ",
         r"Move 1\. White to move\."),
    ],
)  # fmt: skip
def test_a_claim_that_fails_shows_a_diagram_and_one_sentence(
    ran, cell, name, record, sentence, caption
):
    shown, error = ran[1][cell].outputs
    assert shown.output_type == "display_data"
    assert shown.data["text/plain"] == record
    assert shown.data["text/html"].count("<img ") == 1
    (words,) = re.findall("<p>(.*?)</p>", shown.data["text/html"])
    assert re.fullmatch(caption, words)
    assert error.output_type == "error"
    assert error.ename == name
    assert len(error.traceback) == 1
    assert error.traceback[0].startswith(sentence)
    assert "Traceback" not in str(error.traceback)
    assert error.evalue == record


@pytest.mark.thorough
def test_nbval_agrees_with_claims_that_hold_and_with_those_that_fail_on_purpose(ran):
    report = verify([ran[0]])
    assert report.exit_code == 0, report.lines()


@pytest.mark.thorough
def test_a_claim_that_goes_stale_is_a_complaint(tmp_path):
    """The game is edited, the rook begins on b1, and the saved claim is wrong now."""
    path = a_lesson(tmp_path, TRUE)
    stale = BACK_RANK.replace("R3K3", "4K3")
    (tmp_path / "game.pgn").write_text(
        GAME.format(fen=stale).replace("1. Ra7 Kf8", "1. Kd2 Kf8"), encoding="utf-8"
    )
    report = verify([path])
    assert report.exit_code == 1
    (complaint,) = report.lessons[0].complaints
    assert "White mates in 1" in str(complaint)
    assert "is wrong: no mate in 1" in str(complaint)
