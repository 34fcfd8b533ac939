"""What a redraft keeps."""

from chessnb.notebooks import cell_key, code_cell, markdown_cell, new_notebook
from chessnb.notebooks.drafting import Draft
from chessnb.notebooks.drafting.redraft import Kept, is_thrown_out, merge


def lesson(*cells):
    keys = [cell_key(cell) for cell in cells if cell_key(cell)]
    return new_notebook(cells, notes={"cells": keys})


def own(text):
    cell = markdown_cell("x", text)
    cell["metadata"] = {}
    cell["id"] = f"own-{len(text)}"
    return cell


def edited(key, source, now):
    cell = markdown_cell(key, source)
    cell["source"] = now
    return cell


def sources(cells):
    return [cell["source"] for cell in cells]


def test_untouched_cells_are_replaced():
    new = [markdown_cell("a", "new a"), code_cell("b", "new b")]
    merged, kept = merge(new, lesson(markdown_cell("a", "old a"), code_cell("b", "old b")))
    assert sources(merged) == ["new a", "new b"]
    assert (kept.added, kept.edited, kept.removed) == (0, 0, 0)
    assert kept.in_words == ""


def test_edited_cells_keep_their_text_and_own_cells_their_place():
    new = [markdown_cell("a", "new a"), markdown_cell("b", "new b"), markdown_cell("c", "new c")]
    old = lesson(
        own("first of all"), edited("a", "old a", "my a"), own("behind a"), own("behind a too"),
        markdown_cell("b", "old b"), own("at the end"),
    )  # fmt: skip
    merged, kept = merge(new, old)
    assert sources(merged) == [
        "first of all", "my a", "behind a", "behind a too", "new b", "at the end", "new c",
    ]  # fmt: skip
    assert (kept.added, kept.edited) == (4, 1)
    assert kept.in_words == "Kept 4 cells that you added and 1 cell that you edited."


def test_what_was_thrown_out_stays_out():
    new = [markdown_cell("a", "new a"), markdown_cell("b", "new b")]
    old = lesson(markdown_cell("a", "old a"), markdown_cell("b", "old b"), own("mine"))
    old["cells"].pop(0)
    merged, kept = merge(new, old)
    assert sources(merged) == ["new b", "mine"]
    assert kept.removed == 1
    assert "Left out 1 cell that you had removed." in kept.in_words


def test_nothing_of_the_teacher_s_is_lost_when_the_draft_has_changed():
    old = lesson(
        edited("gone", "old", "my words"), own("behind it"), markdown_cell("also gone", "x")
    )
    merged, _ = merge([markdown_cell("a", "new a")], old)
    assert sources(merged) == ["new a", "my words", "behind it"]


def test_a_copied_cell_is_the_teacher_s_own():
    drafted = markdown_cell("a", "old a")
    copy = markdown_cell("a", "old a")
    copy["id"] = "another"
    copy["source"] = "my variant of a"
    merged, kept = merge([markdown_cell("a", "new a")], lesson(drafted, copy))
    assert sources(merged) == ["new a", "my variant of a"]
    assert kept.added == 1


def test_neither_draft_nor_lesson_is_changed():
    new, old = [markdown_cell("a", "new a")], lesson(edited("a", "old a", "mine"), own("x"))
    before = str(new), str(old)
    merge(new, old)
    assert (str(new), str(old)) == before


PAGE = "with page(lesson.after('1. e4')) as m:\n    m.changes()\n    facts.material(m)"


def code(key, source, now):
    cell = code_cell(key, source)
    cell["source"] = now
    return cell


def redrafted(old, new):
    merged, kept = merge([new], lesson(old))
    return merged[0]["source"], kept


def test_a_line_that_was_added_to_a_page_stays_and_the_others_are_drafted_anew():
    mine = PAGE.replace("    facts", "    claims.legal(m, 'e5')\n    facts")
    new = PAGE + "\n    reply_table(m)"
    source, kept = redrafted(code("page", PAGE, mine), code_cell("page", new))
    assert source.splitlines()[1:] == [
        "    m.changes()",
        "    claims.legal(m, 'e5')",
        "    facts.material(m)",
        "    reply_table(m)",
    ]
    assert kept.edited == 1


def test_a_line_that_was_taken_out_of_a_page_stays_out():
    mine = PAGE.replace("    m.changes()\n", "")
    new = PAGE.replace("material", "pawns")
    source, _ = redrafted(code("page", PAGE, mine), code_cell("page", new))
    assert source.splitlines()[1:] == ["    facts.pawns(m)"]


def test_a_line_that_was_changed_stays_as_the_teacher_has_it():
    mine = PAGE.replace("material(m)", "castling(m)")
    new = PAGE.replace("material", "pawns").replace("m.changes()", "m.changes()\n    motifs.tag(m)")
    source, _ = redrafted(code("page", PAGE, mine), code_cell("page", new))
    assert source.splitlines()[1:] == [
        "    m.changes()",
        "    motifs.tag(m)",
        "    facts.castling(m)",
    ]


def test_a_word_of_the_prose_stays_and_another_paragraph_is_drafted_anew():
    old, new = "## A\n\nIt was calm.\n\nThen not.", "## B\n\nIt was calm.\n\nThen not.\n\nMore."
    source, _ = redrafted(edited("a", old, old.replace("calm", "quiet")), markdown_cell("a", new))
    assert source == "## B\n\nIt was quiet.\n\nThen not.\n\nMore."


def test_what_was_edited_is_known_again_at_the_next_redraft():
    mine = PAGE.replace("material(m)", "castling(m)")
    new = PAGE.replace("m.changes()", "m.changes()\n    motifs.tag(m)")
    merged, _ = merge([code_cell("page", new)], lesson(code("page", PAGE, mine)))
    again, kept = merge([code_cell("page", PAGE)], lesson(*merged))
    assert again[0]["source"] == mine
    assert kept.edited == 1


def test_code_that_could_not_be_read_any_more_is_left_as_the_teacher_has_it():
    mine = PAGE.split("\n")[0] + "\n    (m.changes(),\n     facts.material(m))"
    new = PAGE.replace("with page(lesson", "with page(\n    lesson")
    source, _ = redrafted(code("page", PAGE, mine), code_cell("page", new))
    compile(source, "cell", "exec")


def test_a_stop_is_thrown_out_when_its_words_and_its_page_are():
    cells = (
        markdown_cell("stop 1. e4", "x"),
        code_cell("page 1. e4", "y"),
        markdown_cell("a", "z"),
    )
    old = lesson(*cells)
    assert not is_thrown_out(old, "1. e4")
    del old["cells"][0]
    assert not is_thrown_out(old, "1. e4")
    del old["cells"][0]
    assert is_thrown_out(old, "1. e4")
    assert not is_thrown_out(old, "2. d4")


def test_a_draft_says_what_it_left_out_and_how_to_have_it(tmp_path):
    done = Draft(path=tmp_path, title="x", moves=25, stops=12, found=21)
    assert done.in_words == (
        "it stops at 12 positions. 9 other positions are worth one too: --stops 21 takes them all."
    )
    done = Draft(path=tmp_path, title="x", moves=25, stops=1, found=2, kept=Kept())
    assert done.in_words == (
        "it stops at 1 position. 1 other position is worth a stop too: --stops 2 takes them all."
    )
    done = Draft(path=tmp_path, title="x", moves=3, stops=0, found=0, kept=Kept(added=1))
    assert done.in_words == "nothing in the game asks for a stop. Kept 1 cell that you added."
