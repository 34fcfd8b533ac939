"""Verdicts: what a move does to a position, in words that a proof stands behind.

"Mates in 3", "mated in 3", "wins a rook" and "loses a rook" are proved, and
the proof was replayed; that the rook is not won back is searched.  "Nothing
wrong found in 3 moves" is searched, and says no more than that: it does not
mean that the move is good.  A move that leaves something to the very next
capture *offers* it: what an offer is worth cannot be counted in points, so it
is not called a mistake.  Where the budget gives out the answer is "not proved".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import chess

from chessnb.board.exchange import gain_on, takes_on
from chessnb.board.points import balance
from chessnb.board.position import Position, read_position
from chessnb.findings.proof_lines import what_went
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move
from chessnb.proof import Gain, Mate, Measure, Proof, TooWild
from chessnb.proof.certificate import MATED
from chessnb.search.budget import Paused, Searching, finish
from chessnb.search.most_won import Most, finding_most
from chessnb.search.prover import Outcome, searching
from chessnb.verdicts.depth import USUAL, Depth, read_depth
from chessnb.verdicts.move_verdict import Kind, Verdict


@checked
def verdict(position: Position, move: MoveLike, *, depth: Depth = USUAL) -> Verdict:
    """Say what a move does.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position before the move.
    move : str or chess.Move
        A legal move there.
    depth : Depth
        How far to look.

    Returns
    -------
    Verdict
        From the point of view of the side that moves.

    Raises
    ------
    NotationError
        If it is not one legal move.

    Examples
    --------
    >>> position = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
    >>> verdict(position, "Ra8#").words, verdict(position, "Ra7").words
    ('checkmate', 'nothing wrong found in 3 moves')
    """
    board = read_position(position)
    played = read_move(board, move)
    depth = read_depth(depth)
    return finish(judging(board, played, depth=depth, measures=Measures.of(board)))


@dataclass(frozen=True, kw_only=True)
class Measures:
    """What losses and gains in a position are measured from, the same for all its moves.

    Attributes
    ----------
    loss : Measure
        What the side to move has: whoever ends with less has lost something.
    gain : Measure
        What it must exceed to have won something.
    """

    loss: Measure
    gain: Measure

    @classmethod
    def of(cls, board: chess.Board) -> Measures | None:
        """Measure a position; None where so many captures can follow that nobody can."""
        try:
            return cls(loss=Measure.loss(board), gain=Measure.gain(board))
        except TooWild:
            return None


def judging(
    board: chess.Board,
    move: chess.Move,
    *,
    depth: Depth = USUAL,
    measures: Measures | None,
) -> Searching[Verdict]:
    """Return the search that :func:`verdict` runs; the move is legal.

    Without measures only mates are looked for, and the rest is not settled.
    """
    after = board.copy()
    after.push(move)
    found = Verdict(fen=board.fen(), move=move, kind="nothing", line=(move,), depth=depth)
    if over := game_over(after):
        return replace(found, kind=over)
    outcome = yield from _fastest(after, not board.turn, depth.mate, depth)
    if outcome.proof:
        return _told(found, outcome, "mated")
    open_question = outcome.status == "not settled"
    if depth.mate > 1:
        won = yield from _fastest(after, board.turn, depth.mate - 1, depth)
        if won.proof:
            return _told(found, won, "mates")
        open_question |= won.status == "not settled"
    if measures is None:
        return replace(found, kind="not settled")
    judged = yield from _judging_material(found, board, after, measures)
    if open_question and judged.kind == "nothing":  # then "no mate" would say too much
        return replace(found, kind="not settled")
    return judged


def _judging_material(
    found: Verdict, board: chess.Board, after: chess.Board, measures: Measures
) -> Searching[Verdict]:
    depth = found.depth
    loss = measures.loss.after(found.move)
    lost = yield from finding_most(after, not board.turn, loss, depth.within, depth.budget)
    offered = _offered(found, after, lost)
    if lost.won is not None and offered is None:
        return _told(found, lost.won, "loses", lost.line)
    if offered is None and not lost.settled:
        return replace(found, kind="not settled")
    if depth.within > 1:
        within = depth.within - 1
        gain = measures.gain.after(found.move)
        won = yield from finding_most(after, board.turn, gain, within, depth.budget)
        if won.won is not None:
            return _told(found, won.won, "wins", won.line)
        if offered is None and won.taken is None and not won.settled:
            return replace(found, kind="not settled")
    return offered or found


def is_offer(after: chess.Board, proof: Proof) -> bool:
    """Tell whether all that a proof takes is what the very next capture takes.

    What a fork, a pin or a trap wins is no offer: the exchange on the square
    of that capture must bring as much, and so much as stands on the board: a
    piece that the move had to take in any case is no part of it.

    Parameters
    ----------
    after : chess.Board
        The proof's position, the side that takes to move.
    proof : Proof
        A proof of a gain.
    """
    key = proof.answer()
    if key is None or not after.is_capture(key) or not isinstance(proof.goal, Gain):
        return False
    goal = proof.goal
    taken = goal.measure.value + goal.points - balance(after, proof.attacker)
    return gain_on(after, key.to_square) >= max(goal.points, taken)


def _offered(found: Verdict, after: chess.Board, lost: Most) -> Verdict | None:
    """Return the verdict that the very next capture takes what is lost, or None.

    A loss of all that is proved to be kept, or of what is only proved to be taken.
    """
    taking = lost.taken if lost.won is None else lost.won
    proof = None if taking is None else taking.proof or taking.taken
    if proof is None or not is_offer(after, proof):
        return None
    line = lost.line or proof.main_line
    return replace(proved(found, proof, "offers", line), kept=lost.won is not None)


def _told(found: Verdict, outcome: Outcome, kind: Kind, line: Sequence[chess.Move] = ()) -> Verdict:
    assert outcome.proof is not None
    return proved(found, outcome.proof, kind, line)


def game_over(after: chess.Board) -> Kind | None:
    """Return how a move ends the game; None if it does not."""
    if after.is_checkmate():
        return "checkmate"
    if after.is_stalemate():
        return "stalemate"
    return "draw" if after.is_insufficient_material() else None


def _fastest(
    after: chess.Board, attacker: chess.Color, within: int, depth: Depth
) -> Searching[Outcome]:
    """Look for the fastest mate of a side within a length that is small."""
    whole = yield from _mating(after, attacker, within, depth)
    if whole.proof:
        for moves in range(1, within):
            faster = yield from _mating(after, attacker, moves, depth)
            if faster.proof:
                return faster
    return whole


def _mating(
    after: chess.Board, attacker: chess.Color, within: int, depth: Depth
) -> Searching[Outcome]:
    goal = Mate(within=within)
    return (yield from searching(after, goal, attacker, None, depth.budget, explain=False))


def proved(found: Verdict, proof: Proof, kind: Kind, line: Sequence[chess.Move] = ()) -> Verdict:
    """Return a verdict that says what a proof proves, and nothing that stands elsewhere.

    Parameters
    ----------
    found : Verdict
        The move, of which nothing else is said yet.
    proof : Proof
        A proof of the position after the move, already replayed.
    kind : {"mates", "mated", "wins", "loses", "offers"}
        For whom, and of what.
    line : sequence of chess.Move
        What shows a gain, after the move; the proof's main line if it is left out.
    """
    if isinstance(proof.goal, Mate) or proof.outcome == MATED:
        return _mate(found, proof, "mates" if kind == "wins" else kind)
    return gained(found, proof, kind, line or proof.main_line)


def _mate(found: Verdict, proof: Proof, kind: Kind) -> Verdict:
    kind = "mated" if kind in ("loses", "offers") else kind
    moves = proof.moves + (kind == "mates")
    return replace(found, kind=kind, moves=moves, line=(found.move, *proof.main_line), proof=proof)


def gained(found: Verdict, proof: Proof, kind: Kind, moves: Sequence[chess.Move]) -> Verdict:
    """Return a verdict of material that is won or lost: the line, and the pieces that go in it.

    Parameters are those of :func:`proved`; `moves` follow the move that is judged.
    """
    assert isinstance(proof.goal, Gain)
    line = _to_the_point(found.board, (found.move, *moves))
    after = found.board
    promoted = False
    for move in line:
        promoted |= bool(move.promotion) and after.turn != proof.attacker
        after.push(move)
    # The pieces that go are named only where they are all that was won: part of a
    # loss may be a capture that was due before and is not made any more.
    won = balance(after, proof.attacker) - balance(found.board, proof.attacker)
    named = won == proof.goal.points and not promoted and not after.is_checkmate()
    pieces = what_went(found.board, line, proof.attacker) if named else ""
    return replace(
        found,
        kind=kind,
        # A gain may stand at once: by the move itself, or by a capture made before.
        moves=max(1, proof.moves + (kind == "wins")),
        points=proof.goal.points,
        pieces=pieces,
        line=line,
        proof=proof,
    )


def _to_the_point(board: chess.Board, line: Sequence[chess.Move]) -> tuple[chess.Move, ...]:
    """Return a line without the quiet moves at its end, which show nothing; two moves at least."""
    until = min(2, len(line))
    for number, move in enumerate(line, start=1):
        if board.is_capture(move) or move.promotion:
            until = max(until, number)
        board.push(move)
    return tuple(line) if board.is_checkmate() else tuple(line[:until])


@checked
def verdicts(position: Position, *, depth: Depth = USUAL) -> tuple[Verdict, ...]:
    """Say what every legal move does, best first.

    Raises
    ------
    PositionError
        If the position cannot be played on.

    Notes
    -----
    Costs a few hundredths of a second for each move where the solver is
    compiled.
    """
    board = read_position(position)
    depth = read_depth(depth)
    return finish(judging_all(board, depth=depth, measures=Measures.of(board)))


FIRST_LOOK = 50_000
"""Positions for each of many moves, before any gets more."""

SECOND_LOOK = 2
"""For all moves together that the first look leaves open: so many times a question's budget."""


def judging_all(
    board: chess.Board,
    *,
    depth: Depth = USUAL,
    measures: Measures | None,
    taking: chess.Square | None = None,
) -> Searching[tuple[Verdict, ...]]:
    """Return the search that :func:`verdicts` runs; `taking`: of what takes there alone."""
    moves = list(board.legal_moves) if taking is None else takes_on(board, taking)
    searches = {
        move: Paused(judging(board, move, depth=depth, measures=measures))
        for move in sorted(moves, key=chess.Move.uci)
    }
    try:
        for search in searches.values():
            yield from search.run(FIRST_LOOK)
        rest = SECOND_LOOK * depth.budget
        for search in searches.values():
            before = search.spent
            yield from search.run(rest)
            rest -= search.spent - before
    finally:
        for search in searches.values():
            search.close()
    found = [
        search.answer
        or Verdict(fen=board.fen(), move=move, kind="not settled", line=(move,), depth=depth)
        for move, search in searches.items()
    ]
    if taking is None and not any(verdict.kind in NOT_WORSE for verdict in found):
        found = [_no_offer(verdict) for verdict in found]
    return tuple(sorted(found, key=lambda verdict: (verdict.rank, verdict.move.uci())))


NOT_WORSE = ("checkmate", "mates", "wins", "nothing", "draw", "stalemate", "not settled")
"""What a move may do beside which another one that offers something had a choice."""


def _no_offer(verdict: Verdict) -> Verdict:
    """Call an offer a loss, where every move loses: it was no choice."""
    if verdict.kind != "offers":
        return verdict
    return replace(verdict, kind="loses" if verdict.kept else "not settled")
