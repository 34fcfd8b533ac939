"""Splitting a comment into sentences: a full stop behind a move number ends none."""

from __future__ import annotations

import re
from collections.abc import Iterator

_MOVE = re.compile(r"(?:\d+\s*\.+\s*)?(?:[A-Z]?[a-h]?[1-8]?[x:-]?[a-h][1-8]|[O0]-[O0])")
_END = re.compile(r"(?P<mark>[.!?…]+)[\"')\]”’*_]*(?P<gap>\s+|$)|\n\s*\n")
_LEADS = re.compile(
    r"(?:But |And |Now |Aber |Und )?"
    r"(?:[Ww]ith|[Aa]fter|[Ii]f|[Oo]n|[Bb]y|[Ff]ollowing|Mit|Nach|Auf) "
    rf"(?:{_MOVE.pattern}[+#]?[!?]*\s*)+"
)
_MARKUP = re.compile(r"\*\*|__|(?<!\w)[*_](?=\w)|(?<=\w)[*_](?!\w)|`")


def sentences(text: str) -> Iterator[str]:
    """Yield the sentences of a text, white space folded.

    Examples
    --------
    >>> list(sentences("It is mate in six. After 22. Kh1 comes 22... Qxf1#. Why? See 14. Nd5!"))
    ['It is mate in six.', 'After 22. Kh1 comes 22... Qxf1#.', 'Why?', 'See 14. Nd5!']
    """
    text = plain(text)
    begun = 0
    for end in _END.finditer(text):
        if end["mark"] is None or (
            _ends(text, end) and not _LEADS.fullmatch(text[begun : end.start()].strip())
        ):
            if said := " ".join(text[begun : end.end()].split()):
                yield said
            begun = end.end()
    if said := " ".join(text[begun:].split()):
        yield said


def plain(text: str) -> str:
    """Return a text without marks for emphasis, and with one sort of apostrophe."""
    return _MARKUP.sub("", text).replace("’", "'").replace("‘", "'")


def _ends(text: str, end: re.Match[str]) -> bool:
    """Tell whether what looks like the end of a sentence is one."""
    before, after = text[: end.start()], text[end.end() :]
    if not after:
        return True
    if _MOVE.match(after):
        # "14. Nd5", "25. Qxa4! Nxa4": a move goes on, unless a word stands before the stop.
        return bool(re.search(r"[^\W\d_]{3,}$", before)) or (
            bool(re.search(r"[1-8][+#]?$", before)) and bool(re.match(r"\d", after))
        )
    return not after[0].islower()
