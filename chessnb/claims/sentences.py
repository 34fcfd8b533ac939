"""What a claim says, made from its record: the one place where claims are put into words."""

from __future__ import annotations

import re
from collections.abc import Callable

import chess

from chessnb import facts
from chessnb.board.naming import NUMBERS, counted
from chessnb.board.sides import SIDES
from chessnb.facts._draws import reason_in_words
from chessnb.findings import Record
from chessnb.findings.record import BAR, unquoted
from chessnb.findings.record_fields import (
    fields_by_unit,
    number_in,
    piece_in_words,
    side_of_place,
)
from chessnb.motifs.glossary import named


def sentence_of(record: Record, board: chess.Board) -> str:
    """Return what a record claims, as a sentence without its full stop.

    Parameters
    ----------
    record : Record
        The record of a claim, whatever became of it.
    board : chess.Board
        Its position.

    Examples
    --------
    >>> from chessnb.findings.record import read_record
    >>> sentence_of(read_record("20... Nf3+ | mates | 6 | proved"), chess.Board())
    'Black mates in 6 with 20... Nf3+'
    """
    if record.kind == "material":
        return _material(record, board)
    return _SENTENCES[record.kind](record)


def _material(record: Record, board: chess.Board) -> str:
    """Say how the material stands: what was claimed, else what the position shows."""
    if record.fields == ("even",):
        return "material is even"
    if record.fields[0].startswith('"'):
        return f"material: {unquoted(record.fields[0])}"
    return facts.material(board).words


# -- what the fields say -------------------------------------------------------


def _side(record: Record) -> str:
    """Name the side that a record is about: that of its field, else that of its place."""
    named = [field for field in record.fields if field in ("white", "black")]
    return named[0].capitalize() if named else SIDES[side_of_place(record.place)]


def _with_key(record: Record) -> str:
    """Return the first move of a claim as it follows the words, if it has one."""
    is_move = " " in record.place
    return f" with {record.place}" if is_move else ""


def _gain(record: Record) -> str:
    units = fields_by_unit(record.fields)
    return f"{units['points']} within {counted(units['within'], 'move')}"


def _brings(record: Record) -> str:
    """Say what a threat brings; nothing where it is not known."""
    units = fields_by_unit(record.fields)
    if "mate" in units:
        return "mate" if units["mate"] == 1 else f"mate in {units['mate']}"
    return f"a gain of at least {_gain(record)}" if "points" in units else ""


def _named(record: Record) -> str:
    """Return the move that a record names in its first field, if it names one."""
    first = record.fields[0] if record.fields else ""
    if first.startswith('"'):
        return unquoted(first)
    return "" if fields_by_unit([first]) else first


# -- the sentences -------------------------------------------------------------


def _threatens(record: Record) -> str:
    brings = _brings(record)
    side = SIDES[not side_of_place(record.place)]
    return f"{side} threatens {_named(record)}{f' ({brings})' if brings else ''}"


def _parries(record: Record) -> str:
    named, brings = _named(record), _brings(record)
    if named:
        return f"{record.place} parries {named}{f' ({brings})' if brings else ''}"
    return f"{record.place} parries the threat{f' of {brings}' if brings else ''}"


def _better(record: Record) -> str:
    """Say which move would have been better, where a record names one."""
    named = [field.partition(" ")[2] for field in record.fields if field.startswith("better ")]
    return f"; {record.place.split()[0]} {named[0]} is better" if named else ""


def _only_defence(record: Record) -> str:
    units = fields_by_unit(record.fields)
    loss = f" or the loss of {_gain(record)}" if "points" in units else ""
    return f"{record.place} is the only defence against mate in {units['mate']}{loss}"


def _attacked(record: Record) -> str:
    units = fields_by_unit(record.fields)
    counts = [f"by {units['attackers']}"] if "attackers" in units else []
    counts += [f"defended by {units['defenders']}"] if "defenders" in units else []
    return f"{piece_in_words(record.fields[0])} is attacked {', '.join(counts)}".rstrip()


def _defended(record: Record) -> str:
    units = fields_by_unit(record.fields)
    count = f" by {units['defenders']}" if "defenders" in units else ""
    return f"{piece_in_words(record.fields[0])} is defended{count}"


def _pinned(record: Record) -> str:
    piece, *others = record.fields
    ways = (field.partition(" ") for field in others)
    return f"{piece_in_words(piece)} is pinned" + "".join(
        f" {way} {piece_in_words(other)}" for way, _, other in ways
    )


def _legal(record: Record) -> str:
    return f"{_named(record) or record.place} is legal"


def _must_check(record: Record) -> str:
    mate = number_in(record.fields[0])
    other, when = SIDES[not side_of_place(record.place)], "at once" if mate == 1 else f"in {mate}"
    return f"{_side(record)} must give check: after anything else {other} mates {when}"


def _forced(record: Record) -> str:
    line = _moves_in(record.fields[1])
    moves = [move for move, whose in line if SIDES[whose].lower() == record.fields[0]]
    side, units = _side(record), fields_by_unit(record.fields[2:])
    mates = ""
    if "mate" in units:
        mates = f"; {SIDES[side == 'Black']} mates in {units['mate']}"
    if len(moves) == 1:
        return f"{moves[0]} is forced: {_why_forced(units, side, 1)}{mates}"
    stretch = f"from {line[0][0]} to {line[-1][0]}"
    if "only moves" not in units and "others mated" not in units:
        return f"{stretch} every move of {side} is forced: {_why_forced(units, side, 2)}{mates}"
    many = "both" if len(moves) == 2 else f"all {_in_words(len(moves))}"
    why = _why_forced(units, side, len(moves))
    return f"{stretch} {many} moves of {side} are forced: {why}{mates}"


def _why_forced(units: dict[str, int], side: str, moves: int) -> str:
    """Say how many moves are the only legal ones, and what becomes of everything else."""
    only, others = units.get("only moves", 0), units.get("others mated", 0)
    soon = f"within {counted(units['within'], 'move')}" if "within" in units else "no later"
    lost = f"{side} is mated {soon}"
    if not others and only:
        return "it is the only legal move" if moves == 1 else "each is the only legal one"
    if not only and not others:
        return f"nothing else is legal, or with anything else {lost}"
    if not only:
        place = "" if moves == 1 else " in place of any of them"
        return f"with anything else{place} {lost}"
    ones = "one is the only legal one"
    if only > 1:
        ones = f"{_in_words(only)} are the only legal ones"
    rest = "the other" if others == 1 else f"the other {_in_words(others)}"
    return f"{ones}, and with anything else in place of {rest} {lost}"


def _in_words(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def _moves_in(field: str) -> list[tuple[str, chess.Color]]:
    """Return the moves of a line, each with its number, and whose they are."""
    found = []
    number, turn = "", chess.WHITE
    for word in field.split():
        if numbered := re.fullmatch(r"(\d+)\.(\.\.)?", word):
            number, turn = numbered[1], not numbered[2]
        else:
            found.append((f"{number}{'.' if turn else '...'} {word}", turn))
            turn = not turn
    return found


def _cannot_castle(record: Record) -> str:
    side, (_, wing, *which) = _side(record), record.fields
    if which == ["no more"]:
        return f"{side} has lost the right to castle {wing} for good"
    later = " now, but still has the right to" if which else ""
    return f"{side} cannot castle {wing}{later}"


def _drawn(record: Record) -> str:
    if record.status in ("wrong", "not proved"):
        rule = f" by {record.fields[0]}" if record.fields else ""
        return f"the game is drawn{rule}"
    return f"the game is drawn: {'; '.join(map(reason_in_words, record.fields))}"


def _may_claim_draw(record: Record) -> str:
    return f"{_side(record)} may claim a draw: {'; '.join(map(reason_in_words, record.fields))}"


def _shows(record: Record) -> str:
    name = record.fields[0]
    meant = named(name)
    return f"{record.place} shows {meant[0].in_words if len(meant) == 1 else f'a {name}'}"


def _refuted(record: Record) -> str:
    """Say that the claim which the record holds is wrong, the usual ones in plain words."""
    kind, *fields = unquoted(record.fields[0]).split(BAR)
    inner = Record(place=record.place, kind=kind, fields=tuple(fields), status="wrong")
    units = fields_by_unit(fields)
    if kind == "mates" and not _with_key(inner):
        return f"{_side(inner)} has no mate in {fields[-1]}"
    if kind == "wins" and units["points"] == 1 and not _with_key(inner):
        return f"{_side(inner)} wins nothing within {counted(units['within'], 'move')}"
    if kind == "material":
        told = unquoted(fields[0]) if fields[0].startswith('"') else f"it is {fields[0]}"
        return f"it is wrong that of the material {told}"
    return f"it is wrong that {_SENTENCES[kind](inner)}"


_SENTENCES: dict[str, Callable[[Record], str]] = {
    "refuted": _refuted,
    "mates": lambda one: f"{_side(one)} mates in {one.fields[-1]}{_with_key(one)}",
    "fastest mate": lambda one: f"{_side(one)}'s fastest mate is in {one.fields[-1]}",
    "wins": lambda one: f"{_side(one)} wins at least {_gain(one)}{_with_key(one)}",
    "mates or wins": lambda one: (
        f"{_side(one)} mates in {fields_by_unit(one.fields)['mate']}"
        f" or wins at least {_gain(one)}{_with_key(one)}"
    ),
    "perpetual": lambda one: f"{_side(one)} has perpetual check{_with_key(one)}",
    "forces stalemate": lambda one: (
        f"{_side(one)} forces stalemate within"
        f" {counted(number_in(one.fields[-1]), 'move')}{_with_key(one)}"
    ),
    "forced": _forced,
    "threatens": _threatens,
    "parries": _parries,
    "only defence": _only_defence,
    "must check": _must_check,
    "loses": lambda one: f"{one.place} loses at least {number_in(one.fields[0])}{_better(one)}",
    "allows mate": lambda one: f"{one.place} allows mate in {one.fields[0]}{_better(one)}",
    "zugzwang": lambda one: f"{_side(one)} is in zugzwang",
    "attacked": _attacked,
    "defended": _defended,
    "pinned": _pinned,
    "trapped": lambda one: f"{piece_in_words(one.fields[0])} is trapped",
    "pawn": lambda one: f"{piece_in_words(one.fields[0])} is {one.fields[1]}",
    "shows": _shows,
    "legal": _legal,
    "illegal": lambda one: f"{_named(one)} is not legal",
    "only legal move": lambda one: f"{one.place} is the only legal move",
    "can castle": lambda one: f"{_side(one)} can castle {one.fields[1]}",
    "cannot castle": _cannot_castle,
    "checkmate": lambda one: f"{_side(one)} is checkmated",
    "drawn": _drawn,
    "may claim draw": _may_claim_draw,
}
