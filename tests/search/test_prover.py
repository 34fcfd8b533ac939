"""The solver's Python face: three answers, and never a positive one that was not replayed."""

import chess
import pytest

from chessnb.board.points import balance
from chessnb.errors import IllegalMove
from chessnb.proof import (
    BrokenProof,
    Gain,
    GoalError,
    Mate,
    MateOrGain,
    Perpetual,
    Stalemate,
    baseline,
)
from chessnb.proof.measure import Measure
from chessnb.search import core
from chessnb.search.prover import prove
from chessnb.search.questions import best_replies, fastest, keys, threat
from chessnb.search.race import ask

# Composed here.
BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
LADDER = "7k/8/8/5K2/8/8/8/R7 w - - 0 1"
UNDEFENDED = "4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1"
FORK = "r3k3/2p5/5p2/P2N4/8/8/8/4K3 w - - 0 14"
# From random play: the defence that costs least falls within two moves, a dearer one takes three.
SLOW_AND_DEAR = "4qb1r/1p1kp1p1/B1n1p2p/p1QP4/8/4P3/PP1P1KPP/R1B3NR w - - 1 17"
STALEMATED = "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"
MATED = "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1"


def longest_line(proof):
    """Return the attacker's moves in the longest line of a proof, by walking every line."""

    def walk(index):
        node = proof.nodes[index]
        below = 0 if node.stands else max((walk(child) for _, child in node.replies), default=0)
        return below + bool(node.move)

    return walk(0)


GAINS = [(FORK, 5, 3), (UNDEFENDED, 5, 1), (SLOW_AND_DEAR, 3, 3)]


@pytest.mark.parametrize(("fen", "points", "within"), GAINS)
def test_a_proof_says_how_long_its_longest_line_is(fen, points, within):
    board = chess.Board(fen)
    goal = Gain(points=points, within=within, measure=Measure.number(balance(board, board.turn)))
    outcome = prove(fen, goal)
    assert outcome, outcome.status
    assert outcome.proof.moves == longest_line(outcome.proof) <= within


# -- a solver that lies --------------------------------------------------------


class Liar:
    """A core that calls everything proved, and says so with whatever moves it is given."""

    nodes: object = ["a1a8", 0, []]

    def __init__(self, *_args, **_options):
        self.positions = 1

    def run_lane(self, _positions, *_lane):
        return core.PROVED

    def proof(self):
        return self.nodes

    def escape(self):
        return None


LIES = [
    ["a1a7", 0, []],  # no mate
    ["a1a9", 0, []],  # no square
    ["e8e1", 0, []],  # not its piece
    ["0000", 0, []],  # a pass
    [None, 0, []],  # nothing at all
    ["a1a8", 1, []],  # a gain that stands, said of a mate
    ["a1a7", 1, []],  # a gain that stands, said of none
    ["a1a7", 0, [["g8h8", ["a7a8", 0, []]]]],  # some replies left out
]


@pytest.mark.parametrize("lie", LIES, ids=str)
@pytest.mark.parametrize(
    "goal",
    [
        Mate(within=1),
        Gain(points=1, within=2, measure=Measure.number(2)),
        MateOrGain(mate=Mate(within=1), gain=Gain(points=1, within=1, measure=Measure.number(2))),
        Stalemate(within=1),
    ],
    ids=lambda goal: goal.words,
)
def test_a_solver_that_lies_is_caught(monkeypatch, lie, goal):
    monkeypatch.setattr(core, "Question", type("Lie", (Liar,), {"nodes": lie}))
    with pytest.raises(BrokenProof):
        prove(BACK_RANK, goal)


def test_a_solver_that_proves_without_a_proof_has_proved_nothing(monkeypatch):
    monkeypatch.setattr(core, "Question", type("Mute", (Liar,), {"nodes": None}))
    assert prove(BACK_RANK, Mate(within=1)).status == "not settled"


# -- the three answers ---------------------------------------------------------


def test_a_budget_that_is_spent_is_not_settled_and_says_how_much():
    outcome = prove(LADDER, Mate(within=2), budget=3)
    assert outcome.status == "not settled"
    assert outcome.proof is None
    assert not outcome
    assert outcome.positions >= 3


@pytest.mark.parametrize("budget", [0, -1, 2.5, "many", True, None, 10**12])
def test_a_budget_that_is_no_number_of_positions_is_refused(budget):
    with pytest.raises(GoalError, match="budget is a whole number from 1 to 1,000,000,000"):
        prove(LADDER, Mate(within=2), budget=budget)


@pytest.mark.parametrize("within", [0, -1, 2.5, "2", None, True, 41, 10**30])
def test_a_length_that_has_no_meaning_is_refused(within):
    with pytest.raises(GoalError, match="within is a whole number from 1 to 40"):
        Mate(within=within)
    with pytest.raises(GoalError, match="within is a whole number from 1 to 40"):
        Stalemate(within=within)
    with pytest.raises(GoalError, match="within is a whole number from 1 to 40"):
        Gain(points=1, within=within, measure=Measure.number(0))


@pytest.mark.parametrize("points", [0, -3, 1.5, "5", None, 104])
def test_points_that_have_no_meaning_are_refused(points):
    with pytest.raises(GoalError, match="points is a whole number from 1 to 103"):
        Gain(points=points, within=1, measure=Measure.number(0))


@pytest.mark.parametrize(
    "goal",
    [Mate(within=40), Stalemate(within=40), Gain(points=1, within=40, measure=Measure.number(0))],
)
def test_the_longest_goal_has_room(goal):
    """Deep lines with many captures at their ends; too long a goal once wrote beyond its tables."""
    for fen in (chess.STARTING_FEN, "8/8/8/4k3/8/8/4P3/4K3 b - - 0 1", SLOW_AND_DEAR):
        outcome = prove(fen, goal, budget=120_000)
        ahead_already = isinstance(goal, Gain) and fen == SLOW_AND_DEAR
        assert outcome.status == ("proved" if ahead_already else "not settled")
        assert ahead_already or 120_000 <= outcome.positions < 125_000


def test_a_first_move_must_be_a_legal_move_of_the_attacker():
    with pytest.raises(IllegalMove, match="the rook on a1 cannot reach b8"):
        prove(BACK_RANK, Mate(within=1), move=chess.Move.from_uci("a1b8"))
    with pytest.raises(IllegalMove, match="it is White's move, so Black has no first move here"):
        prove(BACK_RANK, Mate(within=1), side=chess.BLACK, move=chess.Move.from_uci("a1a8"))


@pytest.mark.parametrize("goal", ["mate", None, Mate, 3])
def test_what_is_no_goal_is_refused(goal):
    with pytest.raises(GoalError, match=r"a goal is such as Mate\(within=3\), not "):
        prove(BACK_RANK, goal)


@pytest.mark.parametrize("within", [0, "3", None, 41])
def test_the_fastest_mate_is_looked_for_within_a_number_of_moves(within):
    with pytest.raises(GoalError, match="within is a whole number from 1 to 40"):
        fastest(BACK_RANK, within=within)


def test_a_false_goal_comes_with_moves_that_show_it():
    outcome = prove(BACK_RANK, Mate(within=2), move=chess.Move.from_uci("a1a7"))
    assert outcome.status == "false"
    board = chess.Board(BACK_RANK)
    for move in outcome.escape:
        assert move in board.legal_moves
        board.push(move)
    assert len(outcome.escape) == 2
    assert not prove(board, Mate(within=1))


def test_no_board_is_changed():
    board = chess.Board(FORK)
    before = board.fen(), list(board.move_stack)
    goal = Gain(points=5, within=3, measure=Measure.number(balance(board, chess.WHITE)))
    prove(board, goal)
    keys(board, Mate(within=1))
    threat(board, Mate(within=1))
    best_replies(board, Mate(within=1))
    fastest(board, within=2)
    assert (board.fen(), list(board.move_stack)) == before


def test_the_same_question_has_the_same_answer_again():
    goal = Gain(points=3, within=3, measure=Measure.gain(chess.Board(SLOW_AND_DEAR)))
    assert prove(SLOW_AND_DEAR, goal) == prove(SLOW_AND_DEAR, goal)


# -- more than one question ----------------------------------------------------


def test_every_key_is_found_promotions_told_apart():
    """Both promotions mate along the rank; the minor pieces do not."""
    found = keys("7k/P7/6K1/8/8/8/8/8 w - - 0 1", Mate(within=1))
    assert [move.uci() for move, _ in found] == ["a7a8q", "a7a8r"]


def test_fastest_is_the_shortest_mate_and_none_is_false():
    assert fastest(LADDER, within=4).goal == Mate(within=2)
    none = fastest("7k/8/8/5K2/8/8/8/8 w - - 0 1", within=2)
    assert (none.status, none.goal) == ("false", Mate(within=2))


def test_nobody_can_pass_in_check():
    """FIDE Laws, article 3.9: a check must be answered; so there is no threat."""
    assert threat("4k3/8/8/8/8/8/4R3/4K3 b - - 0 1", Mate(within=1)) is None


def test_a_threat_is_what_a_pass_would_allow():
    found = threat(BACK_RANK.replace(" w ", " b "), Mate(within=1))
    assert found.proof.key == chess.Move.from_uci("a1a8")


def test_replies_come_with_those_that_defend_first_and_the_longest_resistance_last():
    table = best_replies("6k1/5ppp/8/8/8/8/8/R3K3 b - - 0 1", Mate(within=1))
    order = [outcome.status for _, outcome in table]
    assert order == sorted(order, key=("false", "not settled", "proved").index)
    lost = {move.uci() for move, outcome in table if outcome}
    assert lost == {"g8h8"}


@pytest.mark.parametrize("fen", [MATED, STALEMATED])
def test_where_the_game_is_over_nothing_can_be_forced_any_more(fen):
    board = chess.Board(fen)
    assert best_replies(fen, Mate(within=1)) == ()
    assert keys(fen, Mate(within=1)) == ()
    assert not prove(fen, Mate(within=2), side=board.turn)
    assert not prove(fen, Perpetual(), side=board.turn)
    assert not prove(fen, Perpetual(), side=not board.turn)


def test_a_long_goal_is_proved_beside_shorter_ones_that_are_not():
    """Win at Chess 281 and 300: seven moves, with shorter goals that take long to refute."""
    for fen, key in (
        ("2R5/2R4p/5p1k/6n1/8/1P2QPPq/r7/6K1 w - - 0 1", "c7h7"),
        ("b2b1r1k/3R1ppp/4qP2/4p1PQ/4P3/5B2/4N1K1/8 w - - 0 1", "g5g6"),
    ):
        gain = Gain(points=1, within=10, measure=Measure.gain(chess.Board(fen)))
        goal = MateOrGain(mate=Mate(within=8), gain=gain)
        outcome = prove(fen, goal, move=chess.Move.from_uci(key), budget=4_000_000)
        assert outcome.status == "proved"
        assert 3 < outcome.proof.moves <= 10


@pytest.mark.thorough
def test_what_is_proved_by_a_long_search_is_found_again_at_once():
    """Win at Chess 279: the table has lost a part of the proof."""
    board = chess.Board("r7/4b3/2p1r1k1/1p1pPp1q/1P1P1P1p/PR2NRpP/2Q3K1/8 w - - 0 1")
    gain = Gain(points=1, within=10, measure=Measure.number(baseline(board)))
    question = ask(board, gain, board.turn)
    assert question.run(8_000_000) == core.PROVED
    looked = question.positions
    assert question.proof() is not None
    assert question.positions - looked < looked // 10


def test_a_proof_has_no_answer_to_moves_that_are_not_its_own():
    proof = prove("7k/8/8/8/8/8/R7/1R4K1 w - - 0 1", Mate(within=2), move="Ra7").proof
    king, mate = chess.Move.from_uci("h8g8"), chess.Move.from_uci("b1b8")
    assert proof.answer([proof.key, king]) == mate
    assert proof.answer([chess.Move.from_uci("a2a6"), king]) is None
    assert proof.line_from([chess.Move.from_uci("a2a6"), king]) == ()
