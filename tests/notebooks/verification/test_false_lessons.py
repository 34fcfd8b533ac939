"""Forty false lessons: each is listed or fails, however true the claim beside it is.

Twenty have a false sentence beside a true claim of the same section; twenty
try to have a sentence believed without a proof of it.
"""

import pytest
from notebooks.verification.test_prose_claims import READ, claim, faults
from thoroughness import some

from chessnb.notebooks import code_cell, markdown_cell, new_notebook, read_notebook, write_notebook
from chessnb.notebooks.runner import run_through
from chessnb.notebooks.verification import verify

NBD7, MATE = "11... Nbd7", "15... Nxd7"

BESIDE = [
    # the place, a true claim of it, and a sentence that is false there
    (MATE, ("mates", {"within": 2}), "White mates in five."),
    (MATE, ("mates", {"within": 2}), "It is mate in one."),
    (MATE, ("mates", {"within": 2}), "Black mates in two."),
    (MATE, ("mates", {"within": 2, "move": "Qb8+"}), "16. Rxd7 mates in two."),
    (MATE, ("mates", {"within": 2}), "Black threatens mate in one."),
    (MATE, ("mates", {"within": 2}), "White has won a rook for a bishop."),
    (MATE, ("mates", {"within": 2}), "Black is a pawn ahead."),
    (MATE, ("mates", {"within": 2}), "The knight on d7 is pinned to the king."),
    (MATE, ("mates", {"within": 2}), "White can castle kingside."),
    (MATE, ("mates", {"within": 2}), "The queen on b3 is attacked twice."),
    (NBD7, ("pinned", "d7", {}), "The knight on d7 is pinned to the queen."),
    (NBD7, ("pinned", "d7", {}), "The knight on f6 is pinned to the king."),
    (NBD7, ("pinned", "d7", {}), "The bishop on f8 is pinned."),
    (
        NBD7,
        ("pinned", "f6", {"to": "queen"}),
        "The knight on f6 is attacked by three white pieces.",
    ),
    (NBD7, ("pinned", "d7", {}), "Black has lost the right to castle queenside."),
    (NBD7, ("pinned", "d7", {}), "White has only one legal move."),
    (NBD7, ("pinned", "d7", {}), "Material is even."),
    (NBD7, ("pinned", "d7", {}), "The knight on d7 is undefended."),
    (NBD7, ("pinned", "d7", {}), "Black is in check."),
    ("16. Qb8+", ("only_legal_reply", "Nxb8", {}), "Black has two legal replies."),
]


@pytest.mark.parametrize(("where", "proved", "sentence"), BESIDE, ids=[one[2] for one in BESIDE])
def test_a_false_sentence_beside_a_true_claim_is_told(where, proved, sentence, tmp_path):
    name, *given, options = proved
    found = claim(name, *given, at=where, **options)
    assert found.record.status in ("proved", "rules", "searched")
    told = faults(f"## Here\n\n{sentence}", found, tmp_path=tmp_path, where=where)
    assert [kind for kind, _ in told] in (["wrong"], ["contradicted"], ["unproved"])


def test_the_same_claims_beside_what_is_true_list_nothing(tmp_path):
    pairs = [
        (MATE, claim("mates", within=2), "White mates in two."),
        (NBD7, claim("pinned", "d7", at=NBD7), "The knight on d7 is pinned to the king."),
        ("16. Qb8+", claim("only_legal_reply", "Nxb8", at="16. Qb8+"), "Nxb8 is the only move."),
    ]
    for where, found, sentence in pairs:
        assert faults(f"## Here\n\n{sentence}", found, tmp_path=tmp_path, where=where) == []


# -- twenty ways to be believed without a proof ------------------------------------------

FALSE = "White mates in one."
HERE = f"m = lesson.after({MATE!r})"

WAYS = {
    "nothing": HERE,
    "commented out": f"{HERE}\n# claims.mates(m, within=1)",
    "in a string": f"{HERE}\n'claims.mates(m, within=1)'",
    "under if False": f"{HERE}\nif False:\n    claims.mates(m, within=1)",
    "in a function nobody calls": f"{HERE}\ndef proof():\n    return claims.mates(m, within=1)",
    "in a lambda": f"{HERE}\nproof = lambda: claims.mates(m, within=1)",
    "try and except": (
        f"{HERE}\ntry:\n    claims.mates(m, within=1)\nexcept claims.FalseClaim:\n    pass"
    ),
    "suppressed": (
        f"import contextlib\n{HERE}\nwith contextlib.suppress(Exception):\n"
        "    claims.mates(m, within=1)"
    ),
    "printed as a record": f"{HERE}\nprint('16. | mates | white | 1 | proved')",
    "printed as a sentence": f"{HERE}\nprint('White mates in 1 (proved)')",
    "another position": f"{HERE}\nclaims.mates(lesson.after('16... Nxb8'), within=1)",
    "another number": f"{HERE}\nclaims.mates(m, within=2)",
    "another kind": f"{HERE}\nclaims.mates_or_wins(m, mate=2, at_least=1, within=1)",
    "the claim that it is refuted": f"{HERE}\nclaims.refuted(m, 'mates', within=1)",
    "a judgement of something else": f"{HERE}\nclaims.judgement('White stands well')",
    "a record made by hand": (
        f"{HERE}\nfrom chessnb.findings import Record\n"
        "Record(place='16.', kind='mates', fields=('white', '1'), status='proved')"
    ),
    "a class of one's own": (
        "class Proof:\n    def __repr__(self):\n"
        "        return '16. | mates | white | 1 | proved'\nProof()"
    ),
    "a cell that is skipped": "%%script true\nclaims.mates(lesson.after('15... Nxd7'), within=1)",
}


def page_of(title, source, *, tags=(), text=FALSE):
    cell = code_cell(f"code {title}", source)
    cell["metadata"]["tags"] = list(tags)
    return [markdown_cell(f"text {title}", f"## {title}\n\n{text}"), cell]


@pytest.fixture(scope="module")
def report(tmp_path_factory):
    """All ways in one lesson, run and saved as its author would, then checked by the real nbval."""
    folder = tmp_path_factory.mktemp("false")
    cells = [code_cell("read", READ)]
    ways = {title: WAYS[title] for title in some(WAYS, least=6)}
    for title, source in ways.items():
        cells += page_of(title, source)
    cells += page_of("raised on purpose", f"{HERE}\nclaims.mates(m, within=1)",
                     tags=["raises-exception"])  # fmt: skip
    cells += page_of("an edited card", f"{HERE}\nclaims.mates(m, within=2)", text="Look here.")
    done, _ = run_through(new_notebook(cells, notes={}), folder=folder)
    last = done["cells"][-1]["outputs"][0]["data"]
    html = "".join(last["text/html"])
    assert "White mates in 2" in html
    last["text/html"] = html.replace("White mates in 2", "White mates in 1")
    path = folder / "false.ipynb"
    write_notebook(done, path)
    assert read_notebook(path)["cells"]
    return ["raised on purpose", "an edited card", *ways], verify([path])


def test_every_way_is_listed_or_fails(report):
    titles, checked = report
    (lesson,) = checked.lessons
    told = "\n".join(checked.lines())
    missing = [title for title in titles if f"section “{title}”" not in told]
    assert missing == []
    assert lesson.exit_code != 0


def test_there_are_forty():
    assert len(BESIDE) + len(WAYS) + 2 == 40
