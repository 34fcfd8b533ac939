"""Material as people put it: "rook, two bishops and a pawn for the queen", "a piece down"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.naming import NUMBERS
from chessnb.facts import Material

MINOR = 0
"""Stands for a bishop or a knight, where the words say only "piece"."""

Pieces = Counter[int]
"""How many pieces of each kind are named."""

_KINDS = {chess.piece_name(kind): kind for kind in range(chess.PAWN, chess.KING)}
_KINDS |= {"minor piece": MINOR, "piece": MINOR, "minor": MINOR}
_COUNTS = {word: number for number, word in enumerate(NUMBERS)}
_COUNTS |= {"a": 1, "an": 1, "the": 1, "": 1, "one": 1, "his": 1, "her": 1, "its": 1}
_NUMBER = r"[a-z]+|[0-9]+"
_NAMED = re.compile(
    rf"^(?:(?P<many>{_NUMBER}) )??(?:the )?(?:(?:clear|whole|full|extra|healthy|sound|single) )?"
    rf"(?P<what>{'|'.join(sorted(_KINDS, key=len, reverse=True))}|exchange)s?(?: each)?$"
)
_SIDE = re.compile(
    r"^(?P<side>white|black)(?: (?:is|has|have|leads by|stands|remains))? (?P<rest>.+)$"
)
_POINTS = re.compile(rf"^(?P<many>{_NUMBER}) points?$")
_EVEN = ("even", "level", "equal", "balanced", "nobody is ahead", "level in points")


@dataclass(frozen=True, kw_only=True)
class _Said:
    """What one clause says: a side has some pieces for others; no side: either has them."""

    side: chess.Color | None
    has: Pieces
    gives: Pieces


def is_true_of(found: Material, says: str) -> bool | None:
    """Tell whether words are true of the material; None if they are not understood.

    Examples
    --------
    >>> from chessnb.facts import material
    >>> rook_up = material("4k3/pp6/8/8/8/2b5/PP6/R3K3 w - - 0 1")
    >>> is_true_of(rook_up, "White is the exchange up"), is_true_of(rook_up, "bishop for rook")
    (True, True)
    >>> is_true_of(rook_up, "Black is a rook ahead"), is_true_of(rook_up, "White is happy")
    (False, None)
    """
    answers = [_clause(found, clause) for clause in _clauses(says)]
    if not answers or None in answers:
        return None
    return all(answers)


def _clauses(says: str) -> Iterator[str]:
    """Run through what is said one after the other, in small letters."""
    text = " ".join(says.lower().rstrip(". ").split()).removeprefix("material is ")
    for bracketed in re.findall(r"\(([^()]*)\)", text):
        yield from _clauses(bracketed)
    text = re.sub(r" ?\([^()]*\)", "", text)
    for clause in text.split(";"):
        said = clause.strip()
        while trailing := re.search(rf", ((?:{_NUMBER}) points?|level in points)$", said):
            yield trailing[1]
            said = said[: trailing.start()]
        if said:
            yield said


def _clause(found: Material, clause: str) -> bool | None:
    """Tell whether one clause is true; None if it is not understood."""
    if clause in _EVEN:
        return not found.balance
    if "bishops" in clause and re.match(r"(?:with )?opposite[- ]colou?red bishops$", clause):
        return found.opposite_bishops
    if (match := _POINTS.match(clause)) and (many := _count(match["many"])) is not None:
        return abs(found.balance) == many
    named = _SIDE.match(clause)
    side = None if named is None else named["side"] == "white"
    rest = clause if named is None else named["rest"]
    if side is not None and rest in ("the bishop pair", "the two bishops"):
        return found.bishop_pair == (side,)
    return _comparison(found, side, rest)


def _comparison(found: Material, side: chess.Color | None, rest: str) -> bool | None:
    """Tell whether a side is so much ahead or behind, or has these pieces for those."""
    ahead, behind = (
        re.match(rf"(?:(?P<what>.+) )?(?:{words})(?: in material)?$", rest)
        for words in ("ahead|up|more|better off", "behind|down|short|worse off")
    )
    if (told := ahead or behind) is not None:
        if side is None:
            return None
        leads = side if ahead else not side
        return _leads(found, leads, told["what"])
    parts = re.split(r" (?:for|against) ", rest)
    if len(parts) != 2:
        return None
    has, gives = map(_pieces, parts)
    if has is None or gives is None:
        return None
    said = _Said(side=side, has=has[0] + gives[1], gives=gives[0] + has[1])
    return _is_so(found, said)


def _leads(found: Material, side: chess.Color, what: str | None) -> bool | None:
    """Tell whether a side is ahead, by what is named."""
    lead = found.balance if side else -found.balance
    if what is None:
        return lead > 0
    if (match := _POINTS.match(what)) and (many := _count(match["many"])) is not None:
        return lead == many
    named, *paid = re.split(r" for ", what)
    has, gives = _pieces(named), _pieces(paid[0]) if paid else (Counter(), Counter())
    if has is None or gives is None:
        return None
    return _is_so(found, _Said(side=side, has=has[0] + gives[1], gives=gives[0] + has[1]))


def _pieces(text: str) -> tuple[Pieces, Pieces] | None:
    """Return the pieces that are named, and what an exchange among them gives for its rook."""
    has: Pieces = Counter()
    gives: Pieces = Counter()
    for part in re.split(r",(?: and)? | and | \+ | & | plus ", text):
        match = _NAMED.match(part.strip())
        many = None if match is None else _count(match["many"] or "")
        if match is None or many is None:
            return None
        if match["what"] == "exchange":
            has[chess.ROOK] += many
            gives[MINOR] += many
        else:
            has[_KINDS[match["what"]]] += many
    return has, gives


def _count(word: str) -> int | None:
    return int(word) if word.isdigit() else _COUNTS.get(word)


def _is_so(found: Material, said: _Said) -> bool:
    """Tell whether the material differs as is said."""
    sides = chess.COLORS if said.side is None else (said.side,)
    return any(_differs(found, side, said) for side in sides)


def _differs(found: Material, side: chess.Color, said: _Said) -> bool:
    own, other = (found.white, found.black) if side else (found.black, found.white)
    kinds = (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)
    true = {
        kind: ours - theirs
        for kind, ours, theirs in zip(kinds, own.counts, other.counts, strict=True)
    }
    claimed: Pieces = Counter(said.has)
    claimed.subtract(said.gives)
    others = (chess.QUEEN, chess.ROOK, chess.PAWN)
    return all(claimed[kind] == true[kind] for kind in others) and _minors_are_so(
        true[chess.BISHOP], true[chess.KNIGHT], claimed
    )


def _minors_are_so(bishops: int, knights: int, claimed: Pieces) -> bool:
    """Tell whether so many bishops and knights more are meant; either makes up for the other."""
    said = claimed[chess.BISHOP], claimed[chess.KNIGHT]
    if sum(said) + claimed[MINOR] != bishops + knights:
        return False
    if claimed[MINOR]:
        return all(
            one in range(min(0, so), max(0, so) + 1)
            for one, so in zip(said, (bishops, knights), strict=True)
        )
    if said == (bishops, knights):
        return True
    left = bishops + knights
    if bishops * knights >= 0:
        return False
    return said == ((left, 0) if abs(bishops) > abs(knights) else (0, left))
