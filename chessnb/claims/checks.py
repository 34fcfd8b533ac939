"""The claim that a side must give check, because every other move loses at once."""

from __future__ import annotations

import chess

from chessnb.board.naming import listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.claims.answers import Answers, longest_first, numbered, replies_of
from chessnb.claims.asked import refuse_if_over, stroke
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, FalseClaim, said
from chessnb.claims.evidence_lines import LINES_SHOWN
from chessnb.findings import Record
from chessnb.notation import write_line, write_move
from chessnb.proof import Mate, Proof
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.search.budget import BUDGET


@checked
def must_check(position: Position, *, mate: int = 3, budget: int = BUDGET) -> Claim:
    """Claim that the side to move must give check: after anything else it is mated.

    Each of its moves that gives no check is proved, and replayed, to let the
    other side mate within `mate` moves; and after one check at least there is
    no such mate, not even a move later, for a check that is no defence puts
    the mate off by a move.  That second half is searched, not replayed.  How
    the game goes on after the check is not claimed: a perpetual check is
    another claim (:func:`chessnb.claims.perpetual`).

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    mate : int
        Moves of the other side, within which it mates after every other move.
    budget : int
        Positions for each move.

    Raises
    ------
    FalseClaim
        With a move without check after which there is no such mate
        (searched); or if the side has no check, or nothing but checks, or if
        it is mated after every check too.
    UnprovedClaim
        If the budget does not decide about a move.

    Notes
    -----
    Every legal move is searched, so the cost grows steeply with `mate`.

    Examples
    --------
    >>> must_check("6k1/6p1/8/7Q/8/2q5/1r6/7K w - - 0 1").words
    'White must give check: after anything else Black mates in 3'
    """
    board = read_position(position)
    whole_number("mate", mate, most=MOST_MOVES)
    claimed = said(board, "must check", f"mate {mate}", status="searched")
    refuse_if_over(board, claimed)
    checks = [move for move in replies_of(board) if board.gives_check(move)]
    others = [move for move in replies_of(board) if not board.gives_check(move)]
    side, other = SIDES[board.turn], SIDES[not board.turn]
    if not checks:
        raise FalseClaim(claimed, f"{side} has no check", board=board)
    if not others:
        reason = f"every legal move gives check: {side} has nothing else to try"
        raise FalseClaim(claimed, reason, board=board, line=checks[:1])
    answers = Answers(board=board, claimed=claimed, goal=Mate(within=mate), budget=budget)
    lost = answers.lost(others, but=f"after {{}} there is no mate in {mate} (searched)")
    later = min(MOST_MOVES, mate + 1)
    saving = _saving(board, checks, claimed, later, budget)
    named = sorted(write_move(board, check) for check in checks)
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=(
            f"The checks: {listed(named)}.",
            f"After {numbered(board, saving)} {other} has no mate in {later}.",
            *_lines(board, longest_first(lost)),
        ),
        caution=(
            "Every other move is proved to be mated; that the check is not is searched, not"
            " replayed."
        ),
        marks=(stroke(saving),),
        proof=longest_first(lost)[0][1],
    )


def _saving(
    board: chess.Board, checks: list[chess.Move], claimed: Record, later: int, budget: int
) -> chess.Move:
    """Return a check after which the side is not mated, or refuse the claim."""
    answers = Answers(board=board, claimed=claimed, goal=Mate(within=later), budget=budget)
    mated: tuple[chess.Move, ...] = ()
    unsettled: chess.Move | None = None
    for check in checks:
        outcome = answers.asked(check)
        if outcome.status == "false":
            return check
        if outcome.proof is None:
            unsettled = unsettled or check
        elif not mated:
            mated = (check, *outcome.proof.main_line)
    if unsettled:
        raise answers.open(unsettled)
    line = write_line(board, mated)
    reason = f"{SIDES[not board.turn]} mates after the checks too: {line}"
    raise FalseClaim(claimed, reason, board=board, line=mated)


def _lines(board: chess.Board, lost: list[tuple[chess.Move, Proof]]) -> list[str]:
    """Write how each move is mated; of many, the longest."""
    lines = [f"{write_line(board, (move, *proof.main_line))}." for move, proof in lost]
    more = len(lines) - LINES_SHOWN
    return lines if more <= 0 else [*lines[:LINES_SHOWN], f"and {more} more lines."]
