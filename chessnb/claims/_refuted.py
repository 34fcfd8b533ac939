"""The claim that another is wrong: "there is no mate in three", "the knight is not pinned"."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from chessnb.board.position import Position, read_position
from chessnb.claims import _shows, checks, force, forced_line, on_the_board, plans, rules
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, ClaimError, FalseClaim
from chessnb.errors import as_given, ended
from chessnb.findings import Record
from chessnb.findings.record import BAR, quoted
from chessnb.notation import write_line

_CLAIMS: dict[str, Callable[..., Claim]] = {
    name: value
    for module in (_shows, checks, force, forced_line, on_the_board, plans, rules)
    for name, value in vars(module).items()
    if getattr(value, "__module__", "") == module.__name__ and hasattr(value, "__wrapped__")
}
"""The claims by their names."""


@checked
def refuted(position: Position, claim: str, *given: Any, **options: Any) -> Claim:
    r"""Claim that another claim is wrong, and why.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    claim : str
        The name of the other claim, such as ``"mates"``; what it takes follows.

    Raises
    ------
    FalseClaim
        If the other claim holds.
    UnprovedClaim
        If the other claim is not decided within its budget.
    ClaimError
        If there is no such claim.

    Examples
    --------
    >>> claim = refuted("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "mates", within=1)
    >>> print(claim)
    1. | refuted | "mates \| white \| 1" | rules
    >>> claim.words
    'White has no mate in 1'
    """
    if not isinstance(claim, str) or claim not in _CLAIMS:
        raise ClaimError(f"claim is the name of a claim, such as 'mates', not {as_given(claim)}")
    board = read_position(position)
    try:
        held = _CLAIMS[claim](position, *given, **options)
    except FalseClaim as error:
        shown = f"{write_line(board, error.moves)}." if error.moves else ""
        reason = ended(f"{error.reason[0].upper()}{error.reason[1:]}")
        evidence = tuple(one for one in (reason, shown) if one)
        said = _denial(error.record, "searched" if "(searched)" in error.reason else "rules")
        return Claim(said=said, fen=error.fen, evidence=evidence, marks=error.marks)
    raise FalseClaim(_denial(held.said, "rules"), held.words, board=board)


def _denial(record: Record, status: str) -> Record:
    """Return the record that another is wrong."""
    inner = quoted(BAR.join((record.kind, *record.fields)))
    return Record(place=record.place, kind="refuted", fields=(inner,), status=status)
