r"""Any text, as Markdown that shows exactly that text.

A game file comes from anywhere: its tags and comments may hold Markdown,
HTML, formulas or links, by accident or on purpose.  :func:`escape` turns such
a text into Markdown source that JupyterLab and nbconvert show as the plain
text it was, while a human who opens the cell can still read it: only what
would be taken as markup is changed.

Two characters need more than a backslash.  After the Markdown is rendered,
MathJax searches the *page* for ``$…$``, ``\(…\)``, ``\[…\]`` and
``\begin{…}``, and an escaped dollar is a dollar again by then.  MathJax does
not join text across elements, so each ``$`` and each backslash gets a
``<span>`` of its own.
"""

from __future__ import annotations

import html
import re
import unicodedata

_BIDI_CONTROLS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")

_ENTITIES = {
    "`": "&#96;",
    "<": "&lt;",
    "&": "&amp;",
    "@": "&#64;",
    "$": "<span>&#36;</span>",
    "\\": "<span>&#92;</span>",
}

# What is markup anywhere in a line.  A bare address becomes a link where
# GitHub's rules hold, so "://" and "www." are broken up; "@" would make a
# mail address, and "@@0@@" is what JupyterLab puts in the place of a formula.
_ANYWHERE = re.compile(
    r"(?P<pair>@(?=@))|(?P<entity>[`<@$\\]|&(?=[#\w]))"
    r"|(?P<mark>[*_\[\]~|]|(?<!\S)#)|(?P<link>://|www\.)",
    re.IGNORECASE,
)
# What is markup only where a line begins: lists, quotes, rules, underlines of
# headings and of tables, and "14." or "14)", which would start a list.
_AT_START = re.compile(r"^(?:(?P<number>\d+)(?=[.)](?:\s|$))|(?=[-+=:>]))")

_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")
_SPAN = re.compile(r"</?span>")


def plain(text: str) -> str:
    r"""Return a text as one line that a reader sees: what :func:`escape` preserves.

    White space of every kind is folded to single spaces.  Control characters,
    halves of surrogate pairs and the characters that reverse the direction of
    writing are dropped: they can hide what a line says.

    Examples
    --------
    >>> plain("Queen\x00 takes\n\n  \u202epawn")
    'Queen takes pawn'
    """
    kept = "".join(character for character in text if _is_text(character))
    return " ".join(kept.split())


def _is_text(character: str) -> bool:
    if character.isspace():
        return True
    if unicodedata.category(character) in ("Cc", "Cs") or character in _BIDI_CONTROLS:
        return False
    code = ord(character)
    # The byte order mark, and the codes that Unicode sets aside as no characters.
    return code != 0xFEFF and not 0xFDD0 <= code <= 0xFDEF and code & 0xFFFE != 0xFFFE


def escape(text: str) -> str:
    r"""Return Markdown source that shows a text as it is, in one line.

    The result may stand at the start of a line, after a list's bullet, in a
    heading or in the cell of a table.

    Parameters
    ----------
    text : str
        Any text, from any source.

    Returns
    -------
    str
        One line of Markdown; rendered, it reads ``plain(text)`` and holds no
        link, emphasis, formula, list or HTML.

    Examples
    --------
    >>> escape("it's White's move: 14. Nd5+! (or 14.Qxf7#)")
    "it's White's move: 14. Nd5+! (or 14.Qxf7#)"
    >>> print(escape("14. Nd5 *wins* <b>"))
    14\. Nd5 \*wins\* &lt;b>
    """
    line = _ANYWHERE.sub(_escaped, plain(text))
    return _AT_START.sub(lambda found: (found["number"] or "") + "\\", line)


def _escaped(found: re.Match[str]) -> str:
    if found["pair"]:
        return f"<span>{_ENTITIES['@']}</span>"
    if found["entity"]:
        return _ENTITIES[found["entity"]]
    if found["mark"]:
        return "\\" + found["mark"]
    link = found["link"]
    return ":\\//" if link == "://" else f"{link[:-1]}\\."


def unescape(source: str) -> str:
    r"""Return the text that a line of :func:`escape` shows.

    Markup that :func:`escape` did not write is left as it stands.

    Examples
    --------
    >>> unescape(r"14\. Nd5 costs <span>&#36;</span>5")
    '14. Nd5 costs $5'
    """
    return html.unescape(_ESCAPED.sub(r"\1", _SPAN.sub("", source)))
