"""Whether records differ only in that more was found now than is saved.

A search that did not end may end in a later version, and a mate may be found
that is faster.  Nothing in the lesson is wrong then; it only says less than
could be said.  All else is a change: another fact, a claim that is refuted,
and also an answer that is not found any more.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import zip_longest

from chessnb.findings import Record
from chessnb.findings.record_fields import number_in

_RANKS = {"not proved": 0, "searched": 1, "proved": 2}

_FOUND_NUMBERS = frozenset({"tactic", "threatens", "parries", "allows mate"})
"""The kinds whose numbers are found; in other claims they are what the teacher claims."""

_REPLIES = ("nothing found", "wins", "mates", "loses", "mated")
"""What may be found of a reply, the stronger statement behind the weaker one of the same sort."""


def found_more(saved: Sequence[Record], now: Sequence[Record]) -> bool:
    """Tell whether everything that is saved was found again, and something beyond it.

    Parameters
    ----------
    saved, now : sequence of Record
        What a cell says in the file, and what it gives now.
    """
    left = list(now)
    for record in saved:
        again = next((one for one in left if one == record or is_stronger(one, record)), None)
        if again is not None:
            left.remove(again)
        elif not _says_that_none_was_found(record):
            return False
    return list(saved) != list(now)


def _says_that_none_was_found(record: Record) -> bool:
    return record.kind == "tactic" and record.fields == ("none",)


def is_stronger(now: Record, saved: Record) -> bool:
    """Tell whether a record says what another says, and more.

    Examples
    --------
    >>> from chessnb.findings.record import read_record
    >>> lines = ("21. | mates | white | 6 | not proved", "21. | mates | white | 6 | proved")
    >>> saved, now = map(read_record, lines)
    >>> is_stronger(now, saved), is_stronger(saved, now)
    (True, False)
    """
    if now == saved or now.place != saved.place:
        return False
    if saved.kind == now.kind == "replies":
        return _stronger_replies(now, saved)
    if (saved.kind, now.kind) == ("loses", "allows mate") and saved.status == "not proved":
        return now.status == "proved"
    if now.kind != saved.kind or not _no_weaker(now.status, saved.status):
        return False
    pairs = zip_longest(saved.fields, now.fields)
    return all(_holds(old, new, saved) for old, new in pairs)


def _no_weaker(now: str, saved: str) -> bool:
    if now in _RANKS and saved in _RANKS:
        return _RANKS[now] >= _RANKS[saved]
    return now == saved


def _holds(old: str | None, new: str | None, saved: Record) -> bool:
    """Tell whether a field still holds: as it was, a stronger number, or new where all was open."""
    if old is None:
        return saved.status == "not proved"
    if new is None:
        return False
    return old == new or (saved.kind in _FOUND_NUMBERS and _stronger_number(new, old))


def _stronger_number(new: str, old: str) -> bool:
    """Tell whether a field has the unit of another and a number that says more.

    More points say more, and so do fewer moves.
    """
    unit = re.sub(r"-?\d+", "", old)
    if not re.search(r"\d", old) or re.sub(r"-?\d+", "", new) != unit:
        return False
    more = number_in(new) - number_in(old)
    return more > 0 if "points" in unit else more < 0


# -- tables of replies ---------------------------------------------------------


def _stronger_replies(now: Record, saved: Record) -> bool:
    old, new = _by_reply(saved), _by_reply(now)
    return old.keys() == new.keys() and all(
        _no_weaker_verdict(new[reply], old[reply]) for reply in old
    )


def _by_reply(record: Record) -> dict[str, str]:
    """Return what each reply comes to: ``{"Kh1": "mated 5"}``."""
    groups = (field.split(": ") for field in record.fields[1:])
    return {reply: verdict for verdict, replies in groups for reply in replies.split()}


def _no_weaker_verdict(new: str, old: str) -> bool:
    if new == old or old == "not proved":
        return True
    sorts = [_sort(verdict) for verdict in (old, new)]
    if None in sorts or (old != "nothing found" and sorts[0] == sorts[1]):
        return old != "nothing found" and _stronger_number(new, old)
    if old == "nothing found":
        return True
    return sorts in (["wins", "mates"], ["loses", "mated"])


def _sort(verdict: str) -> str | None:
    return next((sort for sort in _REPLIES if verdict.startswith(sort)), None)
