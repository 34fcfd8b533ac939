"""How statements are proved that count: material, draws, pawns and files."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from chessnb import facts
from chessnb.board.sides import SIDES
from chessnb.teaching import cell_code
from chessnb.teaching.statements.board_proofs import each
from chessnb.teaching.statements.places import board_of
from chessnb.teaching.statements.settling import Case, Settled, denied, first_of


def material(case: Case) -> Settled:
    """Settle how the material stands."""
    said = case.statement
    words = said.what
    if said.side is not None:
        words = f"{SIDES[said.side]} is {words}"
        if " for " in said.what or ("bishop" in said.what and "ahead" not in said.what):
            words = f"{SIDES[said.side]} has {said.what}"
    words = re.sub(r"\b(?:up|to the good)$", "ahead", words)
    words = re.sub(r"\bdown$", "behind", words)
    words = words.replace("the pair of bishops", "the bishop pair")
    if said.negated:
        return case.refuted("material", words)
    return case.claim("material", words)


def stalemate(case: Case) -> Settled:
    """Settle that it is stalemate, or forced."""
    said = case.statement
    if said.what == "forces":
        san = said.san or None
        return case.claim("forces_stalemate", within=said.number or 3, move=san)
    if said.what == "no move":
        ways = [lambda: case.claim("drawn", rule="stalemate"), lambda: case.claim("checkmate")]
        return first_of(case, ways)
    if said.negated:
        return case.refuted("drawn", rule="stalemate")
    return case.claim("drawn", rule="stalemate")


def draw(case: Case) -> Settled:
    """Settle that the game is drawn by a rule."""
    said = case.statement
    found = case.claim("drawn", rule=said.what or None)
    if said.negated:
        return denied(case, [found], lambda: case.settled("not proved"))
    if found.status == "wrong" and not said.what:
        return replace(found, status="not proved")
    return found


def pawn(case: Case) -> Settled:
    """Settle what kind of pawn it is, or that a side has such a pawn."""
    said = case.statement
    if said.piece and said.side is None:
        return each(case, lambda piece: _pawn(case, piece[-2:], negated=said.negated))
    structure = getattr(facts.pawns(said.board), "white" if said.side else "black")
    squares = [said.piece[1:]] if said.piece else list(getattr(structure, said.what))
    if said.negated:
        if squares:
            return case.settled("wrong", truth=f"the pawn on {squares[0]} is {said.what}")
        code = cell_code.call("facts.pawns", case.place(said.at))
        return case.settled("proved", [facts.pawns(said.board)], code=code)
    if not squares:
        return case.settled("wrong", truth=facts.pawns(said.board).words)
    color = said.board.color_at(chess.parse_square(squares[0]))
    if color is not None and color != said.side:
        return case.settled("wrong", truth=f"the pawn on {squares[0]} is not its own")
    return _pawn(case, squares[0], negated=False)


def _pawn(case: Case, square: str, *, negated: bool) -> Settled:
    what = case.statement.what
    if negated:
        return case.refuted("pawn", square, is_=what)
    return case.claim("pawn", square, is_=what)


def file(case: Case) -> Settled:
    """Settle that a file is open, or half-open for a side."""
    said = case.statement
    found = facts.files(board_of(said.at))
    letters = found.open
    if said.what == "half-open":
        letters = found.half_open_for_white if said.side else found.half_open_for_black
    code = cell_code.call("facts.files", case.place(said.at))
    half = (*found.half_open_for_white, *found.half_open_for_black)
    if said.what == "open" and not said.negated and said.square in half:
        return case.settled("not proved", code=code, truth=found.words)
    if (said.square in letters) == said.negated:
        return case.settled("wrong", code=code, truth=found.words)
    return case.settled("proved", [found], code=code)


def trapped(case: Case) -> Settled:
    """Settle that a piece is trapped."""

    def settle(piece: str) -> Settled:
        if case.statement.negated:
            return case.refuted("trapped", piece[-2:])
        return case.claim("trapped", piece[-2:])

    return each(case, settle)
