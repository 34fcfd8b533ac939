"""The core against python-chess and brute force, compiled and not."""

import random
from pathlib import Path

import chess
import pytest
from oracle import Oracle
from search.uncompiled import SOURCE, uncompiled
from thoroughness import scaled

from chessnb.proof import Gain, Mate, Stalemate, check
from chessnb.proof.certificate import from_answers
from chessnb.proof.measure import Measure
from chessnb.search import core

CORES = [core, uncompiled()]
NAMES = ["compiled", "uncompiled"]
PLAYED, MANY, FEW = 0.85, scaled(20_000), 400


def wild_boards(count, seed):
    """Positions of random games, some begun from odd pieces, castling rights and promotions."""
    pick = random.Random(seed)
    made = 0
    while made < count:
        board = chess.Board() if pick.random() < PLAYED else odd_board(pick)
        while made < count and not board.is_game_over(claim_draw=False) and board.ply() < 160:
            yield board
            made += 1
            board.push(pick.choice(list(board.legal_moves)))


def odd_board(pick):
    while True:
        board = chess.Board(None)
        squares = pick.sample(chess.SQUARES, pick.randint(4, 14))
        pieces = "Kk" + "".join(pick.choice("QRBNPqrbnp") for _ in squares[2:])
        for square, piece in zip(squares, pieces, strict=True):
            board.set_piece_at(square, chess.Piece.from_symbol(piece))
        board.turn = pick.random() < 0.5
        if board.is_valid():
            return board


def test_a_core_says_whether_it_is_compiled():
    assert core.compiled == (Path(core.__file__) != SOURCE)
    assert uncompiled().compiled is False


@pytest.mark.thorough
@pytest.mark.parametrize(("module", "count"), [(CORES[0], MANY), (CORES[1], FEW)], ids=NAMES)
def test_legal_moves_captures_and_checks_are_those_of_python_chess(module, count):
    for board in wild_boards(count, seed=2):
        fen = board.fen()
        legal = sorted(move.uci() for move in board.legal_moves)
        assert module.legal_moves(fen) == legal, fen
        forcing = [move for move in board.legal_moves if board.is_capture(move) or move.promotion]
        assert module.captures(fen) == sorted(move.uci() for move in forcing), fen
        checks = sorted(move.uci() for move in board.legal_moves if board.gives_check(move))
        assert module.checks(fen) == checks, fen


@pytest.mark.parametrize(("module", "count"), [(CORES[0], MANY), (CORES[1], FEW)], ids=NAMES)
def test_equal_positions_have_equal_keys_and_no_others(module, count):
    keys = {}
    for board in wild_boards(count, seed=3):
        name = board._transposition_key()
        assert keys.setdefault(module.zobrist(board.fen()), name) == name, board.fen()
    assert len(set(keys.values())) == len(keys)


# -- questions -----------------------------------------------------------------


def small_boards(count, seed):
    """Positions with few pieces: brute force must be able to answer."""
    pick = random.Random(seed)
    made = 0
    while made < count:
        board = chess.Board(None)
        squares = pick.sample(chess.SQUARES, pick.choice([3, 4, 4, 5, 5]))
        pieces = "Kk" + "".join(pick.choice("QRRBNPPqrbnpp") for _ in squares[2:])
        # Near the edge there is more to find.
        squares[1] = pick.choice([chess.A8, chess.B8, chess.H5, chess.E8, chess.H1, squares[1]])
        if len(set(squares)) < len(squares):
            continue
        for square, piece in zip(squares, pieces, strict=True):
            board.set_piece_at(square, chess.Piece.from_symbol(piece))
        board.turn = pick.random() < 0.5
        if board.is_valid() and not board.is_game_over():
            made += 1
            yield board


def questions(count, seed):
    pick = random.Random(seed)
    for board in small_boards(count, seed):
        attacker = board.turn if pick.random() < 0.75 else not board.turn
        balance = Oracle(attacker=attacker).balance(board)
        kind = pick.choice(["mate", "mate", "gain", "gain", "both", "stalemate"])
        tail = pick.choice([2, 4])
        if kind == "mate":
            asked = {"mate": pick.choice([1, 1, 2, 2, 3 if len(board.piece_map()) < 4 else 2])}
        elif kind == "gain":
            asked = {"gain": pick.choice([1, 2]), "target": balance + pick.choice([1, 3, 5])}
        elif kind == "both":
            asked = {"mate": 2, "gain": 1, "target": balance + pick.choice([1, 3])}
        else:
            asked = {"stalemate": pick.choice([1, 2])}
        yield board, attacker, asked, tail


def answered(module, board, attacker, asked, tail):
    question = module.Question(board.fen(), attacker=attacker, tail=tail, **asked)
    while (status := question.run(50_000)) == module.OPEN:
        assert question.positions < 5_000_000
    return status, question


def goal_of(asked, balance):
    if "stalemate" in asked:
        return Stalemate(within=asked["stalemate"])
    if "gain" not in asked:
        return Mate(within=asked["mate"])
    gain = Gain(points=1, within=asked["gain"], measure=Measure.number(asked["target"] - 1))
    from chessnb.proof import MateOrGain

    return MateOrGain(mate=Mate(within=asked["mate"]), gain=gain) if "mate" in asked else gain


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("module", "count"), [(CORES[0], scaled(1000)), (CORES[1], scaled(150, least=100))], ids=NAMES
)
def test_the_answers_are_those_of_brute_force_and_every_proof_is_replayed(module, count):
    proved = missed = 0
    for board, attacker, asked, tail in questions(count, seed=11):
        status, question = answered(module, board, attacker, asked, tail)
        truth = Oracle(attacker=attacker, tail=tail, **asked).says(board.copy(stack=False))
        told = f"{board.fen()} {attacker} {asked} tail {tail}: {truth}"
        if truth and "gain" in asked and status == module.REFUTED:
            missed += 1  # the search tries few quiet answers behind a leaf
            continue
        assert (status == module.PROVED) is truth, told
        if status == module.PROVED:
            proved += 1
            balance = Oracle(attacker=attacker).balance(board)
            goal = goal_of(asked, balance)
            check(from_answers(question.proof(), fen=board.fen(), attacker=attacker, goal=goal))
    assert proved > count // 20
    assert missed <= count // 200


def test_compiled_and_not_agree_to_the_position():
    if not core.compiled:
        pytest.fail("the core is not compiled here: install a C compiler, then chessnb again")
    for board, attacker, asked, tail in questions(scaled(120), seed=5):
        one, first = answered(core, board, attacker, asked, tail)
        other, second = answered(uncompiled(), board, attacker, asked, tail)
        assert (one, first.positions) == (other, second.positions), board.fen()
        assert first.proof() == second.proof()
        assert first.escape() == second.escape()


def test_slices_do_not_change_the_answer():
    for board, attacker, asked, tail in questions(60, seed=8):
        whole, _ = answered(core, board, attacker, asked, tail)
        question = core.Question(board.fen(), attacker=attacker, tail=tail, **asked)
        while (status := question.run(100)) == core.OPEN:
            assert question.positions < 5_000_000
        assert status == whole, board.fen()


def test_the_estimate_is_never_below_what_is_proved_and_often_no_more():
    below = exact = 0
    for board in small_boards(300, seed=21):
        balance = Oracle(attacker=board.turn).balance(board)
        gains = core.Gains(board.fen(), attacker=board.turn, within=2)
        while not gains.run(50_000):
            pass
        for points in (1, 3, 5):
            asked = {"gain": 2, "target": balance + points}
            status, _ = answered(core, board, board.turn, asked, 4)
            if status == core.PROVED:
                assert gains.value >= balance + points, board.fen()
                below += 1
                exact += gains.value == balance + points
    assert below > 150
    assert exact > 20


def test_the_estimate_for_fewer_moves_is_the_one_asked_for_alone():
    for board in small_boards(60, seed=22):
        for attacker in (board.turn, not board.turn):
            longest = core.Gains(board.fen(), attacker=attacker, within=3)
            while not longest.run(50_000):
                pass
            assert len(longest.values) == 3
            for within, value in enumerate(longest.values, start=1):
                alone = core.Gains(board.fen(), attacker=attacker, within=within)
                while not alone.run(50_000):
                    pass
                assert alone.value == value, (board.fen(), within)


@pytest.mark.parametrize(
    ("fen", "target", "status"),
    [
        ("r4r1k/p2qbpp1/1p1p1n1p/2p1p2b/1PPnP3/P1NPBPPB/5N1P/1R1Q1RK1 b - - 3 17", 1, "refuted"),
        ("r1k2b1r/p2nq1p1/2b1p1Bp/1p1nR3/3P4/3Q1NB1/1PP2PPP/R5K1 b - - 3 17", 3, "proved"),
    ],
)
def test_where_comebacks_are_many_the_answer_is_found_all_the_same(fen, target, status):
    question = core.Question(fen, attacker=False, gain=2, target=target)
    found = question.run(5_000_000)
    assert found == {"proved": core.PROVED, "refuted": core.REFUTED}[status]
    answers = question.proof()
    assert (answers is not None) == (status == "proved")
    if answers is not None:
        goal = Gain(points=target, within=2, measure=Measure.number(0))
        check(from_answers(answers, fen=fen, attacker=False, goal=goal))


def test_only_the_first_moves_asked_about_count():
    fen = "k7/8/1K6/8/8/8/2Q5/6Q1 w - - 0 1"
    for moves, status in ((["c2c8"], core.PROVED), (["c2d2"], core.REFUTED)):
        question = core.Question(fen, attacker=True, mate=1, moves=moves)
        assert question.run(10_000) == status
