"""Verdicts: what a move does to a position, in words that a proof stands behind.

"Mates in 3", "mated in 3", "wins" and "loses 5 within 4 moves (rook)" are
proved, and the proof was replayed.  "No mate in 3, no loss within 4 moves" is
searched, not replayed, and says no more than that: it does not mean that the
move is good.  What the budget does not settle is "not settled".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import chess

from chessnb.board.naming import counted
from chessnb.board.points import balance
from chessnb.board.position import Position, read_position
from chessnb.findings.proof_lines import what_went
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_line, write_move
from chessnb.proof import Gain, Mate, Measure, Proof, TooWild
from chessnb.search import core
from chessnb.search.budget import SLICE, Paused, Searching, finish
from chessnb.search.prover import Outcome, Status, ask, outcome_of, running, searching
from chessnb.verdicts.depth import USUAL, Depth, read_depth

Kind = Literal[
    "checkmate", "mates", "wins", "stalemate", "draw", "nothing", "loses", "mated", "not settled"
]
"""What a move does, best first for the side that makes it."""

ORDER: tuple[Kind, ...] = (
    "checkmate",
    "mates",
    "wins",
    "nothing",
    "draw",
    "stalemate",
    "not settled",
    "loses",
    "mated",
)


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """What a move does.

    Attributes
    ----------
    fen : str
        The position before the move.
    move : chess.Move
        The move.
    kind : Kind
        What it does.
    moves : int
        The moves to mate, or the horizon of a gain, of the side that mates or wins.
    points : int
        Points won or lost, 1-3-3-5-9.
    men : str
        What goes, in words (``"rook for bishop"``).
    line : tuple of chess.Move
        What shows it, from the move on.
    proof : Proof or None
        The proof, of the position after the move; None where nothing is claimed.
    depth : Depth
        How far was looked.
    """

    fen: str
    move: chess.Move
    kind: Kind
    moves: int = 0
    points: int = 0
    men: str = ""
    line: tuple[chess.Move, ...] = ()
    proof: Proof | None = None
    depth: Depth = USUAL

    @property
    def board(self) -> chess.Board:
        """The position before the move; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def san(self) -> str:
        """The move in SAN."""
        return write_move(self.board, self.move)

    @property
    def words(self) -> str:
        """The verdict in the plain words of the package."""
        horizon = f"within {counted(self.moves, 'move')}"
        men = f" ({self.men})" if self.men else ""
        match self.kind:
            case "checkmate":
                return "checkmate"
            case "mates":
                return f"mates in {self.moves}"
            case "mated":
                return f"mated in {self.moves}"
            case "wins":
                return f"wins {self.points} {horizon}{men}"
            case "loses":
                return f"loses {self.points} {horizon}{men}"
            case "stalemate":
                return "stalemate, a draw"
            case "draw":
                return "a draw: no mate is possible any more"
            case "nothing":
                return (
                    f"no mate in {self.depth.mate}, "
                    f"no loss within {counted(self.depth.within, 'move')}"
                )
        return "not settled"

    @property
    def written(self) -> str:
        """The line in SAN with numbers."""
        return write_line(self.board, self.line)

    @property
    def rank(self) -> tuple[int, int]:
        """What verdicts are ordered by: the best for the side that moves comes first."""
        place = ORDER.index(self.kind)
        match self.kind:
            case "mates":
                return place, self.moves
            case "wins":
                return place, -self.points
            case "loses":
                return place, self.points
            case "mated":
                return place, -self.moves
        return place, 0

    @property
    def is_bad(self) -> bool:
        """Whether it is proved that the move loses something."""
        return self.kind in ("loses", "mated")


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
    ('checkmate', 'no mate in 3, no loss within 3 moves')
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
    if outcome.status != "false":
        return (
            _told(found, outcome, "mated") if outcome.proof else replace(found, kind="not settled")
        )
    open_question = False
    if depth.mate > 1:
        won = yield from _fastest(after, board.turn, depth.mate - 1, depth)
        if won.proof:
            return _told(found, won, "mates")
        open_question = won.status == "not settled"
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
    lost = yield from _material(after, not board.turn, loss, depth.within, depth.budget)
    if isinstance(lost, Outcome):
        return _told(found, lost, "loses")
    if lost is None:
        return replace(found, kind="not settled")
    if depth.within > 1:
        within = depth.within - 1
        gain = measures.gain.after(found.move)
        won = yield from _material(after, board.turn, gain, within, depth.budget)
        if isinstance(won, Outcome):
            return _told(found, won, "wins")
        if won is None:
            return replace(found, kind="not settled")
    return found


def _told(found: Verdict, outcome: Outcome, kind: Kind) -> Verdict:
    assert outcome.proof is not None
    return proved(found, outcome.proof, kind)


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


def proved(found: Verdict, proof: Proof, kind: Kind) -> Verdict:
    """Return a verdict that says what a proof proves, and nothing that stands elsewhere.

    Parameters
    ----------
    found : Verdict
        The move, of which nothing else is said yet.
    proof : Proof
        A proof of the position after the move, already replayed.
    kind : {"mates", "mated", "wins", "loses"}
        For whom, and of what.
    """
    return (_mate if isinstance(proof.goal, Mate) else _gain)(found, proof, kind)


def _mate(found: Verdict, proof: Proof, kind: Kind) -> Verdict:
    moves = proof.moves + (kind == "mates")
    return replace(found, kind=kind, moves=moves, line=(found.move, *proof.main_line), proof=proof)


def _material(
    after: chess.Board, attacker: chess.Color, measure: Measure, within: int, budget: int
) -> Searching[Outcome | bool | None]:
    """Look for the most that a side wins, in as few moves as that takes.

    Returns the proved outcome; False if it wins nothing; None if that is not
    settled.  An estimate by alpha-beta says what can be won at most within
    each number of moves.  Whether anything is won is asked with the whole
    budget, whether it is more with a few positions.
    """
    base = measure.value
    gains = core.Gains(after.fen(), attacker=attacker, within=within, floor=base)
    while not gains.run(min(SLICE, budget - gains.positions)):
        if gains.positions >= budget:
            return None
        yield gains.positions
    climb = _Climb(board=after, attacker=attacker, measure=measure, budget=budget)
    for moves, value in enumerate(gains.values, start=1):
        yield from climb.up_to(min(value - base, MOST_POINTS), moves)
    return climb.outcome()


MOST_POINTS = 39
"""All that a side has at the start of a game, its king left out."""

GUESS = 20_000
"""So many positions are looked at for a first guess, and for each attempt at more."""


class _Climb:
    """The most that is proved so far, and attempts at more."""

    def __init__(
        self, *, board: chess.Board, attacker: chess.Color, measure: Measure, budget: int
    ) -> None:
        self.board = board
        self.attacker = attacker
        self.measure = measure
        self.budget = budget
        self.points = 0
        self.settled = True
        self.proved: list[tuple[Gain, core.Question]] = []

    def up_to(self, most: int, moves: int) -> Searching[None]:
        """Try to prove more within so many moves, which may win `most` points at most."""
        if most <= self.points:
            return
        guess = min(GUESS, self.budget)
        if most > 1 and (yield from self._asked(most, moves, guess)) == "proved":
            return
        if not self.points:
            self.settled = (yield from self._asked(1, moves, self.budget)) != "not settled"
        if self.points:
            for points in self._between(most):
                if (yield from self._asked(points, moves, guess)) == "proved":
                    return

    def _between(self, most: int) -> list[int]:
        """Return the gains to try: a little less than the most, then the values of men."""
        tries = {most - 1, most - 2, 5, 3, 2}
        return sorted((one for one in tries if self.points < one < most), reverse=True)

    def _asked(self, points: int, moves: int, budget: int) -> Searching[Status]:
        goal = Gain(points=points, within=moves, measure=self.measure)
        question = ask(self.board, goal, self.attacker)
        status = yield from running(question, budget)
        if status == "proved":
            self.points = points
            self.proved.append((goal, question))
        return status

    def outcome(self) -> Outcome | bool | None:
        """Return the most that is proved; False if nothing is won; None if that is open."""
        for goal, question in reversed(self.proved):
            outcome = outcome_of(self.board, goal, self.attacker, question)
            if outcome.proof is not None:
                return outcome
        return None if self.proved or not self.settled else False


def _gain(found: Verdict, proof: Proof, kind: Kind) -> Verdict:
    assert isinstance(proof.goal, Gain)
    line = _to_the_point(found.board, (found.move, *proof.main_line))
    after = found.board
    for move in line:
        after.push(move)
    # The men that go are named only where they are all that was won: part of a
    # loss may be a capture that was due before and is not made any more.
    won = balance(after, proof.attacker) - balance(found.board, proof.attacker)
    men = what_went(found.board, line, proof.attacker) if _fits(won, proof.goal.points) else ""
    return replace(
        found,
        kind=kind,
        # A gain may stand at once: by the move itself, or by a capture made before.
        moves=max(1, proof.moves + (kind == "wins")),
        points=proof.goal.points,
        men=men,
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


def _fits(won: int, points: int) -> bool:
    """Tell whether men that went are what a gain is about: a pawn beside a piece hides nothing."""
    return won == points or (points >= 5 and abs(won - points) == 1)


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
    board: chess.Board, *, depth: Depth = USUAL, measures: Measures | None
) -> Searching[tuple[Verdict, ...]]:
    """Return the search that :func:`verdicts` runs."""
    searches = {
        move: Paused(judging(board, move, depth=depth, measures=measures))
        for move in sorted(board.legal_moves, key=chess.Move.uci)
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
    return tuple(sorted(found, key=lambda verdict: (verdict.rank, verdict.move.uci())))
