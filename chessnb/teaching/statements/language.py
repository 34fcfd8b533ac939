"""What a language is to the reader: a table of words, and patterns made of them.

A sentence is read in a form in which the chess in it stands in brackets:
``⟦P0⟧ is pinned to ⟦P1⟧``.  A pattern is a regular expression over that form.
In it stand, in braces,

======  =====================================================================
{P}     a piece that is meant: "the knight on c6", "White's queen"
{O}     a piece, meant or of a kind: "the queen", "a rook", "the exchange"
{S}     a side, or a pronoun for one
{M}     a move
{Q}     a square
{L}     a file
{N}     a number; {C} a number or "once", "twice"; {T} only these
{any}   a piece, a side or a move, or a pronoun for what the sentence is about
{it}    such a pronoun; {motif} the name of a tactic
{word}  what the language's `fragments` call so
======  =====================================================================

A digit behind the letter tells several apart.  A group called ``not`` denies.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from chessnb.teaching.statements.statement import Kind

_SLOT = re.compile(r"\{([A-Za-z]+)(\d?)\}")
_TYPES = {
    "P": "P",
    "O": "PA",
    "S": "S",
    "M": "M",
    "Q": "Q",
    "L": "L",
    "N": "N",
    "C": "NT",
    "T": "T",
}
_TYPES["B"] = "PAQ"


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """One way of saying something.

    Attributes
    ----------
    kind : Kind
        What is said by it.
    form : re.Pattern
        How it looks, with a group for each part.
    fixed : mapping
        What is said whatever stands in the groups: ``what``, ``number``,
        ``negated``, and ``passive`` where the subject is the one that suffers.
    """

    kind: Kind
    form: re.Pattern[str]
    fixed: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, eq=False)
class Language:
    """The words of a language.

    Attributes
    ----------
    name : str
        As ``notation`` has it, for the letters of the pieces.
    pieces : mapping
        The pieces' names, in small letters, to their English letters; also
        those of a bishop or knight without difference ("piece": ``"m"``), the
        exchange (``"x"``) and material (``"*"``).
    plurals : frozenset of str
        Names of several pieces: which is meant, nobody can say.
    definite, indefinite : str
        Articles and what stands for them, as alternatives of an expression.
    each : str
        What makes a piece no one piece: "every", "another".
    owners : mapping
        Possessives, in small letters, to the side, or to None for "its".
    adjectives : str
        What may stand between article and piece, as alternatives.
    colours : mapping
        Adjectives that say whose a piece is.
    prepositions, of : str
        Between a piece and its square; between a piece and whose it is.
    sides : mapping
        The names of the sides and pronouns for them.
    numbers, times : mapping
        "two", "twice".
    files : str
        An expression for a file, the letter in a group.
    fillers : str
        Words that change nothing, as alternatives: "now", "simply".
    rewritten : mapping
        Expressions and what is read in their place: "isn't", "is not".
    hedges, commands, unreal : str
        Words that make a sentence no claim: anywhere, at its beginning, and
        those that put it into another world than the game's.
    denials : str
        Words that deny; outside of a pattern they make it unreadable.
    breaks : str
        Where a clause ends.
    given : str
        What leads to the position that the rest speaks of: "if", "after", "on".
    conditions : str
        What leads to a position only where a move stands behind it: "if".
    before : str
        What makes a sentence speak of the position before the move.
    suffers : str
        What makes the side that a clause names the one that is mated.
    past, perfect : str
        Verbs that speak of what was and is no more; of what has been reached.
    its : str
        Pronouns for what the sentence is about.
    takes : str
        Verbs for a capture, behind "if the king …".
    taking : str
        What is said for a capture without a subject: "taking the queen".
    qualifiers : str
        What may stand between a part and one that belongs to it: "pinned *to* the king".
    joined : mapping
        Forms in which something is said of two, and how it is said of each.
    fragments : mapping
        Parts of expressions that patterns share.
    motifs : mapping
        What tactics are called, as expressions, to their names.
    meanings : mapping
        Words of the patterns that settle knows in English: "even", "passed", "kingside".
    table : tuple
        The patterns: kind, form, and what is fixed.
    """

    name: str
    pieces: Mapping[str, str]
    plurals: frozenset[str]
    definite: str
    indefinite: str
    each: str
    owners: Mapping[str, bool | None]
    adjectives: str
    colours: Mapping[str, bool]
    prepositions: str
    of: str
    sides: Mapping[str, bool | None]
    numbers: Mapping[str, int]
    times: Mapping[str, int]
    files: str
    fillers: str
    rewritten: Mapping[str, str]
    hedges: str
    commands: str
    unreal: str
    denials: str
    breaks: str
    given: str
    conditions: str
    before: str
    suffers: str
    past: str
    perfect: str
    its: str
    takes: str
    taking: str
    qualifiers: str
    joined: Mapping[str, str]
    fragments: Mapping[str, str]
    motifs: Mapping[str, str]
    meanings: Mapping[str, str]
    table: tuple[tuple[Kind, str, Mapping[str, object]], ...]

    @cached_property
    def patterns(self) -> tuple[Pattern, ...]:
        """The patterns, the first that fits is meant."""
        return tuple(
            Pattern(kind=kind, form=self.compiled(form), fixed=fixed)
            for kind, form, fixed in self.table
        )

    def expanded(self, form: str) -> str:
        """Put groups and fragments into a form."""

        def put(match: re.Match[str]) -> str:
            name, digit = match.groups()
            if name in _TYPES:
                return rf"⟦(?P<{name}{digit}>[{_TYPES[name]}]\d+)⟧"
            if name == "any":
                return rf"(?:⟦(?P<any{digit}>[PSM]\d+)⟧|(?P<it{digit}>{self.its}))"
            if name == "it":
                return rf"(?P<it>{self.its})"
            if name == "motif":
                return rf"(?P<motif>{'|'.join(self.motifs)})"
            return self.expanded(self.fragments[name])

        return _SLOT.sub(put, form)

    def compiled(self, form: str) -> re.Pattern[str]:
        """Compile a form; a group that comes again is called ``not_1``, ``not_2``."""
        met: dict[str, int] = {}

        def named(match: re.Match[str]) -> str:
            name = match[1]
            met[name] = met.get(name, -1) + 1
            return f"(?P<{name}_{met[name]}>" if met[name] else match[0]

        whole = rf"(?<!\w)(?:{self.expanded(form)})(?!\w)"
        return re.compile(re.sub(r"\(\?P<(\w+)>", named, whole))
