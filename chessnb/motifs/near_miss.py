"""A near miss: why a move does not show a tactic, by the part of its definition that fails."""

from __future__ import annotations

import chess

from chessnb.board.naming import counted
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.motif import Motif
from chessnb.notation import write_line, write_move
from chessnb.proof import Gain
from chessnb.search.prover import prove

Reason = tuple[str, tuple[chess.Move, ...]]
"""What fails, in words, and moves from the position before the move that show it."""


def why_not(case: Case, motif: Motif) -> Reason:
    """Say which part of a motif's definition a move does not meet.

    Parameters
    ----------
    case : Case
        The move in its line.
    motif : Motif
        A motif that has no sound tag there.

    Returns
    -------
    (str, tuple of chess.Move)
        The reason, and the moves that show it (the move alone if none do).
    """
    if motif.why_not is not None and (words := motif.why_not(case)):
        return words, (case.move, *case.line[:2])
    if case.proof is None:
        return _wins_nothing(case, geometric=any(True for _ in motif.find(case)))
    if case.after.is_checkmate():
        return f"{case.san} is mate at once, and needs nothing else to happen", (case.move,)
    if case.in_hand and case.captured is not None:
        words = f"{case.san} wins what it takes, and needs nothing else to happen"
        return words, (case.move,)
    won = write_line(case.before, case.shown)
    return f"what is won is won in another way: {won}", case.shown


def _wins_nothing(case: Case, *, geometric: bool) -> Reason:
    """Say that nothing is won, with the reply that shows it."""
    start = "the pattern is on the board, but " if geometric else ""
    if case.line and _refutes(case, case.line[0]):
        reply = write_move(case.after, case.line[0])
        return f"{start}after {reply} nothing is proved to be won", (case.move, case.line[0])
    goal = Gain(points=1, within=2, measure=case.measure)
    escape = prove(case.before, goal, move=case.move, budget=case.budget).escape
    if len(escape) > 1:
        reply = write_move(case.after, escape[1])
        return f"{start}after {reply} nothing is proved to be won", escape
    moves = counted(case.within, "move")
    return f"{start}nothing is proved to be won within {moves}", (case.move,)


def _refutes(case: Case, reply: chess.Move) -> bool:
    """Tell whether a reply leaves nothing to win within two moves."""
    measure = case.measure.after(case.move, reply)
    goal = Gain(points=1, within=2, measure=measure)
    return case.ask(moved(case.after, [reply]), goal).status == "false"


def follow_up(case: Case) -> tuple[Reply, chess.Move] | None:
    """Return what followed a move: the reply and our next move, proved or only said."""
    if len(case.line) > 1:
        board = moved(case.after, [case.line[0]])
        reply = Reply(move=case.line[0], board=board, line=case.line[1:])
        return reply, case.line[1]
    for reply in case.critical[:1]:
        if reply.answer is not None:
            return reply, reply.answer
    return None
