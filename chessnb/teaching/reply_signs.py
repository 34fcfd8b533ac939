"""Signs of what a move leaves the other side: one legal move, one defence, a threat, no time."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.lessons import Moment
from chessnb.notation import write_move
from chessnb.proof import Gain, Goal, Mate, Measure, Proof, TooWild
from chessnb.search.budget import finish
from chessnb.search.most_won import finding_most
from chessnb.search.prover import searching
from chessnb.search.questions import finding_best_replies
from chessnb.teaching.cell_code import after, before, call
from chessnb.teaching.sign import Sign

BUDGET = 100_000
"""Positions for each question about a reply."""

THREATENED = (1, 2, 3)
"""Mates of so many moves are looked for behind a pass."""

ANSWERED = 2
"""Of a mate threatened in so many it is asked whether one reply alone prevents it."""

THREATENED_POINTS = 3
THREATENED_WITHIN = (2, 3)
"""A threat to win so much within so many moves is told; the shorter is looked for first."""

THREAT_BUDGET = 30_000
"""Positions for each question about a threat."""

MOST_REPLIES = 45
"""A reply table with more rows than this is no help in class."""


def of_replies(moment: Moment) -> Iterator[Sign]:
    """Yield what the move leaves the other side: one legal move, one defence, a threat."""
    board = moment.board
    following = moment.next
    count = board.legal_moves.count()
    if count == 1 and following is not None and following.move:
        said = call("claims.only_legal_reply", after(moment), following.san)
        yield Sign(weight=1, words="it leaves one legal move", cell=said, kind="one reply")
        return
    threat = _mate_threatened(board)
    if threat is None:
        yield from _gain_threatened(moment)
        return
    key, moves = threat
    san = write_move(_passed(board), key)
    cell = call("claims.threatens", after(moment), san, mate=moves)
    words = f"{SIDES[not board.turn]} threatens mate in {moves}"
    weight = 2 if moves == 1 else 3
    yield Sign(weight=weight, words=words, cell=cell, kind="threat")
    if moves <= ANSWERED:
        yield from _one_defence(moment, moves)


def _gain_threatened(moment: Moment) -> Iterator[Sign]:
    """Yield what would be won if the other side passed, where it takes more than a capture."""
    board = moment.board
    passed = after_pass(board)
    if passed is None or not any(board.legal_moves):
        return
    try:
        measure = Measure.gain(passed)
    except TooWild:
        return
    for within in THREATENED_WITHIN:
        most = finish(finding_most(passed, passed.turn, measure, within, THREAT_BUDGET))
        if most.won is not None:
            break
    won = most.won
    if won is None or not isinstance(won.goal, Gain) or len(most.line) <= 2:
        return
    points, key = won.goal.points, most.line[0]
    if points < THREATENED_POINTS:
        return
    if passed.is_capture(key) and gain_on(passed, key.to_square) >= THREATENED_POINTS:
        return  # everybody sees it
    if _was_there(moment, key):
        return
    san = write_move(passed, key)
    yield Sign(
        weight=2,
        words=f"{SIDES[not board.turn]} threatens {san}, which wins {points} points",
        cell=call("claims.threatens", after(moment), san, at_least=points, within=won.goal.within),
        kind="threat",
    )


def _was_there(moment: Moment, key: chess.Move) -> bool:
    """Tell whether the side could have made the threatened move instead, to the same effect."""
    parent = moment.node.parent
    if parent is None or key not in parent.board().legal_moves:
        return False
    try:
        measure = Measure.gain(parent.board())
    except TooWild:
        return True
    board = parent.board()
    goal = Gain(points=THREATENED_POINTS, within=THREATENED_WITHIN[-1], measure=measure)
    return proved(board, goal, THREAT_BUDGET, key) is not None


def of_hurry(moment: Moment) -> Iterator[Sign]:
    """Yield the mate that the other side threatened before the move: why there was no time."""
    parent = moment.node.parent
    assert parent is not None
    threat = _mate_threatened(parent.board())
    if threat is None:
        return
    key, moves = threat
    san = write_move(_passed(parent.board()), key)
    yield Sign(
        weight=1,
        words=f"{SIDES[moment.turn]} threatened mate in {moves}",
        cell=call("claims.threatens", before(moment), san, mate=moves),
        kind="hurry",
    )


def _one_defence(moment: Moment, moves: int) -> Iterator[Sign]:
    board = moment.board
    replies = finish(finding_best_replies(board, Mate(within=moves), budget=BUDGET))
    saving = [reply for reply, outcome in replies if outcome.status == "false"]
    open_ones = [reply for reply, outcome in replies if outcome.status == "not settled"]
    if len(saving) == 1 and not open_ones and len(replies) > 1:
        san = write_move(board, saving[0])
        yield Sign(
            weight=5,
            words=f"it leaves one defence against mate in {moves}",
            cell=call("claims.only_defence", after(moment), san, mate=moves),
            kind="one defence",
        )


def _mate_threatened(board: chess.Board) -> tuple[chess.Move, int] | None:
    """Return the first move and the length of a short mate that would follow a pass."""
    passed = after_pass(board)
    if passed is None or not any(board.legal_moves):
        return None
    for moves in THREATENED:
        proof = proved(passed, Mate(within=moves), BUDGET)
        if proof is not None and proof.key is not None:
            return proof.key, moves
    return None


def _passed(board: chess.Board) -> chess.Board:
    passed = after_pass(board)
    assert passed is not None
    return passed


def reply_table_cell(moment: Moment, signs: tuple[Sign, ...]) -> str:
    """Return the cell that goes through the replies to a forcing move; empty for other moves."""
    mates = [int(sign.kind.split()[-1]) for sign in signs if sign.kind.startswith("mates in")]
    forcing = mates or (moment.board.is_check() and any(sign.kind == "wins" for sign in signs))
    count = moment.board.legal_moves.count()
    if not forcing or not 2 <= count <= MOST_REPLIES:
        return ""
    if mates and mates[0] - 1 > 3:
        return call("reply_table", after(moment), mate=mates[0] - 1)
    return call("reply_table", after(moment))


def proved(
    board: chess.Board, goal: Goal, budget: int, key: chess.Move | None = None
) -> Proof | None:
    """Return the proof that the side to move reaches a goal, with a first move if it is named."""
    asked = searching(board, goal, board.turn, key, budget, explain=False)
    return finish(asked).proof
