"""A difference is said with the finding first, and only where there is one."""

import pytest
from nbval.plugin import get_sanitize_patterns

from chessnb.findings import CLOSING, OPENING
from chessnb.notebooks.verification.output_difference import SANITIZE_FILE, difference


def result(text, **others):
    data = {"text/plain": text, **{name.replace("_", "/"): value for name, value in others.items()}}
    return {"output_type": "execute_result", "data": data, "metadata": {}, "execution_count": 1}


def printed(text, name="stdout"):
    return {"output_type": "stream", "name": name, "text": text}


def error(name, value):
    return {"output_type": "error", "ename": name, "evalue": value, "traceback": ["machine"]}


VIEW = {"application/vnd.jupyter.widget-view+json": {"model_id": "1"}}


@pytest.mark.parametrize(
    ("saved", "now"),
    [
        ([], []),
        ([result("a")], [result("a")]),
        ([printed("a\n"), printed("b\n")], [printed("a\nb\n")]),
        ([result("a")], [result("a") | {"execution_count": 9, "metadata": {"x": 1}}]),
        ([result("a", image_png="1")], [result("a", image_png="2")]),
        ([error("A", "b")], [error("A", "b") | {"traceback": ["other machine"]}]),
        (
            [result("a", text_html=f"{OPENING}one\nline{CLOSING}")],
            [result("a", text_html=f"{OPENING}two{CLOSING}")],
        ),
        ([result("a")], [{**result("a"), "data": {"text/plain": "a", **VIEW}}]),
    ],
)
def test_what_agrees(saved, now):
    assert difference(saved, now) is None


@pytest.mark.parametrize(
    ("saved", "now", "message", "texts"),
    [
        ([result("a")], [result("b")], "the finding changed", ("a", "b")),
        ([result("a", text_html="x")], [result("b", text_html="y")], "the finding", ("a", "b")),
        ([result("a")], [], "the finding changed", ("a", "(nothing)")),
        ([], [printed("a\n")], "what the cell prints changed", ("(nothing)", "a")),
        ([printed("a\n")], [printed("a\nb\n")], "prints", ("line 2: (no such line)", "line 2: b")),
        ([], [printed("x", "stderr")], "the warnings", ("(nothing)", "x")),
        ([result("a", text_html="x")], [result("a", text_html="y")], "HTML changed", ("x", "y")),
        ([error("A", "b")], [error("A", "c")], "the error", ("A: b", "A: c")),
        ([error("A", "b")], [result("b")], "the error", ("A: b", "(nothing)")),
        ([result("a", text_latex="1")], [result("a", text_latex="2")], "text/latex", ("1", "2")),
        ([result("a"), result("b")], [result("b"), result("a")], "the finding",
         ("line 1: a", "line 1: b")),
    ],
)  # fmt: skip
def test_what_differs(saved, now, message, texts):
    found = difference(saved, now)
    assert message in found.message
    assert (found.saved, found.now) == texts


def test_long_lines_are_shown_around_their_difference():
    found = difference([result("a" * 900 + "X" + "b" * 900)], [result("a" * 900 + "Y" + "b" * 900)])
    assert found.saved == "…" + "a" * 40 + "X" + "b" * 159 + "…"
    assert found.now == found.saved.replace("X", "Y")


def test_nbval_reads_one_pattern_from_the_file():
    # nbval's own reader of the file, so that a slip in its form cannot switch it off silently.
    assert get_sanitize_patterns(SANITIZE_FILE.read_text()) == [
        (r"(?s)<div class='chessnb'>.*?<!--/chessnb-->", "<div class='chessnb'><!--/chessnb-->")
    ]
