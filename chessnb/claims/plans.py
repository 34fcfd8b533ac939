"""Claims about the other side's plans: threats, defences, mistakes, zugzwang.

What would be done after a pass, or after each reply, is proved; that a move
prevents it is searched, not replayed, and the claim says so.  `mate` and
`within` count moves of the side that mates or wins; `at_least` is points,
1-3-3-5-9; `budget` counts positions for each question.  All raise
:class:`FalseClaim`, :class:`UnprovedClaim`, and `NotationError` for a move
that cannot be read.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Literal

import chess

from chessnb.board.naming import counted
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.claims.answers import Answers, after_move, longest_first, replies_of
from chessnb.claims.asked import (
    NO_REPETITION,
    QUIET_END,
    TOO_FEW,
    best,
    measured,
    refuse_if_over,
    stroke,
)
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim, said
from chessnb.claims.claimed_moves import read_claimed, read_threat
from chessnb.claims.evidence_lines import cautioned
from chessnb.errors import as_given
from chessnb.findings import Record
from chessnb.findings.proof_lines import what_went
from chessnb.findings.record import quoted
from chessnb.notation import MoveLike, write_line, write_move
from chessnb.proof import Gain, Goal, Mate, MateOrGain
from chessnb.proof.balances import WILD
from chessnb.proof.goals import MOST_MOVES, MOST_POINTS, gain_of, whole_number
from chessnb.proof.goals import after as goal_after
from chessnb.proof.measure import Measure
from chessnb.search.budget import BUDGET, finish
from chessnb.search.prover import Outcome, prove
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import Measures, judging
from chessnb.verdicts.mistake import costing_less
from chessnb.verdicts.move_verdict import Verdict


@checked
def threatens(
    position: Position,
    move: MoveLike,
    *,
    mate: int = 3,
    at_least: int = 1,
    within: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that the side that is not to move threatens a move: it would mate or win material.

    If the other side passed, the move would mate within `mate` moves or win
    at least `at_least` points within `within`.

    Raises
    ------
    FalseClaim
        Also in check, where nobody can pass and there is no threat.
    """
    board = read_position(position)
    other = SIDES[board.turn]
    claimed = said(board, "threatens", quoted(str(move)))
    passed = _passed(board, claimed, f"{other} is in check and cannot pass: there is no threat")
    key = read_threat(position, board, passed, move)
    claimed = said(board, "threatens", write_move(passed, key))
    found = best(_aims(passed, mate, at_least, within, key=key, budget=budget))
    if found.proof is not None:
        return Claim(
            said=said(board, "threatens", *claimed.fields, *_brings(found), status="proved"),
            fen=board.fen(),
            evidence=(f"If {other} passed: {_told(passed, found)}.",),
            caution=_caution_of(found),
            marks=(stroke(key),),
            proof=found.proof,
        )
    if found.status == "not settled":
        raise UnprovedClaim(claimed, TOO_FEW, board=board)
    shown = write_line(passed, found.escape or (key,))
    raise FalseClaim(
        claimed,
        f"if {other} passed, {shown} would neither mate within {counted(mate, 'move')} nor win"
        f" {at_least} within {counted(within, 'move')} (searched)",
        board=board,
    )


def _caution_of(found: Outcome) -> str:
    """Say what a threat leaves out: of material, what quiet moves may take back."""
    assert found.proof is not None
    if isinstance(found.goal, Gain):
        horizon = f"within {counted(found.goal.within, 'move')}"
        return cautioned(QUIET_END.format(horizon=horizon), found.proof)
    return NO_REPETITION


def _passed(board: chess.Board, claimed: Record, reason: str) -> chess.Board:
    """Return the position after a pass, or refuse a claim that needs one."""
    refuse_if_over(board, claimed)
    passed = after_pass(board)
    if passed is None:
        raise FalseClaim(claimed, reason, board=board)
    return passed


def _aims(
    passed: chess.Board,
    mate: int,
    at_least: int,
    within: int,
    *,
    key: chess.Move | None,
    budget: int,
) -> Iterator[Outcome]:
    """Yield what a threat may aim at, the fastest mate first, each as far as it is proved."""
    whole_number("mate", mate, most=MOST_MOVES)
    whole_number("at_least", at_least, most=MOST_POINTS)
    gain = Gain(points=at_least, within=within, measure=Measure.gain(passed))
    goals: list[Goal] = [*(Mate(within=moves) for moves in range(1, mate + 1)), gain]
    for goal in goals:
        yield prove(passed, goal, move=key, budget=budget)


def _brings(found: Outcome) -> tuple[str, ...]:
    """Return what a threat brings, as fields of a record: the same for every proof of its goal."""
    gain = gain_of(found.goal)
    if gain is not None:
        return f"{gain.points} points", f"within {gain.within}"
    assert isinstance(found.goal, Mate)
    return (f"mate {found.goal.within}",)


def _remains(found: Outcome) -> str:
    """Say what a proof still brings after a move that was to prevent it."""
    assert found.proof is not None
    gain = gain_of(found.goal)
    if gain is None or found.proof.mates:
        return "mate" if found.proof.moves == 1 else f"mate in {found.proof.moves}"
    return gain.words


def _told(board: chess.Board, found: Outcome) -> str:
    """Write a proof's main line, and what it wins."""
    assert found.proof is not None
    line = found.proof.main_line
    men = what_went(board, line, found.attacker) if isinstance(found.goal, Gain) else ""
    return f"{write_line(board, line)}, winning {men}" if men else write_line(board, line)


@checked
def parries(
    position: Position,
    move: MoveLike,
    *,
    threat: MoveLike | None = None,
    mate: int = 3,
    at_least: int = 1,
    within: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that there is a threat, and that a move parries it.

    Before the move, the other side would mate or win material after a pass
    (with `threat`, by that move); after it, it cannot reach the same goal any
    more.  The second half is searched, not replayed.
    """
    board = read_position(position)
    played = read_claimed(position, board, move)
    claimed = said(board, "parries", move=played)
    passed = _passed(board, claimed, "in check there is no threat but the check itself")
    key = None if threat is None else read_threat(position, board, passed, threat)
    if key is not None:
        claimed = replace(claimed, fields=(write_move(passed, key),))
    found = best(_aims(passed, mate, at_least, within, key=key, budget=budget))
    if found.proof is None:
        if found.status == "not settled":
            raise UnprovedClaim(claimed, TOO_FEW, board=board)
        what = "nothing" if key is None else f"nothing by {write_move(passed, key)}"
        raise FalseClaim(claimed, f"{what} is threatened (searched)", board=board)
    claimed = replace(claimed, fields=(*claimed.fields, *_brings(found)))
    after = after_move(board, played)
    still = prove(after, _still(board, played, found.goal, mate), budget=budget)
    if still.proof is not None:
        line = (played, *still.proof.main_line)
        reason = f"{_remains(still)} remains: {write_line(board, line)}"
        raise FalseClaim(claimed, reason, board=board, line=line)
    if still.status == "not settled":
        raise UnprovedClaim(claimed, TOO_FEW, board=board)
    return Claim(
        said=replace(claimed, status="searched"),
        fen=board.fen(),
        evidence=(f"The threat: {_told(passed, found)}.",),
        caution="That nothing of the kind is left after the move is searched, not replayed.",
        marks=(stroke(played),),
        proof=found.proof,
    )


def _still(board: chess.Board, played: chess.Move, threatened: Goal, mate: int) -> Goal:
    """Return what must be prevented: the threat, and a mate that only comes later.

    A check that is no defence puts the mate off by a move, so that much more is looked at.
    """
    later = Mate(within=min(MOST_MOVES, mate + board.gives_check(played)))
    if isinstance(threatened, Gain):
        measure = Measure.threat(board, since=(played,))
        return MateOrGain(mate=later, gain=replace(threatened, measure=measure))
    return later


@checked
def only_defence(
    position: Position,
    move: MoveLike,
    *,
    against: Literal["mate", "loss"] = "mate",
    mate: int = 3,
    at_least: int = 1,
    within: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that one reply alone saves the side to move from mate, or from loss.

    Every other reply is proved to be mated within `mate` moves (with
    ``against="loss"``: or to lose at least `at_least` points within `within`);
    the one is searched and not lost that way.
    """
    if against not in ("mate", "loss"):
        raise ClaimError(f"against is “mate” or “loss”, not {as_given(against)}")
    board = read_position(position)
    played = read_claimed(position, board, move)
    whole_number("mate", mate, most=MOST_MOVES)
    whole_number("at_least", at_least, most=MOST_POINTS)
    whole_number("within", within, most=MOST_MOVES)
    fields = [f"mate {mate}"]
    if against == "loss":
        fields += [f"{at_least} points", f"within {within}"]
    claimed = said(board, "only defence", *fields, move=played, status="searched")
    if board.legal_moves.count() == 1:
        reason = "it is the only legal move: claim that with only_legal_reply"
        raise FalseClaim(claimed, reason, board=board, line=(played,))
    goal: Goal = Mate(within=mate)
    if against == "loss":
        measure = measured(claimed, board, partial(Measure.loss, board))
        gain = Gain(points=at_least, within=within, measure=measure)
        goal = MateOrGain(mate=Mate(within=mate), gain=gain)
    answers = Answers(board=board, claimed=claimed, goal=goal, budget=budget)
    answers.saves(played)
    others = [reply for reply in replies_of(board) if reply != played]
    lost = longest_first(answers.lost(others, but="{} is not lost that way either (searched)"))
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=tuple(f"{write_line(board, (reply, *proof.main_line))}." for reply, proof in lost),
        caution=(
            "Every other reply is proved lost; that the defence is not lost that way is"
            " searched, not replayed."
        ),
        marks=(stroke(played),),
        proof=lost[-1][1],
    )


@checked
def loses(
    position: Position,
    move: MoveLike,
    *,
    at_least: int = 1,
    within: int = 3,
    mate: int = 3,
    better: MoveLike | None = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a move loses: the other side then mates or wins material, and keeps it.

    The loss is measured from the balance on the board (just after a capture:
    from the balance before it, where taking back pays).  Not to take what
    hangs misses something, and loses nothing.

    With `better` it is claimed too that this move costs at least two points less, or that
    no such mate follows it: searched one move deeper than the loss, not replayed.
    """
    board = read_position(position)
    played = read_claimed(position, board, move)
    whole_number("at_least", at_least, most=MOST_POINTS)
    depth = Depth(mate=mate, within=within, budget=budget)
    measures = Measures.of(board)
    found = finish(judging(board, played, depth=depth, measures=measures))
    lost = (f"{at_least} points", f"within {within}")
    claimed = said(board, "loses", *lost, move=played, status="proved")
    if found.kind == "not settled":
        reason = WILD if measures is None else TOO_FEW
        raise UnprovedClaim(claimed, reason, board=board, line=(played,))
    mated = found.kind == "mated"
    if mated:
        claimed = replace(claimed, kind="allows mate", fields=(f"{found.moves}",))
    elif found.kind not in ("loses", "offers") or not found.kept or found.points < at_least:
        searched = " (searched)" if found.kind == "nothing" else ""
        raise FalseClaim(claimed, found.words + searched, board=board, line=found.line)
    horizon = f"within {counted(within, 'move')}"
    caution = NO_REPETITION if mated else QUIET_END.format(horizon=horizon)
    if better is not None:
        other = read_claimed(position, board, better)
        named = (*claimed.fields, f"better {write_move(board, other)}")
        claimed = replace(claimed, fields=named, status="searched")
        _check_better(claimed, found, other)
        caution += f" That {write_line(board, (other,))} is better is searched, not replayed."
    punishing = found.line[1] if len(found.line) > 1 else played
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=(f"{found.written}." if mated else f"{found.written}: loses {found.material}.",),
        caution=caution,
        marks=(stroke(punishing),),
        shown=_shown(board, played),
        last_move=played.uci(),
        proof=found.proof,
    )


@checked
def zugzwang(
    position: Position,
    *,
    mate: int = 3,
    at_least: int = 1,
    within: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that the side to move is in zugzwang: every move loses, and passing would not.

    After every legal move the other side mates within `mate` moves or gains
    `at_least` points within `within`; if the side could pass, nothing of the
    kind can be proved (searched, not replayed).
    """
    board = read_position(position)
    whole_number("mate", mate, most=MOST_MOVES)
    whole_number("at_least", at_least, most=MOST_POINTS)
    whole_number("within", within, most=MOST_MOVES)
    lost = (f"mate {mate}", f"{at_least} points", f"within {within}")
    claimed = said(board, "zugzwang", *lost, status="searched")
    waiting = _passed(board, claimed, f"{SIDES[board.turn]} is in check and could not pass")
    gain = Gain(points=at_least, within=within, measure=Measure.threat(board))
    goal = MateOrGain(mate=Mate(within=mate), gain=gain)
    passed = prove(waiting, goal_after(goal, chess.Move.null()), budget=budget)
    if passed.proof is not None:
        line = write_line(waiting, passed.proof.main_line)
        raise FalseClaim(claimed, f"a pass would lose too, after {line}", board=board)
    answers = Answers(board=board, claimed=claimed, goal=goal, budget=budget)
    proofs = answers.lost(replies_of(board), but="{} does not lose that way (searched)")
    proofs.sort(key=lambda entry: -entry[1].moves)  # the longest resistance first
    if passed.status == "not settled":
        raise UnprovedClaim(claimed, f"after a pass {TOO_FEW}", board=board)
    return Claim(
        said=claimed,
        fen=board.fen(),
        evidence=tuple(
            f"{write_line(board, (reply, *proof.main_line))}." for reply, proof in proofs
        ),
        caution=cautioned("That passing would not lose is searched, not replayed.", proofs[0][1]),
        proof=proofs[-1][1],
    )


def _check_better(claimed: Record, found: Verdict, other: chess.Move) -> None:
    """Refuse a claim whose better move is none, or is not shown to be."""
    board = found.board
    if other == found.move:
        raise ClaimError(f"{write_line(board, (other,))} cannot be better than itself")
    if finish(costing_less(found, other)):
        return
    depth = Depth(mate=max(3, found.moves), within=max(3, found.moves))
    costs = finish(judging(board, other, depth=depth, measures=Measures.of(board)))
    if costs.is_bad or costs.kind == "offers":
        raise FalseClaim(claimed, costs.words, board=board, line=costs.line)
    raise UnprovedClaim(claimed, TOO_FEW, board=board, line=(other,))


def _shown(board: chess.Board, move: chess.Move) -> str:
    return after_move(board, move).fen()
