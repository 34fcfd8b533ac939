"""A teacher's Markdown as plain values."""

from hypothesis import given
from hypothesis import strategies as st

from chessnb.notebooks import escape
from chessnb.notebooks.markdown import plain
from chessnb.publishing.prose import Run, blocks_of


def kinds(source):
    return [(block.kind, block.text) for block in blocks_of(source)]


def test_a_drafted_page_is_read_block_by_block():
    assert kinds("# The *loose* rook\n\n**A** – B\n\n- one\n- two\n\n## End") == [
        ("heading", "The loose rook"), ("paragraph", "A – B"), ("item", "one"), ("item", "two"), ("heading", "End"),
    ]  # fmt: skip


def test_style_is_kept_and_neighbours_of_one_style_are_joined():
    (block,) = blocks_of("a **b *c*** `d` e\nf")
    assert block.runs == (
        Run(text="a "), Run(text="b ", bold=True), Run(text="c", bold=True, italic=True), Run(text=" "),
        Run(text="d", literal=True), Run(text=" e f"),
    )  # fmt: skip


def test_numbered_and_nested_lists_know_their_number_and_depth():
    blocks = blocks_of("3. three\n4. four\n   - inner\n\n     more\n5. five")
    assert [(b.kind, b.level, b.number, b.text) for b in blocks] == [
        ("item", 1, 3, "three"), ("item", 1, 4, "four"), ("item", 2, 0, "inner"), ("paragraph", 0, 0, "more"),
        ("item", 1, 5, "five"),
    ]  # fmt: skip


def test_quotes_code_rules_tables_html_links_and_pictures_leave_their_words():
    assert kinds("> said\n\n---\n\n```\na\nb\n```\n\n[word](http://x.y) ![board](b.png)\n\n<div>in <b>it</b></div>") == [
        ("quote", "said"), ("rule", ""), ("literal", "a"), ("literal", "b"), ("paragraph", "word board"),
        ("paragraph", "in it"),
    ]  # fmt: skip
    rows = blocks_of("| a | b |\n|---|---|\n| *c* | d |")
    assert [["".join(run.text for run in cell) for cell in row.cells] for row in rows] == [
        ["a", "b"],
        ["c", "d"],
    ]


@given(st.text(max_size=60))
def test_what_was_escaped_is_read_as_it_was(text):
    wanted = plain(text)
    assert "".join(block.text for block in blocks_of(f"x{escape(text)}x")) == plain(f"x{wanted}x")


@given(st.text(alphabet="#*_`>-1. []()<>\n|a\\", max_size=80))
def test_any_markdown_can_be_read(source):
    for block in blocks_of(source):
        assert "\n" not in block.text


def test_a_quote_in_quotes_in_quotes_does_not_take_for_ever():
    assert len(blocks_of(">" * 5_000 + " deep")) < 10
