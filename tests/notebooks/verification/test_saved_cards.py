"""Cards that were changed by hand are found in the file alone; nothing is run for it."""

from pathlib import Path

import pytest

from chessnb.findings import sealed
from chessnb.notebooks import read_notebook
from chessnb.notebooks.verification.saved_cards import check_cards, visible

NOTEBOOKS = Path(__file__).parents[3] / "notebooks"


@pytest.fixture
def demo():
    return read_notebook(NOTEBOOKS / "lantern-street.ipynb")


def outputs_of(notebook):
    for cell in notebook["cells"]:
        for output in cell.get("outputs", ()):
            if "text/html" in output.get("data", {}):
                yield output["data"]


@pytest.mark.parametrize(("name", "least"), [("lantern-street", 12), ("motifs", 40)])
def test_every_card_that_is_shipped_says_what_its_record_says(name, least):
    notebook = read_notebook(NOTEBOOKS / f"{name}.ipynb")
    assert sum(1 for _ in outputs_of(notebook)) > least
    assert check_cards(notebook) == []


def test_any_changed_word_of_any_card_is_found(demo):
    """A number, a side, a piece, a square, or any other word: each in each card that has it."""
    swaps = [("White", "Black"), ("6", "5"), ("rook", "queen"), ("e1", "e2"), ("proved", "clear")]
    tried = dict.fromkeys(swaps, 0)
    for data in outputs_of(demo):
        html = data["text/html"]
        for old, new in swaps:
            if old not in visible(html):
                continue
            at = html.rindex(old, 0, html.rindex("<!--seal"))
            data["text/html"] = f"{html[:at]}{new}{html[at + len(old) :]}"
            [complaint] = check_cards(demo)
            assert complaint.kind == "card"
            tried[old, new] += 1
        data["text/html"] = html
    assert min(tried.values()) > 0, tried


def test_a_card_of_another_finding_is_found(demo):
    first, second, *_ = outputs_of(demo)
    first["text/html"] = second["text/html"]
    assert len(check_cards(demo)) == 1


def test_a_card_without_a_seal_is_found_and_the_cell_is_named(demo):
    [index] = (
        number for number, cell in enumerate(demo["cells"])
        if cell["cell_type"] == "code" and "mates(m, within=6, " in "".join(cell["source"])
    )  # fmt: skip
    data = demo["cells"][index]["outputs"][0]["data"]
    data["text/html"] = (
        "<div class='chessnb'><p>White mates in 1 (proved).</p><!--/chessnb--></div>"
    )
    [complaint] = check_cards(demo)
    assert complaint.cell == index + 1
    assert complaint.section == "Black's 20th move"
    assert complaint.message.startswith(
        "the card was changed by hand. It says “White mates in 1 (proved).”; "
        "the finding is: 20. Nxd6 | position | "
    )


def cell(plain, html, *others):
    data = {"text/plain": plain, "text/html": html}
    return {
        "cell_type": "code", "source": "", "metadata": {},
        "outputs": [{"output_type": "execute_result", "data": data, "metadata": {}}, *others],
    }  # fmt: skip


RECORD = "21. | checkmate | rules"


@pytest.mark.parametrize(
    "made",
    [
        cell(RECORD, sealed(RECORD, "<p>Schachmatt.</p>")),  # another wording
        cell("diagram: 8/8", "<div class='chessnb'><img><!--/chessnb--></div>"),  # no finding
        cell(
            "material: level", "<div class='chessnb'><p>level</p><!--/chessnb--></div>"
        ),  # earlier
        cell("2", "<b>2</b>"),
        {"cell_type": "markdown", "source": "21. | checkmate | rules", "metadata": {}},
    ],
)
def test_what_is_no_complaint(made):
    assert check_cards({"cells": [made]}) == []


def test_the_sentence_of_an_error_belongs_to_its_card():
    wrong = RECORD.replace("rules", "wrong")
    card = sealed(wrong, "<p>A diagram.</p>", beside="“White is checkmated” is wrong.")
    error = {"output_type": "error", "ename": "FalseClaim", "evalue": wrong}
    good = {**error, "traceback": ["“White is checkmated” is wrong."]}
    bad = {**error, "traceback": ["“White is checkmated” is proved."]}
    assert check_cards({"cells": [cell(wrong, card, good)]}) == []
    [complaint] = check_cards({"cells": [cell(wrong, card, bad)]})
    assert "It says “A diagram. “White is checkmated” is proved.”" in complaint.message
