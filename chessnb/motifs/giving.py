"""Sacrifice, threat, underpromotion, zugzwang: what a move offers, threatens or leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import counted
from chessnb.board.squares import name
from chessnb.board.turns import after_pass, as_if_to_move
from chessnb.motifs.case import Case, points_of
from chessnb.motifs.evidence import Example, Motif, Tag, The, dots, force, ring, ticks
from chessnb.notation import write_move
from chessnb.proof import Gain, Mate, Measure, Proof
from chessnb.proof.goals import after


def sacrifice(case: Case) -> Iterator[Tag]:
    """Find a move that gives up material which may be taken, and wins all the same."""
    if case.proof is None or case.move.promotion:
        return
    offered, target = _offer(case)
    if offered <= 0:
        return
    takers = [move for move in case.after.legal_moves if move.to_square == target]
    yield case.tag(
        "sacrifice",
        sound=True,
        actor=case.move.to_square,
        targets=(target,),
        squares=tuple(move.from_square for move in takers),
        sentence=f"{The(case.after, target)} may be taken: {counted(offered, 'point')} are offered",
        marks=(ring(target), *(force(move.from_square, target) for move in takers)),
    )


def _offer(case: Case) -> tuple[int, chess.Square]:
    """Return how many points the move offers, less what it takes, and on which square.

    The man that moved, or another that it has left: one that hung before is no offer.
    """
    hung = as_if_to_move(case.before, not case.side)
    offers = []
    for square in chess.SquareSet(case.after.occupied_co[case.side]):
        offered = gain_on(case.after, square)
        if offered and square != case.move.to_square and hung.is_valid():
            offered -= gain_on(hung, square)
        offers.append((offered, square == case.move.to_square, square))
    offered, _, square = max(offers, key=lambda one: one[:2])
    return offered - points_of(case.captured), square


def threat(case: Case) -> Iterator[Tag]:
    """Find what the move threatens: what would mate or win if the other side passed."""
    passed = None if case.after.is_game_over() else after_pass(case.after)
    if passed is None or not passed.is_valid():
        return
    proof = _threatened(case, passed)
    if proof is None or proof.key is None:
        return
    key = proof.key
    what = "to win material"
    if isinstance(proof.goal, Mate):
        what = "mate" if proof.moves == 1 else f"mate in {proof.moves}"
    found = case.tag(
        "threat",
        sound=False,
        actor=key.from_square,
        targets=(key.to_square,),
        sentence=f"{case.us} threatens {what} with {write_move(passed, key)}",
        marks=(ring(key.from_square), force(key.from_square, key.to_square), ticks(key.to_square)),
    )
    yield replace(found, shown=(case.move,), unproved=_MAY_BE_MET)


_MAY_BE_MET = "It is a threat, no more: nothing is won until it is carried out."


def _threatened(case: Case, passed: chess.Board) -> Proof | None:
    for moves in (1, 2):
        proof = case.ask(passed, Mate(within=moves)).proof
        if proof is not None:
            return proof
    goal = Gain(points=1, within=2, measure=Measure.gain(passed))
    return case.ask(passed, goal).proof


def underpromotion(case: Case) -> Iterator[Tag]:
    """Find a promotion to another piece than a queen that a queen would spoil."""
    if case.proof is None or case.move.promotion in (None, chess.QUEEN):
        return
    queen = chess.Move(case.move.from_square, case.move.to_square, chess.QUEEN)
    if case.wins_at_once(queen):
        return
    kind = chess.piece_name(case.move.promotion or chess.QUEEN)
    yield case.tag(
        "underpromotion",
        sound=True,
        actor=case.move.to_square,
        squares=(case.move.from_square,),
        sentence=f"The pawn becomes a {kind} on {name(case.move.to_square)}: a queen wins less",
        marks=(ring(case.move.to_square),),
    )


def zugzwang(case: Case) -> Iterator[Tag]:
    """Find a quiet move after which every reply loses, and a pass would not."""
    if case.proof is None or case.in_hand or case.after.is_check() or case.captured is not None:
        return
    passed = after_pass(case.after)
    if passed is None or not passed.is_valid():
        return
    goal = case.proof.goal
    assert isinstance(goal, Mate | Gain)
    left = goal.within - 1
    if left < 1:
        return
    shorter = after(replace(goal, within=left), case.move, chess.Move.null())
    if case.ask(passed, shorter).status != "false":
        return
    movers = sorted({move.from_square for move in case.after.legal_moves})
    yield case.tag(
        "zugzwang",
        sound=True,
        actor=case.move.to_square,
        targets=tuple(movers),
        sentence=f"{case.them} has to move, and every move loses what a pass would keep",
        marks=(ring(case.move.to_square), *(dots(square) for square in movers)),
    )


SACRIFICE = Motif(
    name="sacrifice",
    definition=(
        "The move gives up material that may be taken, and mate or more material comes back "
        "against acceptance and refusal."
    ),
    find=sacrifice,
    examples=(
        Example(
            fen="r6k/6pp/7N/8/2Q5/8/6PP/6K1 w - - 0 1",
            moves="Qg8+ Rxg8 Nf7#",
            why="the queen is given for mate",
        ),
        Example(
            fen="5r1k/6pp/8/6N1/2Q5/8/6PP/6K1 w - - 0 1",
            moves="Qg8+ Kxg8",
            shows=False,
            why="the knight does not guard g8: the king takes the queen",
        ),
    ),
)
THREAT = Motif(
    name="threat",
    definition="If the other side could pass, the move shown would mate or win.",
    find=threat,
    examples=(
        Example(
            fen="5rk1/5ppp/8/8/8/8/2B2PPP/4Q1K1 w - - 0 1",
            moves="Qe4 g6",
            why="the queen, backed by the bishop, would mate on h7",
        ),
        Example(
            fen="5rk1/5ppp/5n2/8/8/8/2B2PPP/4Q1K1 w - - 0 1",
            moves="Qb1",
            shows=False,
            why="the knight guards h7: nothing would follow",
        ),
    ),
)
UNDERPROMOTION = Motif(
    name="underpromotion",
    definition="A pawn becomes a rook, bishop or knight, where a queen would win less.",
    find=underpromotion,
    examples=(
        Example(
            fen="8/3P1k2/4q3/8/8/8/6PP/7K w - - 0 1",
            moves="d8=N+ Ke7 Nxe6",
            why="the knight forks; a queen would lose to nothing better",
        ),
        Example(
            fen="8/3P1k2/8/2q5/8/8/6PP/7K w - - 0 1",
            moves="d8=N+ Ke7",
            shows=False,
            why="the knight forks nothing",
        ),
    ),
)
ZUGZWANG = Motif(
    name="zugzwang",
    definition=(
        "Every legal move makes things worse than passing would: nothing is proved if the side "
        "could pass, and the loss is proved after each of its moves."
    ),
    find=zugzwang,
    examples=(
        Example(
            fen="kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1",
            moves="Ra6 bxa6 b7#",
            why="every move of Black's opens a way to mate",
        ),
        Example(
            fen="k1K5/pp6/1P6/8/8/8/6b1/R7 w - - 0 1",
            moves="Ra6 Bh3+",
            shows=False,
            why="the bishop has moves to spare",
        ),
    ),
)
