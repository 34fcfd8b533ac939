"""What a gain is measured from: worked out again by whoever reads the proof."""

from dataclasses import replace

import chess
import pytest

from chessnb.proof import BrokenProof, Gain, Measure, Proof, check, goals
from chessnb.search.prover import prove

UNDEFENDED = "4k3/8/8/3r4/8/8/3Q4/4K3 w - - 0 1"


def won(points: int, measure: Measure, **more) -> Proof:
    proof = prove(UNDEFENDED, Gain(points=points, within=1, measure=measure), **more).proof
    assert proof is not None
    return proof


def test_each_rule_takes_the_balance_of_the_attacker():
    board = chess.Board(UNDEFENDED)
    assert Measure.gain(board).value == 4
    assert Measure.loss(board).value == -4
    assert Measure.hold(board).value == -4
    assert Measure.threat(board).value == 4 - 4 - 4  # Black's points: it moves after the pass
    assert Measure.still(board).value == -9  # White takes the rook if it may
    assert Measure.number(7).value == 7


def test_a_recapture_is_measured_from_before_the_capture_and_history_is_kept_for_it():
    board = chess.Board("4k3/8/4p3/3n4/8/8/3R4/4K3 w - - 0 1")
    board.push_san("Rxd5")
    measure = Measure.gain(board)
    assert measure.moves == ("d2d5",)
    assert measure.value == -1  # Black had a knight and a pawn for a rook: taking back is no gain
    assert Measure.gain(chess.Board(board.fen())).value == -4


def test_the_measured_position_leads_to_the_one_of_the_proof():
    board = chess.Board(UNDEFENDED)
    quiet = chess.Move.from_uci("e1f1")
    measure = Measure.loss(board).after(quiet)
    board.push(quiet)
    assert measure.reached.fen() == board.fen()
    assert measure.attacker == chess.BLACK
    passed = goals.after(Gain(points=1, within=1, measure=Measure.threat(board)), chess.Move.null())
    assert isinstance(passed, Gain)
    assert passed.measure.since == ("0000",)
    assert passed.measure.reached.turn == chess.WHITE


def test_a_gain_that_is_measured_elsewhere_proves_nothing():
    proof = won(5, Measure.gain(chess.Board(UNDEFENDED)))
    check(proof)
    lower = "4k3/8/8/3r4/8/8/8/4K3 w - - 0 1"  # a balance of -5: everything would be a gain
    for measure in (
        replace(proof.goal.measure, fen=lower),
        replace(proof.goal.measure, since=("e1f1",)),
        replace(proof.goal.measure, rule="loss"),
        replace(proof.goal.measure, fen="not a position"),
        replace(proof.goal.measure, moves=("e2e4",)),
    ):
        forged = replace(proof, goal=replace(proof.goal, points=9, measure=measure))
        with pytest.raises(BrokenProof, match="measured"):
            check(forged)


def test_more_points_than_the_measure_allows_are_refused():
    proof = won(5, Measure.gain(chess.Board(UNDEFENDED)))
    with pytest.raises(BrokenProof, match="has not been made"):
        check(replace(proof, goal=replace(proof.goal, points=6)))


def test_a_pass_out_of_check_measures_nothing():
    checked = "4k3/8/8/8/8/8/8/r3K3 w - - 0 1"
    measure = Measure(rule="threat", fen=checked, since=("0000",))
    with pytest.raises(ValueError, match="pass in check"):
        _ = measure.reached


def test_measures_survive_their_way_through_json():
    board = chess.Board(UNDEFENDED)
    for measure in (Measure.gain(board), Measure.number(-3)):
        proof = won(1, measure)
        again = Proof.from_data(proof.to_data())
        assert again == proof
