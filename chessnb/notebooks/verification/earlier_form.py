"""Lessons that were saved before findings had records: whether they say the same.

Until records came, a finding was compared by an English sentence.  Such a
lesson is not wrong; it only has to be saved again.  But while it is carried
over, a fact that has changed must not slip through, so the facts in the old
sentence and in the new record are compared: squares, numbers, sides, pieces
and moves, whatever the words around them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from chessnb.board.naming import NUMBERS
from chessnb.findings.record import VERSION, read_records
from chessnb.findings.record_kinds import TOKENS
from chessnb.notebooks.verification.saved_cards import visible

CLAIM_ERRORS = frozenset({"FalseClaim", "PageError", "UnprovedClaim"})
"""The errors whose message is a record."""

_ALT = re.compile(r"\balt='([^']*)'")
_HOW_FAR = re.compile(r"no mate in [0-9]+, no loss within [0-9]+ moves?|within [0-9]+ moves?")
_CLAIM = re.compile(r"“(.*?)” is not (?:so|settled): ", re.DOTALL)
_NAMES = dict(zip("KQRBNP", ("king", "queen", "rook", "bishop", "knight", "pawn"), strict=True))
_FACT = re.compile(
    rf"(?P<fen>{TOKENS['FEN'].pattern})"
    rf"|(?<!\w)(?P<move>{TOKENS['SAN'].pattern}|{TOKENS['PIECE'].pattern})(?!\w)"
    r"|(?P<letters>(?<![A-Za-z])[QRBNP]+(?![A-Za-z0-9]))"
    r"|(?P<number>\d+)|(?P<word>[A-Za-z]+)"
)


def is_of_earlier_form(notebook: Mapping[str, Any]) -> bool:
    """Tell whether a lesson does not say of itself that its outputs have today's records."""
    return _version(notebook) < VERSION


def is_of_later_form(notebook: Mapping[str, Any]) -> bool:
    """Tell whether a lesson says of itself that its records have a grammar not known here."""
    return _version(notebook) > VERSION


def _version(notebook: Mapping[str, Any]) -> int:
    """Return the version of the records' grammar that a lesson notes; 0 if it notes none."""
    notes = notebook["metadata"].get("chessnb")
    version = notes.get("records") if isinstance(notes, Mapping) else None
    return version if isinstance(version, int) else 0


def says_the_same(saved: Sequence[Mapping[str, Any]], now: Sequence[Mapping[str, Any]]) -> bool:
    """Tell whether outputs differ only in that findings have records now, and agree in the facts.

    Parameters
    ----------
    saved, now : sequence of outputs
        Of one cell, as a notebook holds them.
    """
    if len(saved) != len(now):
        return False
    differing = [
        (old, new) for old, new in zip(saved, now, strict=True) if _text(old) != _text(new)
    ]
    beside_saved, beside_now = _shown(saved), _shown(now)
    return bool(differing) and all(
        _became_a_record(old, new)
        and _facts(_claimed(old)) <= _facts(f"{_text(new)} {_counts(new)} {beside_now}")
        and _facts(_once_told(_text(new))) <= _facts(f"{_text(old)} {beside_saved}")
        for old, new in differing
    )


def _became_a_record(old: Mapping[str, Any], new: Mapping[str, Any]) -> bool:
    same_sort = old["output_type"] == new["output_type"] and old.get("ename") == new.get("ename")
    return same_sort and not read_records(_text(old)) and bool(read_records(_text(new)))


def _text(output: Mapping[str, Any]) -> str:
    """Return the text of an output in which a record may stand."""
    sort = output["output_type"]
    if sort == "stream":
        return str(output["text"]).rstrip("\n")
    if sort == "error":
        return str(output["evalue"])
    return str(output["data"].get("text/plain", ""))


def _claimed(output: Mapping[str, Any]) -> str:
    """Return what an output says of the position, without how far was looked.

    Of a refusal that is the claim, without its reason.
    """
    claim = _CLAIM.match(_text(output)) if output["output_type"] == "error" else None
    return _HOW_FAR.sub("", claim[1] if claim else _text(output))


def _counts(output: Mapping[str, Any]) -> str:
    """Return how many replies come to the same, which earlier sentences counted."""
    return " ".join(
        str(len(field.split(": ")[1].split()))
        for record in read_records(_text(output))
        if record.kind == "replies"
        for field in record.fields[1:]
    )


def _shown(outputs: Sequence[Mapping[str, Any]]) -> str:
    """Return all that outputs show beside their texts: cards, and the sentences of errors."""
    shown = [html_text for output in outputs if (html_text := _html(output))]
    errors = [line for output in outputs for line in output.get("traceback", ())]
    heard = [alt for card in shown for alt in _ALT.findall(card)]
    return " ".join((*map(visible, shown), *heard, *errors))


def _html(output: Mapping[str, Any]) -> str:
    return str(output.get("data", {}).get("text/html", ""))


def _once_told(text: str) -> str:
    """Return of records what the earlier sentences told in any case.

    They did not always name the place, spoke of material only as the side that
    is ahead has it, and chose among what a move changes.
    """
    fields = [(record.kind, field) for record in read_records(text) for field in record.fields]
    return " ".join(
        field.rpartition(" ")[2] if kind == "material" and "points" not in field else field
        for kind, field in fields
        if kind != "changes" or field.startswith(("takes", "attacks", "pins", "promotes"))
    )


def _facts(text: str) -> set[str]:
    """Return the facts that a text names, whatever its words."""
    return {fact for match in _FACT.finditer(text) for fact in _told(match)}


def _told(match: re.Match[str]) -> Iterator[str]:
    if match["fen"]:
        yield match["fen"]
    elif match["move"]:
        yield from re.findall(r"[a-h][1-8]", match["move"])
        yield from (_NAMES[letter] for letter in re.findall("[KQRBNP]", match["move"]))
    elif match["letters"]:
        yield from (_NAMES[letter] for letter in match["letters"])
    elif match["number"]:
        yield from _number(int(match["number"]))
    else:
        yield from _word(match["word"].lower())


def _number(number: int) -> Iterator[str]:
    # "A pawn ahead" has no number, and nothing at all has none.
    if number > 1:
        yield str(number)


def _word(word: str) -> Iterator[str]:
    if word in NUMBERS:
        yield from _number(NUMBERS.index(word))
    elif word in ("white", "black"):
        yield word
    elif word.removesuffix("s") in _NAMES.values():
        yield word.removesuffix("s")
