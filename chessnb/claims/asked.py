"""Putting a claim to the solver, and turning the outcome into a claim or a refusal."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import NoReturn, Self

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim
from chessnb.claims.claimed_moves import read_claimed
from chessnb.claims.evidence_lines import ProofLines
from chessnb.diagrams import Mark
from chessnb.findings import Record
from chessnb.findings.record_fields import place_of, side_word
from chessnb.notation import MoveLike, write_line
from chessnb.proof import Gain, Goal, Mate, MateOrGain, TooWild
from chessnb.proof.balances import WILD
from chessnb.proof.goals import MOST_MOVES, MOST_POINTS, gain_of, whole_number
from chessnb.proof.measure import Measure
from chessnb.search.proof_book import book_of
from chessnb.search.prover import Outcome, settle

NO_REPETITION = "Repetition and the 50-move rule are left out."
QUIET_END = "Counted {horizon}, and 3 moves more for whatever would win it back."
TOO_FEW = "the budget of positions was not enough; give it a larger budget=…, or claim less"

HINT_BUDGET = 100_000
"""Positions for finding out whether the other side was meant."""


@dataclass(frozen=True, kw_only=True)
class Asked:
    """A claim before it is proved: where, whose, and with which first move."""

    board: chess.Board
    side: chess.Color
    key: chess.Move | None
    position: Position
    side_given: bool

    @classmethod
    def of(
        cls, position: Position, *, side: Side | None = None, move: MoveLike | None = None
    ) -> Self:
        """Read what a claim function was given.

        Raises
        ------
        ClaimError
            If a first move is given for the side that is not to move.
        InputError
            If the side is neither White nor Black.
        """
        board = read_position(position)
        color = read_side(side, default=board.turn)
        if move is not None and color != board.turn:
            raise ClaimError(
                f"it is {SIDES[board.turn]}'s move, so a first move of {SIDES[color]} cannot be"
                f" claimed here [{board.fen()}]"
            )
        key = None if move is None else read_claimed(position, board, move)
        return cls(board=board, side=color, key=key, position=position, side_given=side is not None)

    @property
    def name(self) -> str:
        """The side in words."""
        return SIDES[self.side]

    def said(self, kind: str, *fields: str, status: str = "proved") -> Record:
        """Return the record of the claim: of its first move, else of its side."""
        whose = () if self.key else (side_word(self.side),)
        place = place_of(self.board, self.key)
        return Record(place=place, kind=kind, fields=(*whose, *fields), status=status)

    def gain(self, said: Record, *, at_least: int, within: int) -> Gain:
        """Return the gain that a claim speaks of, measured from the side's baseline.

        Raises
        ------
        UnprovedClaim
            If nobody can say what the side has to begin with.
        """
        measure = measured(said, self.board, self.measure)
        return Gain(points=at_least, within=within, measure=measure)

    def measure(self) -> Measure:
        """Return what the side's gain is measured from."""
        if self.side == self.board.turn:
            return Measure.gain(self.board)
        before = self.board.copy()
        last = before.pop() if before.move_stack else None
        if last and before.is_valid():
            return Measure.gain(before, since=(last,))
        return Measure.still(self.board)

    def prove(self, goal: Goal, *, budget: int) -> Outcome:
        """Ask the solver, the proof book first."""
        return settle(
            self.board,
            goal,
            side=self.side,
            key=self.key,
            budget=budget,
            position=self.position,
        )

    def proved(
        self, said: Record, goal: Goal, *, reason: str | Callable[[], str], budget: int
    ) -> Outcome:
        """Return the outcome of a goal that is proved.

        Raises
        ------
        FalseClaim
            With `reason` (asked for only then, if it costs something) and the
            line that escapes, or because the game is over.
        UnprovedClaim
            If the budget was spent.
        """
        refuse_if_over(self.board, said)
        outcome = self.prove(goal, budget=budget)
        if outcome.proof is None:
            refuse(self, said, outcome, reason)
        return outcome

    def hint(self, goal: Goal) -> str:
        """Say so if the claim is true of the other side, and no side was named."""
        if self.side_given or self.key is not None:
            return ""
        other = replace(self, side=not self.side)
        gain = gain_of(goal)
        if gain is not None:
            try:
                meant = replace(gain, measure=other.measure())
            except TooWild:
                return ""
            goal = replace(goal, gain=meant) if isinstance(goal, MateOrGain) else meant
        if not other.prove(goal, budget=HINT_BUDGET):
            return ""
        return f"; {other.name}, who just moved, does: if you mean that, add side={other.name!r}"


def check_gain(*, at_least: int, within: int) -> None:
    """Refuse a gain that is no number of points within a number of moves."""
    whole_number("at_least", at_least, most=MOST_POINTS)
    whole_number("within", within, most=MOST_MOVES)


def measured(said: Record, board: chess.Board, measure: Callable[[], Measure]) -> Measure:
    """Return what a gain or a loss is measured from, or refuse the claim that needs it.

    Raises
    ------
    UnprovedClaim
        If so many captures can follow that the balance cannot be worked out.
    """
    try:
        return measure()
    except TooWild:
        raise UnprovedClaim(said, WILD, board=board) from None


def best(outcomes: Iterable[Outcome], none: Outcome | None = None) -> Outcome:
    """Return the first outcome that is proved, else the last that is open, else the last.

    No more are asked for than that takes; `none` is the answer where there are none.
    """
    found = none
    for outcome in outcomes:
        if outcome.proof is not None:
            return outcome
        if found is None or found.status == "false" or outcome.status == "not settled":
            found = outcome
    assert found is not None
    return found


def refuse_if_over(board: chess.Board, said: Record) -> None:
    """Refuse a claim about moves to come where none can come.

    Raises
    ------
    FalseClaim
        In checkmate and stalemate.
    """
    side = SIDES[board.turn]
    if board.is_checkmate():
        raise FalseClaim(said, f"the game is over: {side} is checkmated", board=board)
    if board.is_stalemate():
        raise FalseClaim(said, f"the game is over: {side} is stalemated", board=board)


def claim_of(asked: Asked, said: Record, outcome: Outcome, *, caution: str) -> Claim:
    """Return a claim that is proved; the lines of its proof are written when it is shown."""
    proof = outcome.proof
    assert proof is not None
    lines = ProofLines(board=asked.board, proof=proof)
    marks = () if proof.key is None else (stroke(proof.key),)
    return Claim(
        said=said,
        fen=asked.board.fen(),
        evidence=lines,
        caution=caution,
        marks=marks,
        proof=proof,
    )


def refuse(
    asked: Asked, said: Record, outcome: Outcome, reason: str | Callable[[], str]
) -> NoReturn:
    """Raise what a claim that is not proved deserves.

    Raises
    ------
    FalseClaim
        With the line that escapes.
    UnprovedClaim
        If the budget was spent.
    """
    if outcome.taken is not None:
        refuse_taken(asked.board, said, outcome)
    if outcome.status == "not settled":
        raise UnprovedClaim(
            said,
            f"{outcome.positions:,} positions were not enough; give it a larger budget=…, or"
            f" claim less{_no_proof_file(asked.position, outcome.goal)}",
            board=asked.board,
        )
    line = outcome.escape
    escapes = "holds out longer" if isinstance(outcome.goal, Mate) else "gets away"
    shown = f": {write_line(asked.board, line)} {escapes}" if line else ""
    reason = reason if isinstance(reason, str) else reason()
    raise FalseClaim(said, reason + shown + asked.hint(outcome.goal), board=asked.board, line=line)


def _no_proof_file(position: Position, goal: Goal) -> str:
    """Say so if a lesson's proof file is not there, which may have held a long mate."""
    book = book_of(position)
    if book is None or book.path.exists() or not isinstance(goal, Mate):
        return ""
    return f"; a proof that was found with help would stand in {book.path.name}, which is missing"


def refuse_taken(board: chess.Board, said: Record, outcome: Outcome) -> NoReturn:
    """Raise what a claim deserves of which only the taking is proved.

    Raises
    ------
    FalseClaim
        If what is taken is won back, with the line.
    UnprovedClaim
        If that was not found out; with the line that takes it.
    """
    assert outcome.taken is not None
    if outcome.status == "false":
        line = outcome.escape
        reason = f"it is won back: {write_line(board, line)}" if line else "it is won back"
        raise FalseClaim(said, reason, board=board, line=line)
    line = outcome.taken.main_line
    reason = f"it is taken, {write_line(board, line)}, but perhaps won back: {TOO_FEW}"
    raise UnprovedClaim(said, reason, board=board, line=line)


def stroke(move: chess.Move) -> Mark:
    """Return the mark of a move that is played."""
    return Mark(
        role="force",
        square=chess.square_name(move.from_square),
        to=chess.square_name(move.to_square),
    )
