"""Sentences are backed only by what says the same and was found in this run."""

import pytest

from chessnb import Lesson, claims, motifs
from chessnb.findings.announcing import _fen_of
from chessnb.notebooks import code_cell, markdown_cell, new_notebook, write_notebook
from chessnb.notebooks.verification import verify
from chessnb.notebooks.verification.prose_claims import faulty_sentences

GAME = """
1. e4 e5 2. Nf3 d6 3. d4 Bg4 4. dxe5 Bxf3 5. Qxf3 dxe5 6. Bc4 Nf6 7. Qb3 Qe7 8. Nc3 c6 9. Bg5 b5
10. Nxb5 cxb5 11. Bxb5+ Nbd7 12. O-O-O Rd8 13. Rxd7 Rxd7 14. Rd1 Qe6 15. Bxd7+ Nxd7 16. Qb8+ Nxb8
17. Rd8# 1-0
"""
READ = f"from chessnb import Lesson, claims\n\nlesson = Lesson.from_text('''{GAME}''')"
LESSON = Lesson.from_text(GAME)


def faults(text, *found, tmp_path, where="15... Nxd7", source="", cell_type="markdown"):
    """Check one section: its text, a cell that names its position, what that cell found."""
    prose = markdown_cell("b", text)
    prose["cell_type"] = cell_type
    cells = [
        code_cell("a", READ), prose, code_cell("c", f"m = lesson.after({where!r})\n{source}"),
    ]  # fmt: skip
    told = {2: [{"record": str(one.record), "fen": _fen_of(one)} for one in found]}
    book = new_notebook(cells, notes={})
    return [
        (one.kind, one.truth or one.code)
        for one in faulty_sentences(book, folder=tmp_path, announced=told)
    ]


def claim(name, *given, at="15... Nxd7", **options):
    return getattr(claims, name)(LESSON.after(at), *given, **options)


def refused(name, *given, at="15... Nxd7", **options):
    with pytest.raises(claims.FalseClaim) as caught:
        claim(name, *given, at=at, **options)
    return caught.value


def test_a_sentence_that_a_cell_proves_is_not_listed(tmp_path):
    found = claim("mates", within=2)
    assert faults("## End\n\nWhite mates in two.", found, tmp_path=tmp_path) == []


def test_a_sentence_that_no_cell_proves_is_listed_with_the_claim_that_would(tmp_path):
    assert faults("## End\n\nWhite mates in two.", tmp_path=tmp_path) == [
        ("unproved", "claims.mates(lesson.after('15... Nxd7'), within=2)")
    ]


@pytest.mark.parametrize(
    "source",
    [
        "# claims.mates(m, within=2)",
        "'claims.mates(m, within=2)'",
        "if False:\n    claims.mates(m, within=2)",
        "print('16. | mates | white | 2 | proved')",
    ],
)
def test_source_text_proves_nothing(source, tmp_path):
    listed = faults("## End\n\nWhite mates in two.", tmp_path=tmp_path, source=source)
    assert [kind for kind, _ in listed] == ["unproved"]


def test_one_true_claim_does_not_hide_a_false_sentence(tmp_path):
    listed = faults("## End\n\nWhite mates in five.", claim("mates", within=2), tmp_path=tmp_path)
    assert listed == [("contradicted", "16. | mates | white | 2 | proved")]


def test_a_wrong_sentence_is_told_with_what_is_true(tmp_path):
    listed = faults("## End\n\nWhite mates in two. Material is even.", tmp_path=tmp_path)
    assert [kind for kind, _ in listed] == ["wrong", "unproved"]  # the wrong one first


def test_a_refuted_claim_proves_nothing_and_is_told(tmp_path):
    found = refused("mates", within=1)
    assert faults("## End\n\nThere is mate in one.", found, tmp_path=tmp_path) == [
        ("refuted", "16. | mates | white | 1 | wrong")
    ]


def test_a_claim_about_another_piece_side_or_position_backs_nothing(tmp_path):
    text = "## Pin\n\nThe knight on d7 is pinned to the king."
    there = "11... Nbd7"
    right = claim("pinned", "d7", at=there)
    assert faults(text, right, tmp_path=tmp_path, where=there) == []
    other = claim("pinned", "f6", to="queen", at=there)
    assert [kind for kind, _ in faults(text, other, tmp_path=tmp_path, where=there)] == ["unproved"]


def test_a_paragraph_of_moves_leads_on(tmp_path):
    text = "## Pins\n\n**7... Qe7 8. Nc3 c6 9. Bg5**\n\nThe knight on f6 is pinned to the queen."
    listed = faults(text, tmp_path=tmp_path, where="15... Nxd7")
    assert listed == [("unproved", "claims.pinned(lesson.after('9. Bg5'), 'f6', to='e7')")]


def test_raw_cells_are_read_and_headings_are_checked_for_what_is_wrong(tmp_path):
    assert [
        kind for kind, _ in faults("White mates in three.", tmp_path=tmp_path, cell_type="raw")
    ] == ["wrong"]
    assert [kind for kind, _ in faults("## White mates in three", tmp_path=tmp_path)] == ["wrong"]
    assert faults("## White mates in two", tmp_path=tmp_path) == []


def test_a_tactic_that_was_tagged_backs_its_name(tmp_path):
    tags = motifs.tag(LESSON.after("16. Qb8+"))
    text = "## The blow\n\nA deflection."
    assert faults(text, *tags, tmp_path=tmp_path, where="16. Qb8+") == []


def test_what_claims_and_cannot_be_read_is_listed_where_nothing_is_proved(tmp_path):
    text = "## End\n\nSomehow this wins."
    assert [kind for kind, _ in faults(text, tmp_path=tmp_path)] == ["unproved"]
    assert faults(text, claim("mates", within=2), tmp_path=tmp_path) == []


@pytest.mark.parametrize(
    "sentence",
    [
        "White castles.",
        "What is threatened?",
        "The pinnacle.",
        "See `claims.mates`.",
        "Winston waits.",
    ],
)
def test_what_claims_nothing_is_not_listed(sentence, tmp_path):
    assert faults(f"## Here\n\n{sentence}", tmp_path=tmp_path) == []


@pytest.mark.thorough
def test_verify_asks_the_library_what_it_found_in_this_run(tmp_path):
    """What is commented out, printed, refuted or caught proves nothing; a claim that ran does."""
    reading = code_cell("a", READ)
    told = [
        markdown_cell("t1", "## One\n\nWhite mates in two."),
        code_cell("c1", "m = lesson.after('15... Nxd7')\nclaims.mates(m, within=2)"),
        markdown_cell("t2", "## Two\n\nWhite mates in two."),
        code_cell("c2", "m = lesson.after('15... Nxd7')\n# claims.mates(m, within=2)"),
        markdown_cell("t3", "## Three\n\nThere is mate in one."),
        code_cell(
            "c3",
            "m = lesson.after('15... Nxd7')\ntry:\n    claims.mates(m, within=1)\n"
            "except claims.FalseClaim:\n    pass",
        ),
    ]
    book = new_notebook([reading, *told], notes={})
    write_notebook(book, tmp_path / "lesson.ipynb")
    verify([tmp_path / "lesson.ipynb"], update=True)
    report = verify([tmp_path / "lesson.ipynb"]).lessons[0]
    assert report.exit_code == 0
    assert [(note.kind, note.cell) for note in report.notes] == [
        ("wrong-sentence", 6),
        ("unproved", 4),
    ]
    assert "refuted by a cell" in report.notes[0].message


def test_what_the_games_own_moves_show_needs_no_cell(tmp_path):
    pinned = "The bishop on b5 pins the knight on d7 to the king on e8."
    assert faults(f"## End\n\n**11... Nbd7**\n\n{pinned}", tmp_path=tmp_path) == []


def test_what_they_do_not_show_needs_one_as_before(tmp_path):
    pinned = "The bishop on b5 pins the knight on f6 to the king on e8."
    found = faults(f"## End\n\n**11... Nbd7**\n\n{pinned}", tmp_path=tmp_path)
    assert [kind for kind, _ in found] == ["wrong"]


OPINION = "White is much easier to play and wins by itself."


def test_a_sentence_that_is_marked_as_a_judgement_is_only_counted(tmp_path):
    text = f"## End\n\n{OPINION}"
    assert [kind for kind, _ in faults(text, tmp_path=tmp_path)] == ["unproved"]
    marked = claims.judgement("White is much easier to play, and wins by itself")
    assert faults(text, marked, tmp_path=tmp_path) == [("judgement", "")]
    other = claims.judgement("Black is easier to play")
    assert [kind for kind, _ in faults(text, other, tmp_path=tmp_path)] == ["unproved"]


def test_a_judgement_that_is_wrong_or_contradicted_is_told_all_the_same(tmp_path):
    marked = claims.judgement("White mates in five")
    text = "## End\n\nWhite mates in five."
    assert [kind for kind, _ in faults(text, marked, tmp_path=tmp_path)] == ["wrong"]
    proved = claim("mates", within=2)
    assert [kind for kind, _ in faults(text, marked, proved, tmp_path=tmp_path)] == ["contradicted"]


def test_the_tag_of_a_cell_marks_its_sentences(tmp_path):
    prose = markdown_cell("b", f"## End\n\n{OPINION} White mates in five.")
    prose["metadata"]["tags"] = ["judgement"]
    book = new_notebook(
        [code_cell("a", READ), prose, code_cell("c", "m = lesson.after('15... Nxd7')")], notes={}
    )
    listed = faulty_sentences(book, folder=tmp_path, announced={})
    assert [one.kind for one in listed] == ["wrong", "judgement"]
