"""Claims that a search has to prove: mates, gains, threats, defences, draws by force.

"Mates within n" means: against every reply, mate with the n-th move at the
latest.  A gain is a fact within its horizon, never "wins the game".
Repetition and the 50-move rule are left out of mates and gains.

In every function `position` is a moment of a lesson, a board or a FEN; `side`
is ``"White"`` or ``"Black"``, by default the side to move; `move` is a first
move that the claim is about, as text; `budget` counts positions.  All raise
:class:`FalseClaim`, :class:`UnprovedClaim`, and `NotationError` for a move
that cannot be read.
"""

from __future__ import annotations

from typing import Literal

import chess

from chessnb.claims.asking import (
    NO_REPETITION,
    QUIET_END,
    Asked,
    claim_of,
    refuse,
)
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim
from chessnb.diagram import Mark
from chessnb.notation import read_move, write_line, write_move
from chessnb.notation.words import SIDES, counted
from chessnb.position import Position, board_of
from chessnb.proof import (
    Gain,
    Goal,
    Mate,
    MateOrGain,
    Perpetual,
    Stalemate,
    baseline,
    settled,
    what_went,
)
from chessnb.solver.budget import BUDGET, finish
from chessnb.solver.search import Outcome, after_pass, finding_best_replies, prove
from chessnb.verdicts import Depth, verdict

Side = str | chess.Color | None


def mates(
    position: Position,
    *,
    within: int,
    move: str | None = None,
    side: Side = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side mates within so many moves, against every reply.

    Examples
    --------
    >>> mates("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", within=1, move="Ra8#").line
    'claim: White mates in 1 with 1. Ra8# (proved)'
    """
    asked = Asked.of(position, side=side, move=move)
    text = f"{asked.name} mates in {within}{asked.with_key}"
    outcome = asked.prove(Mate(within=within), budget=budget)
    if not outcome:
        refuse(asked, text, outcome, f"no mate in {within} (searched)")
    return claim_of(asked, text, outcome, caution=NO_REPETITION)


def fastest_mate(
    position: Position, *, moves: int, side: Side = None, budget: int = BUDGET
) -> Claim:
    """Claim that the fastest mate takes exactly so many moves.

    That there is no faster one is searched, not replayed.

    Examples
    --------
    >>> fastest_mate("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", moves=1).line
    "claim: White's fastest mate is in 1 (proved)"
    """
    asked = Asked.of(position, side=side)
    text = f"{asked.name}'s fastest mate is in {moves}"
    outcome = asked.prove(Mate(within=moves), budget=budget)
    if not outcome:
        refuse(asked, text, outcome, f"no mate in {moves} (searched)")
    if moves > 1:
        faster = asked.prove(Mate(within=moves - 1), budget=budget)
        if faster.proof is not None:
            line = faster.proof.main_line
            raise FalseClaim(
                text,
                f"there is a faster mate, in {faster.proof.moves}: {write_line(asked.board, line)}",
                board=asked.board,
                line=line,
            )
        if faster.status == "not settled":
            refuse(asked, text, faster, "")
    caution = f"No mate in {moves - 1}: searched, not replayed. " if moves > 1 else ""
    return claim_of(asked, text, outcome, caution=caution + NO_REPETITION)


def wins_material(
    position: Position,
    *,
    at_least: int,
    within: int,
    move: str | None = None,
    side: Side = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side gains so many points within so many moves, or mates.

    Points are 1-3-3-5-9, counted at a quiet end of the line and measured as
    :func:`chessnb.proof.baseline` says.

    Examples
    --------
    >>> loose = "4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1"
    >>> wins_material(loose, at_least=5, within=1, move="Qxd5").line
    'claim: White wins at least 5 within 1 move with 1. Qxd5 (proved)'
    """
    asked = Asked.of(position, side=side, move=move)
    goal = Gain(points=at_least, within=within, baseline=asked.baseline())
    horizon = f"within {counted(within, 'move')}"
    text = f"{asked.name} wins at least {at_least} {horizon}{asked.with_key}"
    outcome = asked.prove(goal, budget=budget)
    if not outcome:
        refuse(asked, text, outcome, f"no gain of {at_least} {horizon} (searched)")
    return claim_of(asked, text, outcome, caution=QUIET_END.format(horizon=horizon))


def mates_or_wins(
    position: Position,
    *,
    mate: int,
    at_least: int,
    within: int,
    move: str | None = None,
    side: Side = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side mates within `mate` moves or gains so many points within `within`."""
    asked = Asked.of(position, side=side, move=move)
    gain = Gain(points=at_least, within=within, baseline=asked.baseline())
    horizon = f"within {counted(within, 'move')}"
    text = f"{asked.name} mates in {mate} or wins at least {at_least} {horizon}{asked.with_key}"
    outcome = asked.prove(MateOrGain(mate=Mate(within=mate), gain=gain), budget=budget)
    if not outcome:
        refuse(asked, text, outcome, "neither mate nor that gain can be forced (searched)")
    return claim_of(asked, text, outcome, caution=QUIET_END.format(horizon=horizon))


def perpetual(
    position: Position, *, move: str | None = None, side: Side = None, budget: int = BUDGET
) -> Claim:
    """Claim that a side can give check for ever, whatever the other does: a draw at least."""
    asked = Asked.of(position, side=side, move=move)
    text = f"{asked.name} has perpetual check{asked.with_key}"
    outcome = asked.prove(Perpetual(), budget=budget)
    if not outcome:
        refuse(asked, text, outcome, "the checks come to an end (searched)")
    return claim_of(asked, text, outcome, caution="After every reply there is another check.")


def forces_stalemate(
    position: Position,
    *,
    within: int,
    move: str | None = None,
    side: Side = None,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a side forces a stalemate, of either side, within so many moves."""
    asked = Asked.of(position, side=side, move=move)
    text = f"{asked.name} forces stalemate within {counted(within, 'move')}{asked.with_key}"
    outcome = asked.prove(Stalemate(within=within), budget=budget)
    if not outcome:
        refuse(asked, text, outcome, "the other side need not allow it (searched)")
    return claim_of(asked, text, outcome, caution=NO_REPETITION)


# -- threats and defences -----------------------------------------------------


def threatens(
    position: Position,
    move: str,
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
    board = board_of(position)
    side = SIDES[not board.turn]
    text = f"{side} threatens {move}"
    passed = after_pass(board)
    if passed is None:
        raise FalseClaim(
            text,
            f"{SIDES[board.turn]} is in check: it cannot pass, so there is no threat",
            board=board,
        )
    key = read_move(passed, move)
    gain = Gain(points=at_least, within=within, baseline=baseline(passed))
    for goal in (Mate(within=mate), gain):
        outcome = prove(passed, goal, key=key, budget=budget)
        if outcome.proof is not None:
            return _threat(board, passed, key, outcome)
    reason = f"after a pass {write_line(passed, outcome.escape or (key,))} neither mates nor wins"
    if outcome.status == "not settled":
        raise UnprovedClaim(text, "the budget did not settle it", board=board)
    raise FalseClaim(text, f"{reason} at least {at_least} (searched)", board=board)


def _threat(board: chess.Board, passed: chess.Board, key: chess.Move, outcome: Outcome) -> Claim:
    assert outcome.proof is not None
    line = outcome.proof.main_line
    what = _what_a_proof_brings(passed, outcome)
    return Claim(
        fen=board.fen(),
        text=f"{SIDES[passed.turn]} threatens {write_move(passed, key)}, which {what}",
        evidence=(f"If {SIDES[board.turn]} passed: {write_line(passed, line)}.",),
        caution=NO_REPETITION,
        marks=(_stroke(key),),
        proof=outcome.proof,
    )


def _what_a_proof_brings(board: chess.Board, outcome: Outcome) -> str:
    """Say what a proof of the side to move brings: "mates in 2", "wins 5 within 3 moves"."""
    assert outcome.proof is not None
    match outcome.goal:
        case Gain():
            men = what_went(board, outcome.proof.main_line, outcome.attacker)
            horizon = f"within {counted(outcome.goal.within, 'move')}"
            return f"wins at least {outcome.goal.points} {horizon}{f' ({men})' if men else ''}"
        case Mate():
            return f"mates in {outcome.proof.moves}"
    return f"brings {outcome.goal.words}"


def parries(
    position: Position,
    move: str,
    *,
    threat: str | None = None,
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
    board = board_of(position)
    played = read_move(board, move)
    text = f"{_numbered(board, played)} parries the threat"
    passed = after_pass(board)
    if passed is None:
        raise FalseClaim(text, "in check there is no threat but the check itself", board=board)
    key = None if threat is None else read_move(passed, threat)
    gain = Gain(points=at_least, within=within, baseline=baseline(passed))
    found = _first_proved(passed, (Mate(within=mate), gain), key, budget)
    if found.proof is None:
        if found.status == "not settled":
            raise UnprovedClaim(text, "whether there is a threat is not settled", board=board)
        raise FalseClaim(text, "nothing is threatened (searched)", board=board)
    after = board.copy()
    after.push(played)
    still = prove(after, found.goal, budget=budget)
    if still.proof is not None:
        line = (played, *still.proof.main_line)
        raise FalseClaim(
            text, f"the threat remains: {write_line(board, line)}", board=board, line=line
        )
    if still.status == "not settled":
        raise UnprovedClaim(text, "whether the threat remains is not settled", board=board)
    threatened = write_move(passed, found.proof.main_line[0])
    what = _what_a_proof_brings(passed, found)
    return Claim(
        fen=board.fen(),
        text=f"{_numbered(board, played)} parries {threatened}, which {what}",
        evidence=(f"The threat: {write_line(passed, found.proof.main_line)}.",),
        caution="That nothing of the kind is left after the move is searched, not replayed.",
        marks=(_stroke(played),),
        proof=found.proof,
    )


def _first_proved(
    board: chess.Board, goals: tuple[Goal, ...], key: chess.Move | None, budget: int
) -> Outcome:
    """Return the first outcome that is proved, else the last that is not settled, else the last."""
    outcomes = []
    for goal in goals:
        outcomes.append(prove(board, goal, key=key, budget=budget))
        if outcomes[-1].proof is not None:
            return outcomes[-1]
    return next((one for one in outcomes if one.status == "not settled"), outcomes[-1])


def only_defence(
    position: Position,
    move: str,
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
        raise ClaimError(f"against is “mate” or “loss”, not {against!r}")
    board = board_of(position)
    played = read_move(board, move)
    goal: Goal = Mate(within=mate)
    words = f"mate in {mate}"
    if against == "loss":
        base = -settled(board)
        gain = Gain(points=at_least, within=within, baseline=base)
        goal = MateOrGain(mate=Mate(within=mate), gain=gain)
        words += f" or the loss of {at_least} within {counted(within, 'move')}"
    text = f"{_numbered(board, played)} is the only defence against {words}"
    evidence = []
    for reply, outcome in finish(finding_best_replies(board, goal, budget=budget)):
        line = (reply,) if outcome.proof is None else (reply, *outcome.proof.main_line)
        if outcome.status == "not settled":
            raise UnprovedClaim(
                text, f"{_numbered(board, reply)} is not settled", board=board, line=line
            )
        if reply == played and outcome.proof is not None:
            raise FalseClaim(
                text, f"it does not defend: {write_line(board, line)}", board=board, line=line
            )
        if reply != played and outcome.proof is None:
            raise FalseClaim(
                text,
                f"{_numbered(board, reply)} is not lost that way either (searched)",
                board=board,
                line=line,
            )
        if outcome.proof is not None:
            evidence.append(f"{write_line(board, line)}")
            proof = outcome.proof
    if not evidence:
        raise FalseClaim(text, "it is the only legal move", board=board, line=(played,))
    return Claim(
        fen=board.fen(),
        text=text,
        evidence=tuple(f"{line}." for line in evidence),
        caution=(
            "Every other reply is proved lost; that the defence is not lost that way is"
            " searched, not replayed."
        ),
        marks=(_stroke(played),),
        proof=proof,
    )


def loses(
    position: Position,
    move: str,
    *,
    at_least: int = 1,
    within: int = 3,
    mate: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that a move is a mistake: the other side then mates or wins material.

    The loss is measured against the balance that the side to move could keep.
    """
    board = board_of(position)
    played = read_move(board, move)
    depth = Depth(mate=mate, within=within, budget=budget)
    found = verdict(board, played, depth=depth)
    text = f"{_numbered(board, played)} loses at least {at_least}"
    if found.kind == "not settled":
        raise UnprovedClaim(text, "the budget did not settle it", board=board, line=(played,))
    if found.kind == "mated":
        text = f"{_numbered(board, played)} loses: {found.words}"
    elif found.kind != "loses" or found.points < at_least:
        raise FalseClaim(
            text, f"{_numbered(board, played)}: {found.words}", board=board, line=found.line
        )
    punishing = found.line[1] if len(found.line) > 1 else played
    return Claim(
        fen=board.fen(),
        text=text,
        evidence=(f"{found.words[0].upper()}{found.words[1:]}: {found.written}.",),
        caution=QUIET_END.format(horizon=f"within {counted(within, 'move')}"),
        marks=(_stroke(punishing),),
        shown=_shown(board, played),
        last_move=played.uci(),
        proof=found.proof,
    )


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
    board = board_of(position)
    side = SIDES[board.turn]
    text = f"{side} is in zugzwang"
    waiting = after_pass(board)
    if waiting is None:
        raise FalseClaim(text, f"{side} is in check, and zugzwang is about moves", board=board)
    gain = Gain(points=at_least, within=within, baseline=baseline(waiting))
    goal = MateOrGain(mate=Mate(within=mate), gain=gain)
    passed = prove(waiting, goal, budget=budget)
    if passed.proof is not None:
        line = write_line(waiting, passed.proof.main_line)
        raise FalseClaim(text, f"a pass would lose too: {line}", board=board)
    evidence, proof = [], None
    for reply, outcome in finish(finding_best_replies(board, goal, budget=budget)):
        if outcome.status == "not settled" or passed.status == "not settled":
            raise UnprovedClaim(text, "the budget did not settle it", board=board, line=(reply,))
        if outcome.proof is None:
            raise FalseClaim(
                text,
                f"{_numbered(board, reply)} does not lose that way (searched)",
                board=board,
                line=(reply,),
            )
        proof = outcome.proof
        evidence.append(write_line(board, (reply, *proof.main_line)))
    if proof is None:
        raise FalseClaim(text, f"{side} has no legal move: the game is over", board=board)
    return Claim(
        fen=board.fen(),
        text=text,
        evidence=tuple(f"{line}." for line in evidence),
        caution="That passing would not lose is searched, not replayed.",
        proof=proof,
    )


def _stroke(move: chess.Move) -> Mark:
    return Mark(
        role="force",
        square=chess.square_name(move.from_square),
        to=chess.square_name(move.to_square),
    )


def _numbered(board: chess.Board, move: chess.Move) -> str:
    return write_line(board, (move,))


def _shown(board: chess.Board, move: chess.Move) -> str:
    after = board.copy(stack=False)
    after.push(move)
    return after.fen()
