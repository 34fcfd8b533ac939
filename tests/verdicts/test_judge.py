"""Verdicts: what a move does, in words that a proof stands behind."""

import chess
import pytest

from chessnb.errors import IllegalMove, PositionError
from chessnb.proof import BrokenProof, GoalError, check
from chessnb.search import core
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import verdict, verdicts
from chessnb.verdicts.move_verdict import ORDER, Verdict

BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
FORK = "r3k3/2p2ppp/5p2/P2N4/8/8/5PPP/4K3 w - - 0 14"
LADDER = "7k/8/8/5K2/8/8/8/R7 w - - 0 1"

# Composed here; what is said of each was worked out by hand.
SAID = [
    (BACK_RANK, "Ra8#", "checkmate"),
    (BACK_RANK, "Ra7", "nothing wrong found in 3 moves"),
    (LADDER, "Kg6", "mates in 2"),
    ("7k/8/6K1/8/8/8/8/5Q2 w - - 0 1", "Qf7", "stalemate, a draw"),
    ("7k/8/8/8/8/8/r7/1K6 w - - 0 1", "Kxa2", "a draw: no mate is possible any more"),
    ("6k1/5ppp/8/8/8/8/8/R3K3 b - - 0 1", "Kh8", "mated in 1"),
    ("4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1", "Qxd5", "wins a rook (5 points)"),
    ("4k3/8/8/3r4/8/8/6B1/4K3 b - - 0 1", "Ke7", "leaves the rook to be taken (5 points)"),
    (FORK, "Nxc7+", "wins a rook and a pawn (6 points)"),
]


@pytest.mark.parametrize(("fen", "move", "words"), SAID)
def test_what_a_move_does(fen, move, words):
    assert verdict(fen, move).words == words


def test_a_recapture_wins_nothing():
    board = chess.Board()
    for move in ("e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Bxc6"):
        board.push_san(move)
    assert verdict(board, "bxc6").kind == "nothing"
    assert verdict(board, "h6").kind == "loses"


def test_a_try_that_leaves_a_piece_hanging_offers_it():
    """After 1. e4 e5 2. Qh5 the queen must not go to h6: gxh6 and Nxh6 take it."""
    board = chess.Board()
    for move in ("e4", "e5", "Qh5", "Nc6"):
        board.push_san(move)
    found = verdict(board, "Qxh7")
    assert (found.kind, found.points, found.pieces) == ("offers", 8, "queen for pawn")


@pytest.mark.parametrize("fen", [BACK_RANK, FORK, LADDER, "8/8/8/3pK3/2kP4/8/8/8 w - - 0 1"])
def test_every_move_is_judged_once_best_first_and_every_proof_holds(fen):
    board = chess.Board(fen)
    found = verdicts(fen)
    assert {one.move for one in found} == set(board.legal_moves)
    assert len(found) == board.legal_moves.count()
    ranks = [ORDER.index(one.kind) for one in found]
    assert ranks == sorted(ranks)
    for one in found:
        assert one.line[0] == one.move
        after = chess.Board(fen)
        for move in one.line:
            assert move in after.legal_moves
            after.push(move)
        if one.kind in ("mates", "mated", "wins", "loses"):
            check(one.proof)
        if one.kind in ("mates", "mated"):
            assert after.is_checkmate()


def test_one_move_is_judged_as_among_all():
    for one in verdicts(FORK):
        assert verdict(FORK, one.move) == one


@pytest.mark.parametrize("budget", [1, 20, 300])
def test_a_small_budget_says_not_settled_and_never_something_else(budget):
    """What is said with few positions is said with many too, unless it is "not settled"."""
    board = chess.Board("r1bqkb1r/pppp1ppp/2n2n2/4p2Q/2B1P3/8/PPPP1PPP/RNB1K1NR w KQkq - 4 4")
    for move in ("Qxf7#", "Qxe5+", "a3", "Qd1"):
        whole = verdict(board, move, depth=Depth(mate=2, within=2))
        few = verdict(board, move, depth=Depth(mate=2, within=2, budget=budget))
        if few.kind != "not settled":
            assert few.kind == whole.kind
            assert few.points <= whole.points


def test_a_spent_budget_settles_nothing():
    depth = Depth(mate=4, within=4, budget=1)
    assert verdict(chess.Board(), "e4", depth=depth).words == "not proved"


@pytest.mark.parametrize("field", ["mate", "within", "budget"])
@pytest.mark.parametrize("value", [0, -1, 1.5, "3", None, True])
def test_a_depth_that_has_no_meaning_is_refused(field, value):
    with pytest.raises(GoalError, match=f"{field} is a whole number from 1 to"):
        Depth(**{field: value})


def test_a_move_object_is_read_as_strictly_as_a_text():
    with pytest.raises(IllegalMove):
        verdict(BACK_RANK, chess.Move.from_uci("a1b8"))
    with pytest.raises(IllegalMove):
        verdict(BACK_RANK, "Rb8")


@pytest.mark.parametrize(
    "fen", ["R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1", "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"]
)
def test_where_the_game_is_over_there_is_nothing_to_judge(fen):
    assert verdicts(fen) == ()


def test_an_impossible_board_is_refused():
    with pytest.raises(PositionError):
        verdicts("8/8/8/8/8/8/8/K7 w - - 0 1")


def test_a_solver_that_lies_is_caught(monkeypatch):
    class Liar:
        positions = 1

        def __init__(self, *_args, **_options):
            pass

        def run_lane(self, _positions, *_lane):
            return core.PROVED

        def proof(self):
            return [None, 1, []]

    monkeypatch.setattr(core, "Question", Liar)
    with pytest.raises(BrokenProof):
        verdict(FORK, "Kd2")


def test_verdicts_of_swapped_colours_are_the_same():
    board = chess.Board(FORK)
    for one, other in zip(
        sorted(verdicts(board), key=lambda found: found.move.uci()),
        sorted(verdicts(board.mirror()), key=lambda found: _flipped(found.move).uci()),
        strict=True,
    ):
        assert _flipped(other.move) == one.move
        assert (other.kind, other.moves, other.points) == (one.kind, one.moves, one.points)


def _flipped(move):
    return chess.Move(
        chess.square_mirror(move.from_square), chess.square_mirror(move.to_square), move.promotion
    )


def test_words_never_claim_more_than_is_known():
    for kind in ORDER:
        words = Verdict(fen=BACK_RANK, move=chess.Move.from_uci("a1a8"), kind=kind).words
        assert not {"best", "winning", "holds", "good"} & set(words.split())
