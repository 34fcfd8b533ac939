"""What is taken, and whether it is won back; positions made here and worked out by hand."""

import chess
import pytest
from search.uncompiled import uncompiled

from chessnb.proof import Gain, Measure
from chessnb.search import core
from chessnb.search.budget import finish
from chessnb.search.comebacks import comebacks_against, coming_back, ends, keeps
from chessnb.search.most_won import finding_most
from chessnb.search.prover import prove

# The knight takes the rook in the corner and is shut in; on the right, a pawn keeps its way out.
SHUT_IN = "N7/3k1ppp/5p2/8/8/8/5PPP/4K3 b - - 0 15"
GETS_OUT = "N7/3k1ppp/5p2/P7/8/8/5PPP/4K3 b - - 0 15"


def won_back(fen: str, keeps_points: int, module=core) -> int:
    board = chess.Board(fen)
    comebacks = module.Comebacks(loser=board.turn == chess.WHITE, target=1 - keeps_points, within=3)
    return comebacks.is_won_back(fen)


def balance(fen: str) -> int:
    board = chess.Board(fen)
    values = (1, 3, 3, 5, 9)
    return sum(
        value * (len(board.pieces(kind, not board.turn)) - len(board.pieces(kind, board.turn)))
        for kind, value in zip(chess.PIECE_TYPES, values, strict=False)
    )


@pytest.mark.parametrize(("fen", "answer"), [(SHUT_IN, core.PROVED), (GETS_OUT, core.REFUTED)])
def test_a_knight_in_the_corner_is_won_back_unless_it_gets_out(fen, answer):
    assert won_back(fen, balance(fen)) == answer


def test_compiled_or_not_the_answer_and_the_count_are_the_same():
    for fen in (SHUT_IN, GETS_OUT):
        counts = []
        for module in (core, uncompiled()):
            comebacks = module.Comebacks(loser=False, target=1 - balance(fen), within=2)
            counts.append((comebacks.is_won_back(fen), comebacks.positions))
        assert counts[0] == counts[1]


def test_the_ends_of_a_proof_are_where_the_gain_stands():
    fork = chess.Board("r3k3/2p2ppp/5p2/P2N4/8/8/5PPP/4K3 w - - 0 14")
    outcome = prove(fork, Gain(points=5, within=2, measure=Measure.gain(fork)))
    assert outcome.proof is not None
    found = list(ends(outcome.proof))
    assert len({end.board.epd() for end in found}) == len(found)
    for end in found:
        after = fork.copy()
        for move in end.line:
            after.push(move)
        assert after.epd() == end.board.epd()
        assert after.turn == chess.BLACK
        assert not after.pieces(chess.ROOK, chess.BLACK)
    assert finish(keeps(outcome.proof))


def test_a_mate_is_never_won_back():
    board = chess.Board("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1")
    most = finish(finding_most(board, chess.WHITE, Measure.gain(board), 1, 10_000))
    assert most.won is not None
    assert most.won.proof.mates


def test_what_is_taken_without_being_kept_is_told_with_the_line_that_wins_it_back():
    fork = chess.Board("r3k3/2p2ppp/5p2/3N4/8/8/5PPP/4K3 w - - 0 14")
    goal = Gain(points=6, within=2, measure=Measure.gain(fork))
    outcome = prove(fork, goal)
    assert outcome.status == "false"
    assert outcome.proof is None
    assert outcome.taken is not None
    after = fork.copy()
    for move in outcome.escape:
        assert move in after.legal_moves
        after.push(move)
    back = finish(coming_back(outcome.taken, comebacks_against(goal.target, chess.WHITE), 100_000))
    assert back.status == core.PROVED
