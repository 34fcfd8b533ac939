"""What a redraft keeps."""

from chessnb.notebooks import cell_key, code_cell, markdown_cell, new_notebook
from chessnb.notebooks.drafting.redraft import merge


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
    assert kept.in_words == "Nothing in it was yours to keep."


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
