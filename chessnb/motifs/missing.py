"""Why a motif is not there: the first part of its definition that fails."""

from __future__ import annotations

from collections.abc import Callable

import chess

from chessnb.board.naming import counted, listed
from chessnb.board.points import balance
from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs import clearance, decoy, discovery, fork, mating, pin, saving, skewer
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Motif, the
from chessnb.motifs.targets import guards
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
    specific = _PARTS.get(motif.name)
    if specific is not None and (reason := specific(case)):
        return reason, _shown(case)
    if case.proof is None:
        return _wins_nothing(case, geometric=any(True for _ in motif.find(case)))
    if case.in_hand and case.captured is not None:
        words = f"{case.san} wins what it takes, and needs nothing else to happen"
        return words, (case.move,)
    won = write_line(case.before, case.shown)
    return f"what is won is won in another way: {won}", case.shown


def _shown(case: Case) -> tuple[chess.Move, ...]:
    return (case.move, *case.line[:2])


def _wins_nothing(case: Case, *, geometric: bool) -> Reason:
    """Say that nothing is won, with the reply that shows it."""
    start = "the pattern is on the board, but " if geometric else ""
    if case.line and _refutes(case, case.line[0]):
        reply = write_move(case.after, case.line[0])
        return f"{start}after {reply} nothing is proved to be won", (case.move, case.line[0])
    goal = Gain(points=1, within=2, measure=case.measure)
    escape = prove(case.before, goal, key=case.move, budget=case.budget).escape
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


def _follow_up(case: Case) -> tuple[Reply, chess.Move] | None:
    """Return what followed: the reply and our next move, proved or only said."""
    if len(case.line) > 1:
        board = moved(case.after, [case.line[0]])
        reply = Reply(move=case.line[0], board=board, line=case.line[1:])
        return reply, case.line[1]
    for reply in case.critical[:1]:
        if reply.answer is not None:
            return reply, reply.answer
    return None


def _clearance(case: Case) -> str:
    if (follow_up := _follow_up(case)) is None:
        return ""
    reply, answer = follow_up
    left, target = name(case.move.from_square), name(answer.to_square)
    san = write_move(reply.board, answer)
    if case.before.is_legal(answer):
        if case.before.piece_at(answer.to_square) is None:
            return f"the square {target} was free already: {san} could be played at once"
        return f"the way to {target} was open already: {san} could be played at once"
    if answer.from_square == case.move.to_square:
        return f"{san} is played by the man that left {left}, not by another"
    if not clearance.uses(case, reply):
        return f"{san} uses neither the square {left} nor a line through it"
    return ""


def _decoy(case: Case) -> str:
    if (follow_up := _follow_up(case)) is None:
        return ""
    reply, answer = follow_up
    square = case.move.to_square
    if reply.move.to_square != square:
        return (
            f"no man is lured to {name(square)}: {case.them} goes to {name(reply.move.to_square)}"
        )
    san = write_move(reply.board, answer)
    if decoy.hit_by(case, reply) is None:
        return f"after {san} {the(reply.board, square)} is not hit on {name(square)}"
    if case.wins_at_once(answer):
        return f"{san} wins at once as well: nothing need be lured to {name(square)}"
    return ""


def _deflection(case: Case) -> str:
    if (follow_up := _follow_up(case)) is None:
        return ""
    reply, answer = follow_up
    guard, target = reply.move.from_square, answer.to_square
    san = write_move(reply.board, answer)
    barred = guard in chess.SquareSet.between(answer.from_square, target)
    if target not in case.before.attacks(guard) and not barred:
        return f"{the(case.before, guard)} had no duty on {name(target)}"
    if case.wins_at_once(answer):
        return f"{san} wins at once as well: nothing need be drawn away"
    return ""


def _overloaded(case: Case) -> str:
    if (follow_up := _follow_up(case)) is None:
        return ""
    reply, answer = follow_up
    for square in (case.move.to_square, answer.to_square):
        keepers = guards(case.before, square, not case.side)
        if reply.move.from_square not in keepers:
            return f"{the(case.before, reply.move.from_square)} does not guard {name(square)}"
        if len(keepers) > 1:
            men = listed(the(case.before, one) for one in keepers)
            return f"{name(square)} has more than one guard: {men}"
    return ""


def _fork(case: Case) -> str:
    forker = case.move.to_square
    targets = fork.targets_of(case.after, forker, case.side)
    targets += fork.mating_squares(case.after, forker, case.side)
    if len(targets) > 1:
        return ""
    hit = f" only {the(case.after, targets[0])}" if targets else " nothing"
    return f"{the(case.after, forker)} attacks{hit} that is unguarded or worth more than itself"


def _skewer(case: Case) -> str:
    if any(True for _ in skewer.skewers(case.after, case.side)):
        return ""
    return "no line piece attacks a man with another of no greater worth behind it"


def _absolute(case: Case) -> str:
    pins = list(pin.absolute_pins(case.after, case.side))
    return "" if pins else f"no man of {case.them} stands alone between a line piece and its king"


def _relative(case: Case) -> str:
    for one in pin.lined_up(case.after, case.side):
        if not pin.leaving_loses(case.after, case.side, one):
            return f"{the(case.after, one.pinned)} may leave the line without loss"
        return ""
    return f"no man of {case.them} stands before a dearer or an unguarded one on a line"


def _discovered(case: Case) -> str:
    if any(True for _ in discovery.opened(case)):
        return ""
    return f"{the(case.before, case.move.from_square)} opens no line of another piece"


def _double(case: Case) -> str:
    checkers = list(case.after.checkers())
    if len(checkers) > 1:
        return ""
    if not checkers:
        return f"{case.san} gives no check"
    return f"only {the(case.after, checkers[0])} gives check"


def _removing(case: Case) -> str:
    if case.captured is None:
        return ""
    if (target := _guarded_again(case)) is not None:
        taker = the(case.after, case.line[0].from_square)
        return f"{taker} takes back and guards {the(case.before, target)} again"
    if (follow_up := _follow_up(case)) is None:
        return ""
    target = follow_up[1].to_square
    if target in case.before.attacks(case.move.to_square):
        return ""
    return f"{the(case.before, case.move.to_square)} did not guard {name(target)}"


def _guarded_again(case: Case) -> chess.Square | None:
    """Return what the man that was taken guarded, and the one that took back guards now."""
    square = case.move.to_square
    board = moved(case.after, [case.line[0]])
    both = case.before.attacks(square) & board.attacks(square)
    hit = [
        one for one in both & board.occupied_co[not case.side] if board.attackers(case.side, one)
    ]
    return hit[0] if hit else None


def _picture(case: Case) -> str:
    """Say what is wrong with a mating picture: no mate, or which squares are not blocked."""
    board = moved(case.before, list(case.shown))
    king = board.king(board.turn)
    if not board.is_checkmate() or king is None:
        return "it is not mate"
    free = [square for square in mating.around(king) if board.color_at(square) != board.turn]
    if not free:
        return f"{listed(the(board, one) for one in board.checkers())} gives the mate"
    squares = listed(name(square) for square in free)
    return f"no man of the king's own stands on {squares}"


def _perpetual(case: Case) -> str:
    if not case.gives_check:
        return f"{case.san} gives no check"
    if balance(case.before, case.side) > saving.BEHIND:
        return f"{case.us} is not behind, and needs no draw"
    if case.line:
        return f"after {write_move(case.after, case.line[0])} the checks are not proved to go on"
    return ""


def _stalemate(case: Case) -> str:
    if balance(case.before, case.side) > saving.BEHIND:
        return f"{case.us} is not behind, and needs no draw"
    board = moved(case.after, list(case.line[:1]))
    free = sorted(board.legal_moves, key=chess.Move.uci)
    if board.turn != case.side or not free:
        return ""
    return f"it is no stalemate: {case.us} may still play {write_move(board, free[0])}"


_PARTS: dict[str, Callable[[Case], str]] = {
    "clearance": _clearance,
    "decoy": _decoy,
    "deflection": _deflection,
    "overloaded piece": _overloaded,
    "fork": _fork,
    "skewer": _skewer,
    "absolute pin": _absolute,
    "relative pin": _relative,
    "discovered attack": _discovered,
    "discovered check": _discovered,
    "double check": _double,
    "removing the defender": _removing,
    "back-rank mate": _picture,
    "smothered mate": _picture,
    "corridor mate": _picture,
    "epaulette mate": _picture,
    "perpetual check": _perpetual,
    "stalemate trick": _stalemate,
}
