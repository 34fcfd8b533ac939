"""Whether a drafted statement makes a point: told narrowly, so that what is found was said.

A statement must be about a half-move of the point's, and of its kind.  A
record must hold the tactic, the piece, or a mate that is no longer; a sentence
must have a word of the point's kind, and name its move, a piece, a square, the
better move or a tactic.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from chessnb.findings.record import Record
from reading.points import Point
from reading.statements import Statement

SPEAKING = {
    "sacrifice": r"sacrific|gives? (up )?(a|the|his|its)\b|offers?|left to be taken",
    "offer_refused": r"cannot (be )?taken?|can be taken|take|taking|taken|refus|declin",
    "quiet_key": r"quiet|key|point|clears?|makes (room|way)|shuts?|prevents?|threat|mate",
    "only_move": r"only|forced|no choice",
    "mistake": r"mistake|blunder|loses|better|should|instead|can (now )?(win|mate)|allows",
    "missed_win": r"miss|passes over|could have|quicker|faster|better",
    "plan": r"plan|aims?|prepar|square|file|weak|space|attack|activ|route|way to|block|develop",
    "tactic": r"fork|pin|skewer|discover|double|attacks|windmill|deflect|decoy|tactic|overload|zugzwang|trap|wins",
    "mate": r"mate",
    "threat": r"threat|mate|attacks",
    "preparation": r"prepar|later|so that|clears?|on (its|the) way|makes (room|way)|brings?|opens",
    "phase": r"castle|middlegame|endgame|ending|exchange|queens|material|pieces",
    "opening": r"",
    "structure": r"isolated|backward|passed|doubled|majority|outpost|hole|file|centre|bishop|pawn",
    "endgame": r"endgame|ending|passed|king|rook|level|drawn|seventh|pawns?",
}
"""What a sentence says that makes a point of a kind."""


def makes(statement: Statement, point: Point) -> bool:
    """Tell whether a statement makes a point."""
    if not is_near(statement, point):
        return False
    if statement.record is None:
        return _sentence_makes(statement.text, point)
    return _RECORDS[point.kind](statement.record, point, min(statement.plies) == point.first)


def is_near(statement: Statement, point: Point) -> bool:
    """Tell whether a statement is about the half-moves of a point."""
    return any(point.first <= ply <= point.last for ply in statement.plies)


def _sentence_makes(text: str, point: Point) -> bool:
    if point.kind == "opening":
        return bool(point.name) and point.name.lower() in text.lower()
    named = [point.move, point.better, *point.squares, *point.line[:1]]
    named += [motif for motif in point.motifs if motif not in ("sacrifice", "threat")]
    named += [name for piece in point.pieces for name in (piece[1:], _WORDS[piece[0]])]
    if not any(_names(text, name) for name in named if name):
        return False
    if point.kind in ("mistake", "missed_win") and _is_praise(text):
        return False
    return re.search(SPEAKING[point.kind], text, re.IGNORECASE) is not None


def _names(text: str, name: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(name.rstrip('+#'))}(?![\w-])", text) is not None


def _is_praise(text: str) -> bool:
    return re.search(r"by force\.*$", text) is not None


_WORDS = {"P": "pawn", "N": "knight", "B": "bishop", "R": "rook", "Q": "queen", "K": "king"}

# -- records ---------------------------------------------------------------------


def _tactic(record: Record, point: Point, *names: str) -> bool:
    """Tell whether a record names one of the tactics, as won, as played or on the board."""
    return record.kind in ("tactic", "shows", "pattern") and record.fields[0] in names


def _mate(record: Record, point: Point) -> bool:
    """Tell whether a record says that there is mate, in no more moves than the point says."""
    if point.mate is None:
        return False
    if record.kind == "checkmate":
        return point.mate == 1
    if record.kind == "changes" and "checkmate" in record.fields:
        return point.mate == 1
    if record.kind in ("mates", "fastest mate"):
        return int(record.fields[-1]) <= point.mate
    return record.kind == "mates or wins" and _number(record, "mate") <= point.mate


def _number(record: Record, word: str) -> int:
    found = [field for field in record.fields if field.startswith(f"{word} ")]
    return int(found[0].split()[-1]) if found else 10**6


def _changes(record: Record, what: str, things: Iterable[str]) -> bool:
    """Tell whether a move's changes name one of the things under a heading."""
    if record.kind != "changes":
        return False
    told = " ".join(field for field in record.fields if field.startswith(what))
    return any(re.search(rf"\b{thing}\b", told) for thing in things)


def _sacrifice(record: Record, point: Point, at_move: bool) -> bool:
    if record.kind == "replies" and record.fields[0].startswith("taking "):  # what is offered
        return record.fields[0].split()[1] in (point.squares or [record.fields[0].split()[1]])
    return _tactic(record, point, "sacrifice", *point.motifs)


def _refused(record: Record, point: Point, at_move: bool) -> bool:
    """Tell whether a record says what follows where it is taken after all."""
    if not point.line:
        return False
    if record.kind == "replies":
        bad = ("mates", "wins", "mated", "loses")
        told = [field for field in record.fields[1:] if field.startswith(bad)]
        return any(point.line[0] in field.replace(":", "").split() for field in told)
    follows = record.kind in ("mates", "wins", "mates or wins", "loses", "allows mate", "tactic")
    return follows and point.line[0] in record.place.split()


def _quiet_key(record: Record, point: Point, at_move: bool) -> bool:
    if "threat" in point.motifs and _threat(record, point, at_move):
        return True
    if record.kind == "zugzwang" or (at_move and _mate(record, point)):
        return True
    return _tactic(record, point, *point.motifs, "clearance", "zugzwang", "interference")


def _only_move(record: Record, point: Point, at_move: bool) -> bool:
    return record.kind in ("only defence", "only legal move", "must check", "forced")


def _mistake(record: Record, point: Point, at_move: bool) -> bool:
    if not at_move or point.move not in record.place.split():
        return False
    if record.kind == "allows mate":
        return point.mate is not None and int(record.fields[0]) <= point.mate
    return record.kind == "loses" and point.mate is None


def _missed_win(record: Record, point: Point, at_move: bool) -> bool:
    is_before = point.move not in record.place.split()
    return is_before and (_mate(record, point) or (point.mate is None and record.kind == "wins"))


def _plan(record: Record, point: Point, at_move: bool) -> bool:
    if point.motifs:
        return _found_tactic(record, point, at_move)
    return record.kind in ("plan", "preparation") and _holds(record, point)


def _found_tactic(record: Record, point: Point, at_move: bool) -> bool:
    if any("pin" in motif for motif in point.motifs):
        if record.kind == "pinned":
            return record.fields[0] in point.pieces
        if _changes(record, "pins", point.pieces):
            return True
    if point.motifs:
        return _tactic(record, point, *point.motifs)
    if record.kind == "forced":
        return at_move
    taken = record.kind in ("wins", "mates or wins", "trapped")
    return taken and at_move and point.move in record.place.split()


def _of_mate(record: Record, point: Point, at_move: bool) -> bool:
    if point.line and point.line[0] != point.move:  # what mates on the other side
        return _refused(record, point, at_move)
    return at_move and _mate(record, point)


def _threat(record: Record, point: Point, at_move: bool) -> bool:
    if record.kind == "threatens":
        return point.mate is None or _number(record, "mate") <= point.mate
    if record.kind == "changes" and "mates next" in record.fields:
        return point.mate == 1
    if record.kind == "trapped":
        return record.fields[0] in point.pieces
    named = [motif for motif in point.motifs if motif not in ("threat", "back-rank mate")]
    return _tactic(record, point, *named) or _changes(record, "threatens", point.pieces)


def _preparation(record: Record, point: Point, at_move: bool) -> bool:
    if record.kind in ("plan", "preparation"):
        return _holds(record, point)
    if record.kind == "purpose":
        return at_move and bool(record.fields)
    return _tactic(record, point, *point.motifs)


def _phase(record: Record, point: Point, at_move: bool) -> bool:
    if "castle" in point.what:
        return record.kind == "cannot castle" or any(
            "ends castling" in one for one in record.fields
        )
    return record.kind in ("material", "phase")


def _opening(record: Record, point: Point, at_move: bool) -> bool:
    return record.kind == "opening" and point.name.lower() in str(record).lower()


def _structure(record: Record, point: Point, at_move: bool) -> bool:
    for name in ("passed", "isolated", "doubled", "backward"):
        if _changes(record, name, point.pieces):
            return True
    if record.kind in ("pawn", "pawns", "files", "pattern", "structure"):
        return _holds(record, point)
    return False


def _endgame(record: Record, point: Point, at_move: bool) -> bool:
    if record.kind in ("drawn", "endgame"):
        return True
    return _structure(record, point, at_move)


def _holds(record: Record, point: Point) -> bool:
    """Tell whether a record names a square or a piece of the point."""
    told = " ".join(record.fields)
    named = [*point.pieces, *point.squares, *(piece[1:] for piece in point.pieces)]
    return any(re.search(rf"\b{name}\b", told) for name in named)


_RECORDS: dict[str, Callable[[Record, Point, bool], bool]] = {
    "sacrifice": _sacrifice, "offer_refused": _refused, "quiet_key": _quiet_key,
    "only_move": _only_move, "mistake": _mistake, "missed_win": _missed_win, "plan": _plan,
    "tactic": _found_tactic, "mate": _of_mate, "threat": _threat, "preparation": _preparation,
    "phase": _phase, "opening": _opening, "structure": _structure, "endgame": _endgame,
}  # fmt: skip
