"""Claims that a side forces something: mate, a gain of material, a draw.

"Mates within n" means: against every reply, mate with the n-th move at the
latest.  A gain is a fact within its horizon, never "wins the game".
Repetition and the 50-move rule are left out of mates and gains.

In every function `position` is a moment of a lesson, a board or a FEN; `side`
is ``"White"`` or ``"Black"``, by default the side to move; `within` counts
its moves; `move` is a first move that the claim is about; `budget` counts
positions.  All raise :class:`FalseClaim`, :class:`UnprovedClaim`, and
`NotationError` for a move that cannot be read.
"""

from __future__ import annotations

from chessnb.board.naming import counted
from chessnb.board.position import Position
from chessnb.board.sides import Side
from chessnb.claims.asked import NO_REPETITION, QUIET_END, Asked, check_gain, claim_of, refuse
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, FalseClaim
from chessnb.notation import MoveLike, write_line
from chessnb.proof import Mate, MateOrGain, Perpetual, Proof, Stalemate
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.search.budget import BUDGET
from chessnb.search.refuter import refute_mate


@checked
def mates(
    position: Position,
    *,
    within: int,
    move: MoveLike | None = None,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side mates within so many moves, against every reply.

    Examples
    --------
    >>> mates("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", within=1, move="Ra8#").words
    'White mates in 1 with 1. Ra8#'
    """
    asked = Asked.of(position, side=side, move=move)
    goal = Mate(within=within)
    said = asked.said("mates", f"{within}")
    outcome = asked.proved(said, goal, reason=lambda: _no_mate(asked, within), budget=budget)
    return claim_of(asked, said, outcome, caution=NO_REPETITION if within > 1 else "")


@checked
def fastest_mate(
    position: Position, *, within: int, side: Side | None = None, budget: int = BUDGET
) -> Claim:
    """Claim that a side mates within so many moves, and not within fewer.

    That there is no faster one is replayed where that takes few replies, else searched.

    Examples
    --------
    >>> print(fastest_mate("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", within=1))
    1. | fastest mate | white | 1 | proved
    """
    asked = Asked.of(position, side=side)
    goal = Mate(within=within)
    said = asked.said("fastest mate", f"{within}")
    outcome = asked.proved(said, goal, reason=lambda: _no_mate(asked, within), budget=budget)
    if within > 1:
        faster = asked.prove(Mate(within=within - 1), budget=budget)
        if faster.proof is not None:
            line = faster.proof.main_line
            raise FalseClaim(
                said,
                f"there is a faster mate, in {faster.proof.moves}: {write_line(asked.board, line)}",
                board=asked.board,
                line=line,
            )
        if faster.status == "not settled":
            refuse(asked, said, faster, "")
    caution = ""
    if within > 1:
        how = "every try was replayed"
        if refute_mate(asked.board, within=within - 1, side=asked.side) is None:
            how = "searched, not replayed"
            said = asked.said("fastest mate", f"{within}", status="searched")
        caution = f"No mate in {within - 1}: {how}. {NO_REPETITION}"
    return claim_of(asked, said, outcome, caution=caution)


def _no_mate(asked: Asked, within: int) -> str:
    """Say that there is no mate, and whether that was replayed."""
    board, left = asked.board, within
    if asked.key is not None:
        board, left = board.copy(), within - 1
        board.push(asked.key)
    replayed = left == 0 or refute_mate(board, within=left, side=asked.side) is not None
    return f"no mate in {within} ({'replayed' if replayed else 'searched'})"


@checked
def wins_material(
    position: Position,
    *,
    at_least: int,
    within: int,
    move: MoveLike | None = None,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side gains so many points within so many moves, or mates.

    Points are 1-3-3-5-9, counted at a quiet end of the line and measured as
    :func:`chessnb.proof.balances` says.

    Examples
    --------
    >>> loose = "4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1"
    >>> wins_material(loose, at_least=5, within=1, move="Qxd5").words
    'White wins at least 5 within 1 move with 1. Qxd5'
    """
    asked = Asked.of(position, side=side, move=move)
    check_gain(at_least=at_least, within=within)
    horizon = f"within {counted(within, 'move')}"
    said = asked.said("wins", f"{at_least} points", f"within {within}")
    goal = asked.gain(said, at_least=at_least, within=within)
    reason = f"no gain of {at_least} {horizon} (searched)"
    outcome = asked.proved(said, goal, reason=reason, budget=budget)
    return claim_of(asked, said, outcome, caution=QUIET_END.format(horizon=horizon))


@checked
def mates_or_wins(
    position: Position,
    *,
    mate: int,
    at_least: int,
    within: int,
    move: MoveLike | None = None,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side mates within `mate` moves or gains so many points within `within`."""
    asked = Asked.of(position, side=side, move=move)
    whole_number("mate", mate, most=MOST_MOVES)
    check_gain(at_least=at_least, within=within)
    horizon = f"within {counted(within, 'move')}"
    said = asked.said("mates or wins", f"mate {mate}", f"{at_least} points", f"within {within}")
    gain = asked.gain(said, at_least=at_least, within=within)
    goal = MateOrGain(mate=Mate(within=mate), gain=gain)
    reason = "neither mate nor that gain can be forced (searched)"
    outcome = asked.proved(said, goal, reason=reason, budget=budget)
    return claim_of(asked, said, outcome, caution=QUIET_END.format(horizon=horizon))


@checked
def perpetual(
    position: Position,
    *,
    move: MoveLike | None = None,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side can give check for ever, whatever the other does: a draw at least.

    Where every line of the checks that were found ends in mate, they are no
    perpetual, and the claim is false.
    """
    asked = Asked.of(position, side=side, move=move)
    said = asked.said("perpetual")
    reason = "the checks come to an end (searched)"
    outcome = asked.proved(said, Perpetual(), reason=reason, budget=budget)
    assert outcome.proof is not None
    if not _comes_round(outcome.proof):
        line = outcome.proof.main_line
        reason = f"the checks end in mate: {write_line(asked.board, line)}"
        raise FalseClaim(said, reason, board=asked.board, line=line)
    return claim_of(asked, said, outcome, caution="After every reply there is another check.")


def _comes_round(proof: Proof) -> bool:
    """Tell whether some line of a perpetual reaches a position for the second time."""
    leads_to = {
        index: {child for _, child in node.replies} for index, node in enumerate(proof.nodes)
    }
    while ends := [index for index, children in leads_to.items() if not children & set(leads_to)]:
        for index in ends:
            del leads_to[index]
    return bool(leads_to)


@checked
def forces_stalemate(
    position: Position,
    *,
    within: int,
    move: MoveLike | None = None,
    side: Side | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side forces a stalemate, of either side, within so many moves."""
    asked = Asked.of(position, side=side, move=move)
    goal = Stalemate(within=within)
    said = asked.said("forces stalemate", f"within {within}")
    reason = "the other side need not allow it (searched)"
    outcome = asked.proved(said, goal, reason=reason, budget=budget)
    return claim_of(asked, said, outcome, caution=NO_REPETITION)
