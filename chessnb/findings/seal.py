"""Seals: whether a saved card still says what it said when it was made.

What students read is the card in ``text/html``, which nbval does not compare.
So a card carries a seal, in a comment at its end: a short text that follows
from the record and from all that the card says.  Where a card was changed by
hand, or belongs to another record, its seal does not fit any more, and
``chessnb verify`` says so.  A card that was made with another wording has the
seal of that wording, and passes.  How its pictures are drawn is left out; what
they are called for those who do not see them is not.

A seal guards against slips, not against an author who makes another: a
lesson is code, and cannot be guarded against the one who writes it.
"""

from __future__ import annotations

import hashlib
import re

OPENING, CLOSING = "<div class='chessnb'>", "<!--/chessnb--></div>"
"""What stands around all HTML that a lesson's output holds (the sanitize file matches it)."""

_CARD = re.compile(
    rf"{re.escape(OPENING)}(?P<shown>.*?)(?:<!--seal \w+-->)?{re.escape(CLOSING)}", re.DOTALL
)

_DRAWN = re.compile(r"\bsrc='[^']*'")


def fingerprint(text: str) -> str:
    """Return a short text that changes when a text does.

    Examples
    --------
    >>> fingerprint("14. Nd5") == fingerprint("14. Nd5"), fingerprint("14. Nd5") == fingerprint("")
    (True, False)
    """
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]


def sealed(plain: str, shown: str, *, beside: str = "") -> str:
    """Return the HTML of an output: what it shows, between its marks, with its seal.

    Parameters
    ----------
    plain : str
        The output's ``text/plain``: its records.
    shown : str
        HTML, escaped where it must be.
    beside : str
        What the cell shows beside it and that belongs to it: the sentence of
        an error.
    """
    seal = fingerprint("\n".join((plain, _DRAWN.sub("src", shown), beside)))
    return f"{OPENING}{shown}<!--seal {seal}-->{CLOSING}"


def is_sealed(plain: str, html: str, *, beside: str = "") -> bool:
    """Tell whether the cards in an output's HTML say just what they were made to say.

    What stands outside of them is compared by nbval.

    Examples
    --------
    >>> card = sealed("21. | mates | white | 2 | proved", "<p>White mates in 2.</p>")
    >>> is_sealed("21. | mates | white | 2 | proved", card)
    True
    >>> is_sealed("21. | mates | white | 2 | proved", card.replace("in 2", "in 1"))
    False
    """
    cards = list(_CARD.finditer(html))
    return bool(cards) and all(
        sealed(plain, card["shown"], beside=beside) == card[0] for card in cards
    )


def with_added(plain: str, html: str, more: str) -> str:
    """Return an output's HTML with something more at the end of what it shows."""
    card = _CARD.fullmatch(html)
    return html if card is None else sealed(plain, card["shown"] + more)
