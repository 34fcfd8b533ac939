"""The claim that a move shows a motif."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from chessnb import motifs
from chessnb.board.position import Position, read_position
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, FalseClaim, UnprovedClaim, said
from chessnb.claims.claimed_moves import read_claimed, refuse_wrong_signs
from chessnb.motifs.case import BUDGET, WITHIN, Case
from chessnb.motifs.glossary import named
from chessnb.motifs.motif import Motif
from chessnb.motifs.move_tags import case_of
from chessnb.motifs.near_miss import Reason, why_not
from chessnb.notation import LineLike, MoveLike
from chessnb.proof.balances import WILD, TooWild


@checked
def shows(
    position: Position,
    motif: str,
    *,
    move: MoveLike | None = None,
    line: LineLike = (),
    within: int = WITHIN,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a move shows a tactic, and that the tactic is what wins.

    Parameters
    ----------
    position : chess.Board, Moment or str
        A ``Moment``: the move that led there, in the lesson's line.  With `move`
        or `line`: the position before the move.
    motif : str
        One of :func:`chessnb.motifs.names`, such as ``"decoy"``; ``"pin"`` is
        an absolute or a relative one.
    move : str or chess.Move, optional
        The move; the first of `line` if it is left out.
    line : str or sequence of moves
        What follows.
    within, budget : int
        As for :func:`chessnb.motifs.tag`.

    Raises
    ------
    FalseClaim
        If no proof says so, with the part of the definition that fails.
    UnprovedClaim
        If nobody can say what the move wins.
    LessonError
        If there is no such motif, or no move.

    Examples
    --------
    >>> claim = shows("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "fork", move="Nc7+")
    >>> claim.words
    '1. Nc7+ shows a fork'
    """
    asked = named(motif)
    if move is not None:
        move = read_claimed(position, read_position(position), move)
    case = case_of(position, move, line=line, within=within, budget=budget)
    refuse_wrong_signs(case.before, (case.move, *case.line), line)
    refuse_wrong_signs(case.after, case.line, line)  # where the line begins with the reply
    claimed = said(case.before, "shows", _name(asked), move=case.move, status="proved")
    names = {one.name for one in asked}
    found = [tag for tag in motifs.tag(case.before, case.move, line=case.line, within=within,
                                       budget=budget) if tag.motif in names]  # fmt: skip
    if not found:
        try:
            reason, moves = _why_none(case, asked)
        except TooWild:
            raise UnprovedClaim(claimed, WILD, board=case.before, line=(case.move,)) from None
        raise FalseClaim(claimed, reason, board=case.before, line=moves)
    best = found[0]
    return Claim(
        said=claimed if best.sound else replace(claimed, status="rules"),
        fen=case.before.fen(),
        evidence=best.paragraphs,
        marks=best.marks,
        shown=best.fen,
        last_move=case.move.uci() if best.fen == case.after.fen() else None,
        proof=best.proof,
    )


def _name(asked: Sequence[Motif]) -> str:
    """Return the name of what is shown; of several, the one that they share."""
    return asked[0].name if len(asked) == 1 else asked[0].name.rpartition(" ")[2]


def _why_none(case: Case, asked: Sequence[Motif]) -> Reason:
    """Say why a move shows none of the motifs, each reason once."""
    reasons = {one.name: why_not(case, one) for one in asked}
    told = {words for words, _ in reasons.values()}
    moves = next(iter(reasons.values()))[1]
    if len(told) == 1:
        return told.pop(), moves
    return "; ".join(f"no {name}: {words}" for name, (words, _) in reasons.items()), moves
