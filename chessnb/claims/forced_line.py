"""The claim that every move of a side along a line is forced.

The proofs of the replies that were not played are put together to one proof
of the whole, where the line ends in checkmate, and replayed as one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import chess
import chess.pgn

from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.claims.answers import Answers, longest_first, numbered, replies_of
from chessnb.claims.asked import NO_REPETITION, stroke
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim, said
from chessnb.claims.evidence_lines import LINES_SHOWN
from chessnb.findings import Record
from chessnb.findings.record_fields import side_word
from chessnb.notation import LineLike, read_line, write_line
from chessnb.proof import Mate, Proof, check, from_answers
from chessnb.proof.goals import MOST_MOVES, whole_number
from chessnb.search.budget import BUDGET


@checked
def forced(
    position: Position,
    line: LineLike | None = None,
    *,
    side: Side | None = None,
    mate: int = 3,
    budget: int = BUDGET,
) -> Claim:
    """Claim that every move of one side along a line is forced.

    A move is forced if it is the only legal one; or

    - in a line that ends in checkmate of the side: if after every other legal
      move the side is mated no later than in the line.  Each is proved, and
      all together are replayed as one proof that the other side mates, from
      its first move in the line on, against every reply;
    - in any other line: if after every other legal move the side is mated
      within `mate` moves (proved and replayed), and after this one it is not
      (searched, not replayed).

    Nothing is claimed of the moves of the other side: it may have had better ones.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the line.
    line : str or sequence of moves, optional
        The moves of both sides.  Left out: the lesson's own moves from the
        position on, to the end of the game or of the sideline.
    side : {"White", "Black"} or chess.Color, optional
        The side whose moves are forced.  Left out: the side that is mated at
        the end of the line, else the one that is in check first, be it before
        the line or in it; in a line without a check the side that answers
        the first move.
    mate : int
        Moves of the other side, within which it mates after anything else, in
        a line that does not end in checkmate.
    budget : int
        Positions for each reply that was not played.

    Raises
    ------
    FalseClaim
        With the first move that is found not to be forced, and what else there was.
    UnprovedClaim
        If the budget does not decide about a reply, and no move is found not to be forced.
    ClaimError
        If there is no line, or no move of the side in it.
    NotationError
        If a move cannot be read, or is not legal.

    Examples
    --------
    >>> smothered = "r4rk1/5Npp/8/8/2Q5/8/8/6K1 w - - 0 1"
    >>> forced(smothered, "Nh6+ Kh8 Qg8+ Rxg8").words
    'from 1. Nh6+ to 2... Rxg8 both moves of Black are forced: each is the only legal one'
    """
    board = read_position(position)
    whole_number("mate", mate, most=MOST_MOVES)
    moves = _moves_of(position, board, line)
    run = _Run.of(board, moves, side=side, mate=mate)
    open_ones: list[UnprovedClaim] = []
    lost: dict[int, list[tuple[chess.Move, Proof]]] = {}
    for step in run.steps():
        try:
            lost[step.number] = step.forced(run, budget)
        except UnprovedClaim as error:  # a later move may be plainly not forced
            open_ones.append(error)
    if open_ones:
        raise open_ones[0]
    return _claim(run, lost)


def _moves_of(
    position: Position, board: chess.Board, line: LineLike | None
) -> tuple[chess.Move, ...]:
    """Read the line; left out, it is what follows in the lesson."""
    if line is None:
        node = getattr(position, "node", position)
        if not isinstance(node, chess.pgn.GameNode):
            raise ClaimError(
                f"a board or a FEN has no moves to come: give the moves as line=… [{board.fen()}]"
            )
        moves = tuple(node.mainline_moves())
        if not moves:
            raise ClaimError(f"the lesson has no move after this position [{board.fen()}]")
    else:
        moves = read_line(board, line)
        if not moves:
            raise ClaimError(f"there is no move in the line [{board.fen()}]")
    if not all(moves):
        raise ClaimError(f"a pass stands in the line, and nobody may pass [{board.fen()}]")
    return moves


@dataclass(frozen=True, kw_only=True)
class _Run:
    """A line, and the side whose moves in it are said to be forced.

    Attributes
    ----------
    board : chess.Board
        The position before the line.
    moves : tuple of chess.Move
        The line.
    side : chess.Color
        The side whose moves are forced.
    mates : int
        The moves of the other side, the last of which mates; 0 if the line does not end so.
    within : int
        Moves within which all else is mated, where it does not.
    claimed : Record
        What is claimed.
    """

    board: chess.Board
    moves: tuple[chess.Move, ...]
    side: chess.Color
    mates: int
    within: int
    claimed: Record

    @classmethod
    def of(
        cls, board: chess.Board, moves: tuple[chess.Move, ...], *, side: Side | None, mate: int
    ) -> _Run:
        hunted = read_side(side, default=_hunted(board, moves))
        turns = [board.turn == (number % 2 == 0) for number in range(len(moves))]
        written = write_line(board, moves)
        if hunted not in turns:
            raise ClaimError(f"{SIDES[hunted]} has no move in {written} [{board.fen()}]")
        mated = _mated(board, moves) == hunted
        mates = turns.count(not hunted) if mated else 0
        if mates > MOST_MOVES:
            reason = f"a mate in {mates} is longer than the {MOST_MOVES} moves that can be proved"
            raise ClaimError(f"{reason} [{board.fen()}]")
        limit = f"mate {mates}" if mated else f"within {mate}"
        claimed = said(board, "forced", side_word(hunted), written, limit, status="proved")
        return cls(board=board, moves=moves, side=hunted, mates=mates, within=mate, claimed=claimed)

    def steps(self) -> Iterator[_Step]:
        """Run through the moves that are said to be forced."""
        board, left = self.board.copy(), self.mates
        for number, move in enumerate(self.moves):
            if board.turn == self.side:
                yield _Step(number=number, board=board.copy(), move=move, left=left)
            else:
                left -= 1
            board.push(move)


def _mated(board: chess.Board, moves: Sequence[chess.Move]) -> chess.Color | None:
    """Return the side that is mated at the end of a line; None if none is."""
    end = board.copy()
    for move in moves:
        end.push(move)
    return end.turn if end.is_checkmate() else None


def _hunted(board: chess.Board, moves: Sequence[chess.Move]) -> chess.Color:
    """Return the side that is meant where none is named: mated, else in check first."""
    if (mated := _mated(board, moves)) is not None:
        return mated
    at = board.copy()
    for move in moves:
        if at.is_check():
            return at.turn
        at.push(move)
    if at.is_check():
        return at.turn
    return board.turn if len(moves) == 1 else not board.turn


@dataclass(frozen=True, kw_only=True)
class _Step:
    """One move that is said to be forced.

    Attributes
    ----------
    number : int
        Which move of the line it is, the first being 0.
    board : chess.Board
        The position before it.
    move : chess.Move
        The move.
    left : int
        The moves that the other side still makes to the mate at the end of the line.
    """

    number: int
    board: chess.Board
    move: chess.Move
    left: int

    def forced(self, run: _Run, budget: int) -> list[tuple[chess.Move, Proof]]:
        """Return how each other legal move is mated, or refuse the claim; empty: there is none."""
        others = [reply for reply in replies_of(self.board) if reply != self.move]
        within = self.left if run.mates else run.within
        answers = Answers(
            board=self.board, claimed=run.claimed, goal=Mate(within=within), budget=budget
        )
        name = numbered(self.board, self.move)
        but = f"{name} is not forced: after {{}} there is no mate in {within} (searched)"
        try:
            lost = answers.lost(others, but=but)
            if lost and not run.mates:
                self._not_mated(answers, name)
        except (FalseClaim, UnprovedClaim) as error:
            raise self._from_the_start(run, error) from None
        return longest_first(lost)

    def _not_mated(self, answers: Answers, name: str) -> None:
        """Refuse a move after which the side is mated as after all others."""
        outcome = answers.asked(self.move)
        if outcome.proof is not None:
            line = (self.move, *outcome.proof.main_line)
            side, shown = SIDES[self.board.turn], write_line(self.board, line)
            reason = f"{name} is not forced: {side} is mated after it too, {shown}"
            raise FalseClaim(answers.claimed, reason, board=self.board, line=line)
        if outcome.status == "not settled":
            raise answers.open(self.move)

    def _from_the_start(self, run: _Run, error: FalseClaim | UnprovedClaim) -> Exception:
        """Return an error about this position as one about the position of the claim."""
        line = (*run.moves[: self.number], *error.moves)
        return type(error)(run.claimed, error.reason, board=run.board, line=line)


def _claim(run: _Run, lost: dict[int, list[tuple[chess.Move, Proof]]]) -> Claim:
    """Return the claim of which every move is found to be forced."""
    answered = sum(map(bool, lost.values()))
    counts = (len(lost) - answered, "only moves"), (answered, "others mated")
    limit = run.claimed.fields[2:] if run.mates or answered else ()
    fields = (
        *run.claimed.fields[:2],
        *limit,
        *(f"{words} {count}" for count, words in counts if count),
    )
    status = "rules" if not answered else "proved" if run.mates else "searched"
    caution = NO_REPETITION if run.mates > 1 else ""
    if answered and not run.mates:
        caution = (
            "All else is proved to be mated; that the moves of the line are not mated so soon is"
            " searched, not replayed."
        )
    others = [proof for replies in lost.values() for _, proof in replies]
    whole = _whole(run, lost) if run.mates else max(others, key=_length, default=None)
    return Claim(
        said=replace(run.claimed, fields=fields, status=status),
        fen=run.board.fen(),
        evidence=(f"{write_line(run.board, run.moves)}.", *_instead(run, lost)),
        caution=caution,
        marks=(stroke(run.moves[0]),),
        proof=whole,
    )


def _length(proof: Proof) -> int:
    return proof.moves


def _instead(run: _Run, lost: dict[int, list[tuple[chess.Move, Proof]]]) -> list[str]:
    """Write how the moves are mated that were not played; of many, the first."""
    lines = [
        f"Instead of {numbered(step.board, step.move)}:"
        f" {write_line(step.board, (reply, *proof.main_line))}."
        for step in run.steps()
        for reply, proof in lost[step.number]
    ]
    more = len(lines) - LINES_SHOWN
    return lines if more <= 0 else [*lines[:LINES_SHOWN], f"and {more} more lines."]


# -- one proof of the whole --------------------------------------------------------------------


def _whole(run: _Run, lost: dict[int, list[tuple[chess.Move, Proof]]]) -> Proof:
    """Put the line and the proofs of all other replies together, and replay that."""
    replies: list[Any] = []
    node: list[Any] = []
    for number in reversed(range(len(run.moves))):
        played = run.moves[number].uci()
        if number in lost:
            others = [[reply.uci(), _as_answers(proof)] for reply, proof in lost[number]]
            replies = [[played, node], *others]
        else:
            node = [played, False, replies]
    root = [None, False, replies] if 0 in lost else node
    goal = Mate(within=run.mates)
    proof = from_answers(root, fen=run.board.fen(), attacker=not run.side, goal=goal)
    check(proof)
    return proof


def _as_answers(proof: Proof) -> list[Any]:
    """Return a proof as the nested lists that proofs are made of."""
    made: dict[int, list[Any]] = {}
    for index in reversed(range(len(proof.nodes))):
        node = proof.nodes[index]
        further = [[reply, made[child]] for reply, child in node.replies]
        made[index] = [node.move or None, node.stands, further]
    return made[0]
