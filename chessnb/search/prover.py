"""The solver's Python face: questions about a position, and answers that are proved.

Every positive answer has been replayed by :func:`chessnb.proof.check` before
it leaves this module.  A negative answer ("no mate in 3") is searched, not
replayed.  What the budget does not settle is said to be not settled.

Each function has a twin that returns the search itself (``proving`` for
``prove``), to be run in slices; see :mod:`chessnb.search.budget`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import chess

from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.errors import IllegalMove, as_given
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move
from chessnb.proof import (
    Gain,
    Goal,
    GoalError,
    Perpetual,
    Proof,
    check,
)
from chessnb.proof.certificate import from_answers
from chessnb.proof.goals import gain_of, whole_number
from chessnb.search import core
from chessnb.search.budget import BUDGET, MOST_POSITIONS, SLICE, Searching, finish
from chessnb.search.comebacks import (
    KEEPING,
    End,
    comeback_line,
    comebacks_against,
    coming_back,
    keeps,
)
from chessnb.search.endless_checks import finding_perpetual
from chessnb.search.proof_book import ProofBook, book_of
from chessnb.search.race import WORDS, Race, Status, ask, tracks_of


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What a search has found out about a goal.

    Attributes
    ----------
    fen : str
        The position.
    attacker : chess.Color
        The side whose goal it is.
    goal : Goal
        What was asked.
    status : {"proved", "false", "not settled"}
        The answer.
    proof : Proof or None
        The proof, replayed by the checker, if it is proved.
    escape : tuple of chess.Move
        If it is false: moves from the position that show it, the attacker's
        best try among them.
    positions : int
        Positions looked at.
    taken : Proof or None
        Of material that is not proved to be won: the proof that it is taken.
        Whether it is won back is told by the status: "false" if it is, with
        the line as `escape`.
    """

    fen: str
    attacker: chess.Color
    goal: Goal
    status: Status
    proof: Proof | None = None
    escape: tuple[chess.Move, ...] = ()
    positions: int = 0
    taken: Proof | None = None

    def __bool__(self) -> bool:
        return self.status == "proved"


@checked
def prove(
    position: Position,
    goal: Goal,
    *,
    side: Side | None = None,
    move: MoveLike | None = None,
    budget: int = BUDGET,
    book: ProofBook | None = None,
) -> Outcome:
    """Prove or refute a goal.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position; repetition and the 50-move rule are left out.
    goal : Goal
        What is claimed.
    side : {"White", "Black"} or chess.Color, optional
        The side that claims it; the side to move if it is left out.
    move : str or chess.Move, optional
        Its first move, if the claim is about it.
    budget : int
        Positions that may be looked at.
    book : ProofBook, optional
        Where to look for the proof first, and to keep it.

    Returns
    -------
    Outcome
        Proved with its proof, false with an escape, or not settled.

    Raises
    ------
    NotationError
        If the first move is not a legal move of that side's.
    GoalError
        If it is no goal.

    Examples
    --------
    >>> from chessnb.proof import Mate
    >>> outcome = prove("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1", Mate(within=1))
    >>> outcome.status, outcome.proof.key
    ('proved', Move.from_uci('a1a8'))
    """
    return finish(proving(position, goal, attacker=side, key=move, budget=budget, book=book))


def proving(
    position: Position,
    goal: Goal,
    *,
    attacker: Side | None = None,
    key: MoveLike | None = None,
    budget: int = BUDGET,
    book: ProofBook | None = None,
    explain: bool = True,
) -> Searching[Outcome]:
    """Return the search that :func:`prove` runs; without `explain` it finds no escape."""
    board = read_position(position)
    if not isinstance(goal, Goal):
        raise GoalError(f"a goal is such as Mate(within=3), not {as_given(goal)}")
    whole_number("budget", budget, most=MOST_POSITIONS)
    side = read_side(attacker, default=board.turn)
    first = None if key is None else _first_move(board, side, key)
    return (yield from _settling(board, goal, side, first, budget, book, explain))


def settle(
    board: chess.Board,
    goal: Goal,
    *,
    side: chess.Color,
    key: chess.Move | None,
    budget: int,
    position: Position,
) -> Outcome:
    """Prove or refute a goal of which all is read already; :func:`prove` reads first.

    `position` is what the board was read from: the proof book of its lesson,
    if it has one, is asked before anything is searched.
    """
    whole_number("budget", budget, most=MOST_POSITIONS)
    book = book_of(position)
    return finish(_settling(board, goal, side, key, budget, book, explain=True))


def _settling(
    board: chess.Board,
    goal: Goal,
    side: chess.Color,
    first: chess.Move | None,
    budget: int,
    book: ProofBook | None,
    explain: bool,
) -> Searching[Outcome]:
    if book is None:
        return (yield from searching(board, goal, side, first, budget, explain))
    proof = book.find(board, side, goal, first, budget=budget)
    if proof is not None and (yield from keeps(proof)):
        return Outcome(fen=board.fen(), attacker=side, goal=goal, status="proved", proof=proof)
    found = yield from searching(board, goal, side, first, budget, explain)
    if found.proof is not None:
        book.keep(found.proof, first, budget=budget)
    return found


def _first_move(board: chess.Board, side: chess.Color, move: MoveLike) -> chess.Move:
    """Read the first move of a side, which must be to move."""
    if side != board.turn:
        reason = f"it is {SIDES[board.turn]}'s move, so {SIDES[side]} has no first move here"
        raise IllegalMove(reason, text=str(move), fen=board.fen())
    return read_move(board, move)


def searching(
    board: chess.Board,
    goal: Goal,
    side: chess.Color,
    key: chess.Move | None,
    budget: int,
    explain: bool,
    replay: bool = True,
) -> Searching[Outcome]:
    """Return the search for a goal of which all is read already, without a book.

    Parameters
    ----------
    board, goal, side, key, budget
        As for :func:`settle`.
    explain : bool
        Whether to look for the line that shows that it is false.
    replay : bool
        Whether the proof is replayed; who leaves it out does so before it is told.
    """
    if isinstance(goal, Perpetual):
        return (yield from _proving_perpetual(board, side, key, budget))
    race = Race(tracks_of(board, goal, side, key), budget)
    question, status = yield from race.run()
    found = Outcome(fen=board.fen(), attacker=side, goal=goal, status=status, positions=race.spent)
    if status == "proved":
        found = _replayed(found, question, replay)
        gain = gain_of(goal)
        if gain is None or found.proof is None:
            return found
        return (yield from _keeping(found, gain, race, explain, replay))
    if status == "false" and explain:
        if key is not None:
            return replace(found, escape=_after(board, key, question.escape()))
        escape = yield from _escaping(board, goal, side, question, budget)
        return replace(found, escape=escape)
    return found


def running(question: core.Question, budget: int) -> Searching[Status]:
    """Run a question in slices until it is answered or the budget is spent."""
    while True:
        status = question.run(max(1, min(SLICE, budget - question.positions)))
        if status != core.OPEN or question.positions >= budget:
            return WORDS[status]
        yield question.positions


def _replayed(found: Outcome, question: core.Question, replay: bool = True) -> Outcome:
    """Take the proof over, if the checker accepts it; it always should."""
    answers = question.proof()
    if answers is None:
        return replace(found, status="not settled")
    proof = from_answers(answers, fen=found.fen, attacker=found.attacker, goal=found.goal)
    if replay:
        check(proof)
    return replace(found, proof=proof)


def _proving_perpetual(
    board: chess.Board, side: chess.Color, key: chess.Move | None, budget: int
) -> Searching[Outcome]:
    proof, settled, positions = yield from finding_perpetual(board, side, key=key, budget=budget)
    if proof is not None:
        check(proof)
    status: Status = "proved" if proof else "false" if settled else "not settled"
    return Outcome(
        fen=board.fen(),
        attacker=side,
        goal=Perpetual(),
        status=status,
        proof=proof,
        positions=positions,
    )


ROUNDS = 5
"""So many proofs of a gain that is won back are thrown away, before that is the answer."""


def _keeping(
    found: Outcome, gain: Gain, race: Race, explain: bool, replay: bool
) -> Searching[Outcome]:
    """Look whether what is taken is won back; if it is, go on for a gain that is kept."""
    taken, side = found.proof, found.attacker
    comebacks = comebacks_against(gain.target, side)
    won_back: End | None = None
    for _ in range(ROUNDS):
        assert found.proof is not None
        before = comebacks.positions
        back = yield from coming_back(found.proof, comebacks, KEEPING)
        race.spent += comebacks.positions - before
        if back.status == core.REFUTED:
            return replace(found, positions=race.spent)
        found = replace(found, proof=None, status="not settled", taken=taken)
        if back.status == core.OPEN:
            break
        won_back = won_back or back.end
        race.beware(comebacks)
        question, status = yield from race.run()
        if status == "proved":
            found = _replayed(replace(found, status=status), question, replay)
        elif status == "false" and not question.in_doubt:
            found = replace(found, status=status)
        if found.proof is None:
            break
    found = replace(found, positions=race.spent)
    if found.status == "proved":
        return replace(found, proof=None, status="not settled")
    if won_back is not None and explain:
        line = yield from comeback_line(won_back, gain.target, side, budget=race.budget)
        return replace(found, escape=line)
    return found


# -- what shows that a goal is not reached ------------------------------------


def _escaping(
    board: chess.Board, goal: Goal, side: chess.Color, question: core.Question, budget: int
) -> Searching[tuple[chess.Move, ...]]:
    """Return moves that show how the defender gets away from the attacker's best try."""
    if board.turn != side:
        return _moves(question.escape())
    key = best_try(board)
    if key is None:
        return ()
    second = ask(board, goal, side, key=key)
    status = yield from running(second, budget)
    return _after(board, key, second.escape()) if status == "false" else ()


def _after(board: chess.Board, key: chess.Move, reply: str | None) -> tuple[chess.Move, ...]:
    """Return a first move and the reply to it; nothing if there is a reply that was not found."""
    after = board.copy(stack=False)
    after.push(key)
    return () if reply is None and any(after.legal_moves) else (key, *_moves(reply))


def _moves(reply: str | None) -> tuple[chess.Move, ...]:
    return () if reply is None else (chess.Move.from_uci(reply),)


def best_try(board: chess.Board) -> chess.Move | None:
    """Return the most forcing move: the check that leaves fewest replies, else a capture."""

    def force(move: chess.Move) -> tuple[int, int, str]:
        after = board.copy(stack=False)
        after.push(move)
        kind = 0 if after.is_check() else 1 if board.is_capture(move) else 2
        return kind, after.legal_moves.count(), move.uci()

    return min(board.legal_moves, key=force, default=None)
