"""Any text stays that text when two independent renderers show it."""

import html
import re

import mistune
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from nbconvert.filters.markdown_mistune import markdown2html_mistune
from thoroughness import scaled

from chessnb.notebooks.markdown import escape, plain, unescape

COMMONMARK = MarkdownIt("commonmark").enable(["table", "strikethrough"])
GITHUB = mistune.create_markdown(
    escape=False,
    plugins=["url", "table", "strikethrough", "footnotes", "task_lists", "math", "def_list"],
)


def nbconvert(source):
    """What `jupyter nbconvert` makes of a Markdown cell, formulas included."""
    page = markdown2html_mistune(source)
    return re.sub(r'<a class="anchor-link" href="[^"]*">&#182;</a>', "", page)


RENDERERS = [COMMONMARK.render, GITHUB, nbconvert]


def seen(page):
    """The text of a page, and the names of its elements."""
    elements = re.findall(r"<[^>]*>", page)
    text = html.unescape(re.sub(r"<[^>]*>", "", page))
    return text.strip(), {element for element in elements if element != "\n"}


# Pieces of every kind of markup, so that the search meets their combinations.
PIECES = [
    *"*_`~|\\[](){}<>#+-=!:;.,$&@^'\"/%?0147 \t\n",
    "14.", "1)", "- ", "---", "===", "# ", "```", "~~~", "![", "](", "[^1]", "[ ] ", "<b>", "</b>",
    "<script>alert(1)</script>", "<!--", "-->", "<?", "<![CDATA[", "<a href='x'>", "&lt;", "&#36;",
    "&copy", "&amp;amp;", "$x$", "$$", "\\(", "\\)", "\\[", "\\]", "\\begin{equation}",
    "\\end{equation}", "\\ref{a}", "@@0@@", "http://", "https://lesson.example/a_b", "www.",
    "WWW.lesson.example", "mailto:", "anna@lesson.example", "<anna@lesson.example>", "a", "Nd5",
    "é", "馬", "\u00a0", "\u2028", "\x00", "\x07", "\x1b[31m", "\u202e", "\u2066", "\ufeff", "|-|",
    ":-:", "    ", "٣.", "it's", "\ud800", "\ufdd0", "\U0001fffe", "@",
]  # fmt: skip
markup = st.lists(st.sampled_from(PIECES), max_size=12).map("".join)
texts = st.one_of(markup, st.text(max_size=40), st.tuples(markup, st.text(max_size=9)).map("".join))


@pytest.mark.parametrize("render", RENDERERS)
@settings(max_examples=scaled(1500), deadline=None)
@given(text=texts)
def test_the_text_is_seen_as_it_is(render, text):
    shown, elements = seen(render(escape(text)))
    assert shown == plain(text)
    # A span around "$" or "\\" keeps MathJax away; nothing else is markup.
    assert elements <= {"<p>", "</p>", "<span>", "</span>"}


@pytest.mark.parametrize("render", RENDERERS)
@settings(max_examples=scaled(500), deadline=None)
@given(text=texts)
def test_the_text_is_seen_in_a_heading_and_a_list(render, text):
    heading, elements = seen(render(f"## {escape(text)}\n"))
    assert heading == plain(text)
    names = {re.sub(r"<(/?\w+).*", r"\1", element) for element in elements}
    assert names <= {"h2", "/h2", "span", "/span"}
    item, elements = seen(render(f"- {escape(text)}\n"))
    assert item == plain(text)
    assert {e.rstrip() for e in elements} <= {"<ul>", "</ul>", "<li>", "</li>", "<span>", "</span>"}


@settings(max_examples=scaled(1000), deadline=None)
@given(text=texts)
def test_what_mathjax_would_search_for_is_split(text):
    # MathJax joins no text across elements: each "$" and "\\" stands alone in one.
    page = COMMONMARK.render(escape(text))
    for run in re.split(r"<[^>]*>", page):
        words = html.unescape(run)
        assert ("$" not in words and "\\" not in words) or words in ("$", "\\")
    assert "$" not in escape(text)
    assert not re.search(r"@@\d", page)  # JupyterLab's own placeholder for a formula


@settings(max_examples=scaled(1000), deadline=None)
@given(text=texts)
def test_the_text_comes_back(text):
    assert unescape(escape(text)) == plain(text)
    assert "\n" not in escape(text)


@pytest.mark.parametrize(
    "prose",
    [
        "It's White's move, and 14. Nd5+! wins (or does it?).",
        "after 14...Kd8 15.Qxf7# the game is over: 1-0, 1/2-1/2, O-O-O, e8=Q",
        "“the bishop pair” – worth a tempo; 50% of R & B endings -> a draw",
        "Nd5 threatens Nc7+, Qh7# and so on ...",
        "Čeněk–Łucja, round 3, 馬",
    ],
)
def test_ordinary_prose_is_readable_in_the_cell(prose):
    assert escape(prose) == prose


@pytest.mark.parametrize(
    ("text", "source"),
    [
        ("14. Nd5", r"14\. Nd5"),
        ("3) third", r"3\) third"),
        ("- a dash", r"\- a dash"),
        ("a_b *c*", r"a\_b \*c\*"),
        ("# one #2", r"\# one \#2"),
        ("see https://lesson.example", r"see https:\//lesson.example"),
        ("two\nlines", "two lines"),
        ("\x00\x1b\u202e", ""),
        ("", ""),
    ],
)
def test_what_the_source_looks_like(text, source):
    assert escape(text) == source


def test_a_table_stays_one_table():
    page = COMMONMARK.render(f"| move | why |\n|---|---|\n| {escape('a|b')} | {escape('`|`')} |\n")
    assert re.findall(r"<td>(.*?)</td>", page) == ["a|b", "`|`"]
