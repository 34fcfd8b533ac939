"""Updating: what has changed is shown, and the lesson is saved; never after an error."""

import json
import os

import pytest

from chessnb.findings.record import VERSION
from chessnb.notebooks import read_notebook
from chessnb.notebooks.verification import verify


@pytest.mark.thorough
def test_changes_are_shown_and_saved_and_then_all_agrees(lesson_file):
    path = lesson_file("changed_finding")
    report = verify([path], update=True)
    assert report.lines() == [
        f"{path}: saved again, 1 change; 2 findings agree",
        "  cell 4 (section “After the knight lands on d5”): the finding changed",
        "    saved: 14. | pressure | c7 | white attackers 2: Nd5 Rc1 | black defenders 0 | rules",
        "    now:   14. | pressure | c7 | white attackers 1: Nd5 | black defenders 0 | rules",
    ]
    assert report.exit_code == 0
    assert verify([path]).lines() == [f"{path}: verified: 3 findings agree"]
    assert "traceback" not in json.dumps(report.lessons[0].changes[0].now)


@pytest.mark.thorough
def test_a_lesson_of_an_earlier_form_is_carried_over_with_nothing_to_do_by_hand(lesson_file):
    path = lesson_file("earlier_form")
    report = verify([path], update=True)
    assert report.lines() == [f"{path}: saved again, 12 findings carried over"]
    assert report.exit_code == 0
    assert verify([path]).lines() == [f"{path}: verified: 12 findings agree"]
    saved = read_notebook(path)
    assert saved["metadata"]["chessnb"]["records"] == VERSION
    (refused,) = (cell for cell in saved["cells"] if cell["source"].endswith("side='Black')"))
    assert refused["metadata"]["tags"] == ["raises-exception"]
    assert refused["outputs"][1]["evalue"] == "3... | mates | black | 1 | wrong"


@pytest.mark.thorough
def test_what_is_really_false_is_told_while_carrying_over(lesson_file):
    path = lesson_file("earlier_form_changed")
    before = path.read_bytes()
    report = verify([path], update=True)
    assert report.exit_code == 1
    (complaint,) = report.lessons[0].complaints
    assert "“White mates in 1” is wrong" in complaint.message
    assert path.read_bytes() == before
    content = json.loads(before)
    content["cells"] = [
        cell for cell in content["cells"] if "after('3... g6')" not in str(cell["source"])
    ]
    path.write_text(json.dumps(content))
    assert verify([path], update=True).lines() == [
        f"{path}: saved again, 10 findings carried over, 1 change",
        "  cell 6 (section “The threat”): the finding changed",
        "    saved: material: Black is a pawn ahead",
        "    now:   3... | material | even | rules",
    ]


@pytest.mark.thorough
def test_what_was_found_more_is_saved_and_shown(lesson_file):
    path = lesson_file("found_more")
    lines = verify([path], update=True).lines()
    assert lines[0] == f"{path}: saved again, 1 change; 0 findings agree"
    assert lines[-1] == "    now:   1. | mates | white | 2 | proved"
    assert verify([path]).ok


@pytest.mark.thorough
@pytest.mark.parametrize("name", ["changed_card", "changed_sentence"])
def test_a_card_that_was_changed_by_hand_is_made_anew_and_that_is_said(lesson_file, name):
    path = lesson_file(name)
    found = verify([path], update=True).lessons[0]
    assert found.resaved
    assert [change.kind for change in found.changes] == ["card"]
    assert verify([path]).lines() == [f"{path}: verified: 2 findings agree"]


def test_a_lesson_of_a_later_form_is_left_alone(lesson_file):
    path = lesson_file("agrees")
    content = json.loads(path.read_text())
    content["metadata"]["chessnb"]["records"] = VERSION + 1
    path.write_text(json.dumps(content))
    before = path.read_bytes()
    for update in (False, True):
        assert verify([path], update=update).lines() == [
            f"{path}: cannot be checked",
            "  saved by a later version of chessnb than this one: update chessnb",
        ]
    assert path.read_bytes() == before


@pytest.mark.thorough
def test_what_a_new_cell_gives_is_shown(lesson_file):
    path = lesson_file("not_run")
    report = verify([path], update=True)
    assert report.lines() == [
        f"{path}: saved again, 1 new finding; 2 findings agree",
        "  cell 5 (section “After the knight lands on d5”): run for the first time: 13 legal moves",
    ]
    assert report.exit_code == 0
    assert verify([path]).lines() == [f"{path}: verified: 3 findings agree"]


@pytest.mark.thorough
def test_where_nothing_was_run_before_the_new_cells_are_not_listed(lesson_file):
    path = lesson_file("no_outputs")
    notebook = json.loads(path.read_text())
    for cell in notebook["cells"]:
        if cell["cell_type"] == "code":
            cell["execution_count"] = None
    path.write_text(json.dumps(notebook))
    assert len(verify([path], update=True).lines()) == 1


def test_a_lesson_that_agrees_is_left_alone(lesson_file):
    path = lesson_file("agrees")
    before = path.stat()
    (found,) = verify([path], update=True).lessons
    assert found.lines() == [f"{path}: verified: 3 findings agree"]
    assert not found.resaved
    assert (path.stat().st_ino, path.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


@pytest.mark.thorough
@pytest.mark.parametrize("name", ["no_outputs", "changed_picture", "not_run", "cleared"])
def test_what_was_missing_or_old_is_filled_in(lesson_file, name):
    path = lesson_file(name)
    told = []
    (found,) = verify([path], update=True, on_cell=lambda *how_far: told.append(how_far)).lessons
    assert found.resaved
    assert told[-1] == (str(path), 7, 7)
    assert path.read_bytes() == lesson_file("agrees", to="other.ipynb").read_bytes()


@pytest.mark.thorough
def test_after_an_error_nothing_is_saved(lesson_file):
    path = lesson_file("illegal_move")
    before = path.read_bytes()
    (found,) = verify([path], update=True).lessons
    assert [str(complaint) for complaint in found.complaints] == [
        "cell 5 (section “After the knight lands on d5”): IllegalMoveError: illegal san: 'Nxc8' in "
        "r3k3/2p5/5p2/3N4/8/8/8/4K3 w - - 0 14. Nothing was saved"
    ]
    assert found.exit_code == 1
    assert not found.resaved
    assert path.read_bytes() == before


@pytest.mark.thorough
def test_live_parts_saved_by_hand_are_taken_out(lesson_file):
    path = lesson_file("agrees")
    content = json.loads(path.read_text())
    output = content["cells"][3]["outputs"][0]
    output["data"]["application/vnd.jupyter.widget-view+json"] = {"model_id": "1f"}
    content["cells"][3]["metadata"]["execution"] = {"iopub.status.busy": "2024-01-01"}
    content["metadata"]["language_info"]["version"] = "3.11.2"
    content["metadata"]["mine"] = "kept"
    path.write_text(json.dumps(content))
    assert verify([path]).ok  # a view that is saved does no harm to the comparison
    (found,) = verify([path], update=True).lessons
    assert (found.resaved, found.changes) == (True, ())
    saved = read_notebook(path)
    assert saved.metadata.mine == "kept"
    text = path.read_text()
    assert "model_id" not in text
    assert "2024" not in text
    assert "3.11.2" not in text


def test_what_cannot_be_read_or_run_is_a_verdict(lesson_file, tmp_path, monkeypatch):
    (tmp_path / "ipykernel_launcher.py").write_text("raise SystemExit(3)")
    monkeypatch.setenv(
        "PYTHONPATH", os.pathsep.join([str(tmp_path), os.environ.get("PYTHONPATH", "")])
    )
    report = verify([tmp_path / "none.ipynb", lesson_file("agrees")], update=True)
    assert [found.exit_code for found in report.lessons] == [2, 2]
    assert report.lessons[1].complaints[0].message.startswith("no kernel could be started")
