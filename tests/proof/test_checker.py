"""The checker accepts what is proved and nothing that has been damaged."""

from __future__ import annotations

import random
from dataclasses import replace

import chess
import pytest
from proof import prover

from chessnb.board.points import balance
from chessnb.proof import (
    BrokenProof,
    Gain,
    Mate,
    MateOrGain,
    Node,
    Perpetual,
    Proof,
    Stalemate,
    check,
    from_answers,
    holds,
)
from chessnb.proof.checker import answers
from chessnb.proof.measure import Measure
from chessnb.search.prover import prove

# Composed for this test.
MATE_IN_2 = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"
MATE_IN_3 = "8/8/8/8/8/5K2/R7/7k w - - 0 1"
ROYAL_FORK = "r3k3/8/8/3N4/8/8/8/4K3 w - - 0 1"
LAST_QUEEN = "6k1/7p/8/8/8/Q4p2/6r1/7K w - - 0 1"


def proof_of(fen, goal):
    board = chess.Board(fen)
    side = board.turn
    match goal:
        case Mate():
            answers = prover.mate(board, goal.within)
        case Gain():
            answers = prover.gain(board, goal.within, goal.target, side)
        case MateOrGain():
            answers = prover.gain(board, goal.gain.within, goal.gain.target, side)
        case Stalemate():
            answers = prover.stalemate(board, goal.within)
    assert answers is not None, (fen, goal)
    return from_answers(answers, fen=fen, attacker=side, goal=goal)


def royal_fork():
    return Gain(points=5, within=2, measure=Measure.gain(chess.Board(ROYAL_FORK)))


def _perpetual():
    """White's queen checks on e8 and h5 for ever: Black's king has g8 and h7 alone."""
    fen = "6k1/6p1/8/7Q/8/8/1r6/K7 w - - 0 1"
    return Proof(
        fen=fen,
        attacker=chess.WHITE,
        goal=Perpetual(),
        nodes=(
            Node(move="h5e8", replies=(("g8h7", 1),)),
            Node(move="e8h5", replies=(("h7g8", 0),)),
        ),
    )


PERPETUAL = _perpetual()
PROOFS = [
    proof_of(MATE_IN_2, Mate(within=2)),
    proof_of(MATE_IN_3, Mate(within=3)),
    proof_of(ROYAL_FORK, royal_fork()),
    proof_of(ROYAL_FORK, MateOrGain(mate=Mate(within=1), gain=royal_fork())),
    proof_of(LAST_QUEEN, Stalemate(within=1)),
    PERPETUAL,
]


@pytest.mark.parametrize("proof", PROOFS, ids=lambda proof: f"{proof.goal.words}")
def test_what_is_proved_is_accepted(proof):
    check(proof)


@pytest.mark.parametrize("proof", PROOFS, ids=lambda proof: f"{proof.goal.words}")
def test_a_proof_survives_its_way_through_json(proof):
    import json

    again = Proof.from_data(json.loads(json.dumps(proof.to_data())))
    assert again == proof
    check(again)


def damaged(proof, seed):
    """Return the proof with one thing wrong, and what was done."""
    pick = random.Random(seed)
    nodes = list(proof.nodes)
    index = pick.randrange(len(nodes))
    node = nodes[index]
    kind = pick.choice(["drop", "double", "illegal", "stands", "far", "add", "shorter", "cut"])
    if kind == "drop" and node.replies:
        gone = pick.randrange(len(node.replies))
        nodes[index] = replace(node, replies=node.replies[:gone] + node.replies[gone + 1 :])
    elif kind == "double" and node.replies:
        nodes[index] = replace(node, replies=(*node.replies, node.replies[0]))
    elif kind == "illegal" and node.move:
        nodes[index] = replace(node, move=node.move[2:4] + node.move[:2])
    elif kind == "stands":
        nodes[index] = replace(node, stands=not node.stands)
    elif kind == "far" and node.replies:
        reply, _ = node.replies[0]
        nodes[index] = replace(node, replies=((reply, len(nodes) + 3), *node.replies[1:]))
    elif kind == "add":
        nodes[index] = replace(node, replies=(*node.replies, ("a1a1", index)))
    elif (
        kind == "shorter" and isinstance(proof.goal, Mate) and proof.moves == proof.goal.within > 1
    ):
        return replace(proof, goal=Mate(within=proof.goal.within - 1)), kind
    elif kind == "cut" and node.replies:
        nodes[index] = replace(node, replies=())
    else:
        return None, kind
    return replace(proof, nodes=tuple(nodes)), kind


@pytest.mark.parametrize("proof", PROOFS, ids=lambda proof: f"{proof.goal.words}")
def test_every_damage_is_caught(proof):
    caught = 0
    for seed in range(600):
        worse, kind = damaged(proof, seed)
        if worse is None or worse == proof:
            continue
        assert not holds(worse), f"{kind} with seed {seed} was not caught"
        caught += 1
    assert caught > 150


@pytest.mark.parametrize("fen", [MATE_IN_2, MATE_IN_3])
def test_another_move_counts_only_if_it_mates_too(fen):
    """Change the first move to each other legal one: the checker says what brute force says."""
    board = chess.Board(fen)
    goal = Mate(within=2 if fen == MATE_IN_2 else 3)
    for move in list(board.legal_moves):
        board.push(move)
        replies = prover.mated(board, goal.within - 1)
        board.pop()
        false = replies is None
        tree = [move.uci(), 0, replies or []]
        assert holds(from_answers(tree, fen=fen, attacker=True, goal=goal)) is not false


def test_a_gain_is_refused_where_the_balance_is_short():
    proof = proof_of(ROYAL_FORK, royal_fork())
    more = replace(proof, goal=replace(royal_fork(), points=6))
    with pytest.raises(BrokenProof, match="gain has not been made"):
        check(more)


def test_a_gain_does_not_stand_while_the_defender_may_take_it_back():
    """Rxd5 wins a rook only if the pawn on e6 does not take back."""
    fen = "4k3/8/4p3/3r4/8/8/8/3RK3 w - - 0 1"
    goal = Gain(points=5, within=1, measure=Measure.number(balance(chess.Board(fen), chess.WHITE)))
    bare = Proof(fen=fen, attacker=True, goal=goal, nodes=(Node(move="d1d5", stands=True),))
    with pytest.raises(BrokenProof, match="replies are missing"):
        check(bare)


def test_a_gain_does_not_stand_in_check():
    fen = "4k3/8/8/4r3/8/8/8/K3Q3 w - - 0 1"
    goal = Gain(points=5, within=1, measure=Measure.number(4))
    with pytest.raises(BrokenProof, match="does not stand in check"):
        check(Proof(fen=fen, attacker=True, goal=goal, nodes=(Node(move="e1e5", stands=True),)))


def test_a_gain_does_not_stand_in_stalemate():
    """Taking the last pawn leaves Black without a move."""
    fen = "k7/2K5/8/1p6/8/8/8/1R4B1 w - - 0 1"
    goal = Gain(points=1, within=1, measure=Measure.number(7))
    with pytest.raises(BrokenProof):
        check(Proof(fen=fen, attacker=True, goal=goal, nodes=(Node(move="b1b5", stands=True),)))
    with pytest.raises(BrokenProof):
        check(Proof(fen=fen, attacker=True, goal=goal, nodes=(Node(move="b1b5"),)))


def test_mate_too_late_is_no_mate_in_time():
    proof = proof_of(MATE_IN_3, Mate(within=3))
    with pytest.raises(BrokenProof, match="no move is left"):
        check(replace(proof, goal=Mate(within=2)))


def test_the_wrong_side_cannot_begin():
    proof = proof_of(MATE_IN_2, Mate(within=2))
    with pytest.raises(BrokenProof, match="wrong side"):
        check(replace(proof, attacker=chess.BLACK))


@pytest.mark.parametrize("fen", ["nonsense", "8/8/8/8/8/8/8/8 w - - 0 1"])
def test_no_position_no_proof(fen):
    with pytest.raises(BrokenProof, match="position"):
        check(Proof(fen=fen, attacker=True, goal=Mate(within=1), nodes=(Node(move="e2e4"),)))


def test_a_perpetual_with_a_way_out_is_refused():
    """Without Black's pawn the king may go to g7."""
    fen = "6k1/8/8/7Q/8/8/1r6/K7 w - - 0 1"
    with pytest.raises(BrokenProof):
        check(replace(PERPETUAL, fen=fen))


@pytest.mark.parametrize("data", [{}, [], {"fen": 1}, {"nodes": [[]]}, "x", None])
def test_damaged_data_is_no_proof(data):
    with pytest.raises(ValueError, match="not a"):
        Proof.from_data(data)


# -- what is asked, and what is proved ---------------------------------------------------


def test_a_proof_answers_its_own_question_and_no_other():
    proof = proof_of(MATE_IN_2, Mate(within=2))
    key = proof.key
    assert key is not None
    assert answers(proof, chess.WHITE, Mate(within=2), None)
    assert answers(proof, chess.WHITE, Mate(within=2), key)
    assert not answers(proof, chess.BLACK, Mate(within=2), key)
    assert not answers(proof, chess.WHITE, Mate(within=1), key)
    assert not answers(proof, chess.WHITE, Mate(within=3), None), "another goal, though it follows"
    others = [move for move in proof.board.legal_moves if move != key]
    assert not any(answers(proof, chess.WHITE, Mate(within=2), move) for move in others)
    damaged = replace(proof, nodes=proof.nodes[:-1])
    assert not answers(damaged, chess.WHITE, Mate(within=2), key)


NO_MOVE = "7k/8/8/5Q2/8/6K1/8/8 w - - 0 1"  # composed: Qf7 leaves Black no move and no check


def test_a_stalemate_counts_where_there_is_none_of_check_and_in_time():
    proof = proof_of(NO_MOVE, Stalemate(within=1))
    check(proof)
    checked = from_answers(
        ["f5h5", 0, []],
        fen="7k/5K2/8/5Q2/8/8/8/8 w - - 0 1",
        attacker=True,
        goal=Stalemate(within=1),
    )
    with pytest.raises(BrokenProof):  # a mate is no stalemate
        check(checked)


@pytest.mark.parametrize(
    "entry", [["e2e4", 0, "e7e5"], [7, 0], [None, 0, "e7e5", 1], ["e2e4", 0, "e7e5", "one"]]
)
def test_a_node_of_another_shape_is_no_node(entry):
    data = {**proof_of(MATE_IN_2, Mate(within=2)).to_data(), "nodes": [entry]}
    with pytest.raises(ValueError, match=r"node|invalid literal"):
        Proof.from_data(data)


def test_a_proof_is_raised_to_what_it_shows_and_no_further():
    fork = proof_of(ROYAL_FORK, royal_fork())
    less = replace(fork, goal=replace(fork.goal, points=2))
    check(less)
    assert less.raised().goal == fork.raised().goal
    assert fork.raised().goal.points == fork.outcome - fork.goal.baseline
    check(fork.raised())
    mate = proof_of(MATE_IN_2, Mate(within=2))
    assert mate.raised() is mate


def test_a_gain_stands_again_after_every_forcing_reply_or_it_is_mate():
    """White takes the queen; Black's rook may still take or check, and White answers."""
    fen = "4k3/8/8/3q4/8/2N5/r6P/6K1 w - - 0 1"  # composed
    board = chess.Board(fen)
    proof = prove(board, Gain(points=5, within=1, measure=Measure.gain(board))).proof
    assert proof is not None
    check(proof)
    tried = 0
    for node in proof.nodes:
        if not node.stands:
            continue
        for _, child in node.replies:
            nodes = list(proof.nodes)
            nodes[child] = Node(move=nodes[child].move, stands=False, replies=())
            with pytest.raises(BrokenProof):
                check(replace(proof, nodes=tuple(nodes)))
            tried += 1
    assert tried >= 2
