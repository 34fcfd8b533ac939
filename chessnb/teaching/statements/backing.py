"""Whether what was found in a run says the same as a statement, or the contrary.

The position must be the same, the kind, the side, the move, the piece and the
number.  A finding about something else says nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.sides import SIDES
from chessnb.findings import Record
from chessnb.findings.record_fields import fields_by_unit, place_of, side_of_place
from chessnb.teaching.statements.forced_proofs import bounds
from chessnb.teaching.statements.statement import Statement

Backing = Literal["same", "contrary", "nothing"]


@dataclass(frozen=True, kw_only=True)
class Found:
    """What was found in a run.

    Attributes
    ----------
    record : Record
        Its record.
    fen : str
        The position that it is about; empty if that is not known.
    """

    record: Record
    fen: str = ""

    @property
    def holds(self) -> bool:
        """Whether it says that something is so, by proof, search or rule."""
        return self.record.status in ("proved", "searched", "rules")


def backing(statement: Statement, found: Found) -> Backing:
    """Tell whether a finding says the same as a statement of something that is forced."""
    compare = _COMPARED.get(statement.kind)
    if compare is None or not _is_there(statement, found):
        return "nothing"
    answer = compare(statement, found.record)
    if answer == "nothing":
        return answer
    flipped = statement.negated != (not found.holds)
    if found.record.status == "not proved":
        return "nothing"
    if answer == "same" and flipped:
        return "contrary"
    if answer == "contrary" and flipped:
        return "nothing"
    return answer


def _is_there(statement: Statement, found: Found) -> bool:
    """Tell whether a finding is about the position of a statement, and about its move."""
    board = statement.board
    if found.fen and chess.Board(found.fen).epd() != board.epd():
        return False
    place = found.record.place
    if statement.move is not None and statement.kind != "threatens":
        return place == place_of(board, statement.move) or place == place_of(board)
    return place.startswith(place_of(board))


def _side_of(record: Record) -> chess.Color:
    for field in record.fields:
        if field in ("white", "black"):
            return field == "white"
    return side_of_place(record.place)


def _mate(statement: Statement, record: Record) -> Backing:
    if record.kind not in ("mates", "fastest mate") or _side_of(record) != statement.side:
        return "nothing"
    if " " not in record.place and statement.move is not None:
        return "nothing"
    number = int(record.fields[-1])
    if statement.number in (None, number):
        return "same"
    proved = record.status in ("proved", "searched", "rules")
    return "contrary" if proved and number < int(statement.number or 0) else "nothing"


def _gain(statement: Statement, record: Record) -> Backing:
    if record.kind not in ("wins", "loses"):
        return "nothing"
    least, most = bounds(statement.what)
    winner = statement.side if statement.kind == "wins" else not statement.side
    says = _side_of(record) if record.kind == "wins" else not _side_of(record)
    points = fields_by_unit(record.fields)["points"]
    if says != winner:
        return "nothing"
    return "same" if least <= points and (most is None or points <= most) else "nothing"


def _threatens(statement: Statement, record: Record) -> Backing:
    if record.kind != "threatens" or statement.board.turn == statement.side:
        return "nothing"
    units = fields_by_unit(record.fields)
    if statement.what == "mate" and "mate" not in units:
        return "nothing"
    if statement.number is not None and units.get("mate") != statement.number:
        return "nothing"
    if statement.move is not None and record.fields[0].rstrip("+#") != statement.san.rstrip("+#"):
        return "nothing"
    return "nothing" if statement.what not in ("", "mate") else "same"


def _only(statement: Statement, record: Record) -> Backing:
    if record.kind == "forced":
        san = statement.san
        is_so = record.fields[0] == SIDES[bool(statement.side)].lower() and san in record.fields[1]
        return "same" if is_so and record.place.startswith(place_of(statement.board)) else "nothing"
    if record.kind not in ("only defence", "only legal move") or statement.move is None:
        return "nothing"
    return "same" if record.place == place_of(statement.board, statement.move) else "nothing"


def _shows(statement: Statement, record: Record) -> Backing:
    if record.kind not in ("shows", "tactic"):
        return "nothing"
    return "same" if record.fields[0] == statement.what and not statement.other else "nothing"


_COMPARED: dict[str, Callable[[Statement, Record], Backing]] = {
    "mate": _mate,
    "wins": _gain,
    "loses": _gain,
    "threatens": _threatens,
    "only move": _only,
    "only legal move": _only,
    "shows": _shows,
}
