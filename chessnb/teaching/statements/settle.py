"""The door: a statement in, what became of it out."""

from __future__ import annotations

from collections.abc import Callable

from chessnb.teaching.statements import board_proofs, count_proofs, forced_proofs
from chessnb.teaching.statements.settling import BUDGET, Case, Settled
from chessnb.teaching.statements.statement import Statement

_PROOFS: dict[str, Callable[[Case], Settled]] = {
    "mate": forced_proofs.mate,
    "checkmate": forced_proofs.checkmate,
    "no defence": forced_proofs.no_defence,
    "check": board_proofs.check,
    "only move": forced_proofs.only_move,
    "only legal move": forced_proofs.only_legal_move,
    "pinned": board_proofs.pinned,
    "threatens": forced_proofs.threatens,
    "parries": forced_proofs.parries,
    "wins": forced_proofs.wins,
    "loses": forced_proofs.loses,
    "attacks": board_proofs.attacks,
    "attacked": board_proofs.attacked,
    "defended": board_proofs.defended,
    "undefended": board_proofs.undefended,
    "hanging": board_proofs.hanging,
    "all defended": board_proofs.all_defended,
    "can castle": board_proofs.castling,
    "cannot castle": board_proofs.castling,
    "shows": board_proofs.shows,
    "material": count_proofs.material,
    "stalemate": count_proofs.stalemate,
    "perpetual": forced_proofs.perpetual,
    "draw": count_proofs.draw,
    "cannot take": board_proofs.cannot_take,
    "cannot be taken": board_proofs.cannot_be_taken,
    "cannot move": board_proofs.cannot_move,
    "illegal": board_proofs.illegal,
    "pawn": count_proofs.pawn,
    "file": count_proofs.file,
    "trapped": count_proofs.trapped,
    "zugzwang": forced_proofs.zugzwang,
}


def settle(statement: Statement, *, budget: int = BUDGET, variable: str = "lesson") -> Settled:
    """Prove a statement, refute it, or say that it is not proved.

    Parameters
    ----------
    statement : Statement
        What a sentence says.
    budget : int
        Positions for each question.
    variable : str
        What the lesson is called in the code that is written.

    Returns
    -------
    Settled
        With the claims that prove it and their code, or with what is true instead.

    Examples
    --------
    >>> from chessnb.lessons import Lesson
    >>> from chessnb.teaching.statements.reader import read_statements
    >>> lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 d6")
    >>> said, = read_statements("The knight on c6 is pinned.", lesson.after("3... d6"))
    >>> print(settle(said).code)
    claims.pinned(lesson.after('3... d6'), 'c6')
    """
    return _PROOFS[statement.kind](Case(statement=statement, budget=budget, variable=variable))
