"""What belongs to a running kernel leaves the file, and nothing else does."""

import copy
import json

import nbformat
import pytest

from chessnb.notebooks import code_cell, is_lesson, new_notebook, strip_widgets, without_live_parts

VIEW = "application/vnd.jupyter.widget-view+json"
STATE = "application/vnd.jupyter.widget-state+json"


def live_lesson():
    cell = code_cell("board", "lesson.after('14. Nd5')")
    cell["execution_count"] = 1
    cell["metadata"]["execution"] = {"iopub.status.busy": "2024-01-01T00:00:00Z"}
    cell["metadata"]["tags"] = ["raises-exception"]
    cell["outputs"] = [
        {
            "output_type": "execute_result",
            "execution_count": 1,
            "data": {"text/plain": "14. Nd5", "text/html": "<b>x</b>", VIEW: {"model_id": "9f"}},
            "metadata": {VIEW: {"height": 3}, "text/html": {"isolated": True}},
        },
        {"output_type": "display_data", "data": {VIEW: {"model_id": "7a"}}, "metadata": {}},
        {"output_type": "stream", "name": "stdout", "text": "printed\n"},
    ]
    notebook = new_notebook([cell], notes={})
    notebook["metadata"]["widgets"] = {STATE: {"state": {"9f": {}}}}
    notebook["metadata"]["language_info"]["version"] = "3.11.2"
    return nbformat.from_dict(notebook)


def test_views_and_state_go_and_the_rest_stays():
    notebook = live_lesson()
    expected = copy.deepcopy(notebook)
    del expected["metadata"]["widgets"]
    first = expected["cells"][0]["outputs"][0]
    del first["data"][VIEW], first["metadata"][VIEW]
    del expected["cells"][0]["outputs"][1]
    strip_widgets(notebook)
    assert notebook == expected


def test_other_widget_metadata_stays():
    notebook = live_lesson()
    notebook["metadata"]["widgets"]["other"] = 1
    strip_widgets(notebook)
    assert notebook["metadata"]["widgets"] == {"other": 1}


def test_times_and_version_do_not_get_into_a_lessons_file():
    notebook = live_lesson()
    before = copy.deepcopy(notebook)
    kept = without_live_parts(notebook)
    assert notebook == before
    assert "execution" not in kept.cells[0].metadata
    assert kept.cells[0].metadata.tags == ["raises-exception"]
    assert "version" not in kept.metadata.language_info
    assert "model_id" not in json.dumps(kept)
    nbformat.validate(kept)


@pytest.mark.parametrize(
    ("traceback", "kept"),
    [
        (["IllegalMove: 'Nd5': no knight can go there"], None),
        (["FalseClaim: not mate", "8 . . k", "7 . . ."], None),
        (["\x1b[31mValueError\x1b[39m  Traceback (most recent call last)", "File …"], "V: v"),
        (
            ["  \x1b[36mCell\x1b[39m\x1b[36m \x1b[39m\x1b[32mIn[4]\x1b[39m\x1b[32m, line 1\x1b"],
            "V: v",
        ),
        (['  File "/home/anna/lesson.py", line 3', "SyntaxError"], "V: v"),
    ],
)
def test_a_traceback_through_this_computers_folders_is_cut_to_its_sentence(traceback, kept):
    notebook = live_lesson()
    notebook.cells[0].outputs = [
        nbformat.from_dict(
            {"output_type": "error", "ename": "V", "evalue": "v", "traceback": traceback}
        )
    ]
    saved = without_live_parts(notebook).cells[0].outputs[0]
    assert saved.traceback == (traceback if kept is None else [kept])


STRANGE = [
    {}, {"metadata": None}, {"metadata": {"widgets": 3}}, {"cells": None}, {"cells": [None, 3, {}]},
    {"cells": [{"outputs": [None, 3, {}, {"data": None}, {"data": {VIEW: {}}, "metadata": None}]}]},
]  # fmt: skip


@pytest.mark.parametrize("notebook", STRANGE)
def test_what_is_not_shaped_like_a_notebook_does_no_harm(notebook):
    strip_widgets(copy.deepcopy(notebook))
    assert not is_lesson(notebook)


def test_a_lesson_says_that_it_is_one():
    assert is_lesson(live_lesson())
    assert not is_lesson({"metadata": {"chessnb": "yes"}})
    assert not is_lesson([])
