"""Prose as HTML, in which a text is a text."""

from hypothesis import given
from hypothesis import strategies as st

from chessnb.notebooks import escape
from chessnb.notebooks.markdown import plain
from chessnb.publishing.block_html import blocks_html, card_html
from chessnb.publishing.card_text import Card, Picture, card_of
from chessnb.publishing.prose import blocks_of


def test_every_kind_of_block_has_its_element():
    source = "# a\n\n**b** *c* `d`\n\n1. e\n2. f\n\n- g\n  - h\n\n> i\n\n```\nj\n```\n\n---\n\n| k | l |\n|---|---|\n| m | n |"
    assert blocks_html(blocks_of(source)) == (
        '<h1>a</h1><p><b>b</b> <i>c</i> <code>d</code></p><ol start="1"><li class="deep1">e</li><li class="deep1">f</li></ol>'
        '<ul><li class="deep1">g</li><li class="deep2">h</li></ul><blockquote>i</blockquote><pre><code>j</code></pre><hr>'
        "<table><tr><td>k</td><td>l</td></tr><tr><td>m</td><td>n</td></tr></table>"
    )


def test_a_card_keeps_its_words_and_its_picture():
    html = card_html(Card(paragraphs=("a < b",), pictures=(Picture(svg="<svg/>", words='"x"'),)))
    assert (
        html == '<img alt="&quot;x&quot;" src="data:image/svg+xml;base64,PHN2Zy8+"><p>a &lt; b</p>'
    )


@given(st.text(alphabet="<>&\"'/scriptonerrorimg= a!-", min_size=1, max_size=60))
def test_a_text_is_read_as_it_is(text):
    html = blocks_html(blocks_of(f"x{escape(text)}x"))
    assert card_of(html).paragraphs == (f"x{plain(text)}x",)
    assert html.count("<") == 2
