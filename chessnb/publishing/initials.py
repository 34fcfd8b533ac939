"""Players' names cut to initials, for a page that leaves the classroom."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

_SHORTEST = 3
"""A part of a name with fewer letters stands in too many other words."""

_TITLES = {"jr", "sr", "von", "van", "der", "den", "the"}


class Initials:
    """Writes initials where names stand.

    Parameters
    ----------
    names : iterable of str
        Players, as ``"Orsolya Pellwick"`` or ``"Pellwick, Orsolya"``.

    Examples
    --------
    >>> Initials(["Pellwick, Orsolya"]).text("Orsolya Pellwick's plan; Pellwick won.")
    "O. P.'s plan; P. won."
    """

    def __init__(self, names: Iterable[str]) -> None:
        self._short: dict[str, str] = {}
        for name in names:
            parts = re.findall(r"[^\W\d_]+(?:['’-][^\W\d_]+)*", name)
            if not parts:
                continue
            self._short[name] = _initials(_in_order(name))
            self._short[_in_order(name)] = _initials(_in_order(name))
            for part in parts:
                if len(part) >= _SHORTEST and part.casefold() not in _TITLES:
                    self._short[part] = f"{part[0]}."
        longest = sorted(self._short, key=len, reverse=True)
        names_in_text = "|".join(map(re.escape, longest))
        self._names = re.compile(rf"(?<!\w)(?:{names_in_text})(?!\w)") if longest else None

    def text(self, text: str) -> str:
        """Return a text with initials in the place of names."""
        if self._names is None:
            return text
        return self._names.sub(lambda found: self._short[found.group()], text)

    def everywhere(self, value: Any) -> Any:
        """Return values as JSON has them, with initials in each of their texts."""
        if isinstance(value, str):
            return self.text(value)
        if isinstance(value, Mapping):
            return {key: self.everywhere(one) for key, one in value.items()}
        if isinstance(value, list | tuple):
            return [self.everywhere(one) for one in value]
        return value


def _in_order(name: str) -> str:
    """Put the family name last."""
    family, comma, given = name.partition(",")
    return f"{given.strip()} {family.strip()}".strip() if comma else name


def _initials(name: str) -> str:
    return " ".join(f"{part[0]}." for part in re.findall(r"[^\W\d_][\w'’-]*", name))
