"""What is said to be won stays won: published games in which it was won back, and other traps.

The moves of the games are given from memory: Réti - Tartakower, Vienna 1910;
Morphy - Duke of Brunswick and Count Isouard, Paris 1858; Byrne - Fischer, New
York 1956; Deep Blue - Kasparov, New York 1997 (sixth game).
"""

import chess
import pytest

from chessnb import claims
from chessnb.claims import FalseClaim
from chessnb.proof import Gain, Measure
from chessnb.search.budget import finish
from chessnb.search.most_won import finding_most
from chessnb.search.prover import prove
from chessnb.teaching.tries import answer
from chessnb.verdicts import Depth, verdict
from chessnb.verdicts.mistake import finding_better

VIENNA = "e4 c6 d4 d5 Nc3 dxe4 Nxe4 Nf6 Qd3 e5 dxe5 Qa5+ Bd2 Qxe5"
PARIS = "e4 e5 Nf3 d6 d4 Bg4 dxe5 Bxf3 Qxf3 dxe5 Bc4 Nf6 Qb3 Qe7 Nc3 c6 Bg5 b5"
NEW_YORK = (
    "Nf3 Nf6 c4 g6 Nc3 Bg7 d4 O-O Bf4 d5 Qb3 dxc4 Qxc4 c6 e4 Nbd7 Rd1 Nb6 Qc5 Bg4 "
    "Bg5 Na4 Qa3 Nxc3 bxc3 Nxe4 Bxe7 Qb6 Bc4 Nxc3 Bc5 Rfe8+ Kf1 Be6 Bxb6 Bxc4+ Kg1 Ne2+ "
    "Kf1 Nxd4+ Kg1 Ne2+ Kf1 Nc3+ Kg1 axb6 Qb4 Ra4 Qxb6 Nxd1 h3 Rxa2 Kh2 Nxf2 Re1 Rxe1 "
    "Qd8+ Bf8 Nxe1 Bd5 Nf3 Ne4 Qb8 b5 h4 h5 Ne5 Kg7 Kg1 Bc5+ Kf1 Ng3+ Ke1 Bb4+ Kd1 Bb3+ "
    "Kc1 Ne2+ Kb1 Nc3+ Kc1 Rc2#"
)
MATCH = "e4 c6 d4 d5 Nc3 dxe4 Nxe4 Nd7 Ng5 Ngf6 Bd3 e6 N1f3 h6"


def played(moves: str, plies: int | None = None) -> chess.Board:
    board = chess.Board()
    for move in moves.split()[:plies]:
        board.push_san(move)
    return board


def plies_before(moves: str, number: int, side: chess.Color) -> int:
    return 2 * (number - 1) + (side == chess.BLACK)


def test_a_knight_that_is_taken_by_a_pinned_queen_is_not_won():
    """8. O-O-O leaves the knight on e4; after 8... Qxe4 9. Re1 the queen is pinned and falls."""
    board = played(VIENNA)
    found = verdict(board, "O-O-O")
    assert found.kind == "offers"
    assert not found.kept
    board.push_san("O-O-O")
    goal = Gain(points=3, within=1, measure=Measure.number(0))
    outcome = prove(board, goal)
    assert outcome.status == "false"
    assert [move.uci() for move in outcome.escape[:2]] == ["e5e4", "d1e1"]
    with pytest.raises(FalseClaim, match="won back"):
        claims.wins_material(board, at_least=3, within=1)


def test_what_comes_back_by_a_rook_on_an_open_file_is_not_won():
    """15... Nxc3 16. Qxc3 Rfe8 17. O-O Rxe7: the piece is back, and a pawn with it."""
    before = plies_before(NEW_YORK, 15, chess.BLACK)
    board = played(NEW_YORK, before)
    assert not verdict(board, "Nxc3").is_bad
    board.push_san("Nxc3")
    most = finish(finding_most(board, chess.WHITE, Measure.gain(board), 3, 100_000))
    assert most.won is None or most.won.goal.points < 2


@pytest.mark.parametrize("move", ["Nxb5", "Bxb5"])
def test_a_sound_sacrifice_is_no_mistake(move):
    """10. Nxb5 was played and won; what it costs by count is not held against it."""
    board = played(PARIS)
    found = verdict(board, move)
    assert found.kind == "offers"
    said = answer(board, found.move)
    assert said.kind == "offer"
    assert said.sentence.endswith("What does White get for it?")
    assert "1 point" in said.sentence


def test_an_offered_knight_is_left_to_be_taken_and_no_more():
    """8. Nxe6 was played; a computer's referee approves of it."""
    assert not verdict(played(MATCH), "Nxe6").is_bad


def test_a_move_is_no_mistake_where_every_other_loses_as_much():
    """24. Qb4: whatever White does, it loses material."""
    board = played(NEW_YORK, plies_before(NEW_YORK, 24, chess.WHITE))
    found = verdict(board, "Qb4")
    assert not found.is_bad or finish(finding_better(found)) is None


def test_a_knight_in_the_corner_that_cannot_get_out_is_not_won():
    """Composed here: the knight takes the rook, and the king shuts it in."""
    board = chess.Board("r3k3/2p2ppp/5p2/3N4/8/8/5PPP/4K3 w - - 0 14")
    found = verdict(board, "Nxc7+")
    assert (found.kind, found.points) == ("wins", 3)
    after = found.board
    for move in found.line:
        after.push(move)
    assert not after.pieces(chess.KNIGHT, chess.WHITE), "the line shows how the knight is lost"


# From random play; the headline once named other pieces than those that fall.
ADD_UP = [
    ("2r4k/1p1b2rB/4p3/2Pp2Q1/8/p7/5PP1/4R1K1 b - - 0 1", "Rxg5", "wins a queen (9 points)"),
    ("8/5k2/p4p2/1p5p/6r1/PP2P2p/4K3/2B5 w - - 0 1", "b4", "lets a pawn become a queen"),
]


@pytest.mark.parametrize(("fen", "move", "words"), ADD_UP)
def test_the_pieces_that_are_named_are_those_that_fall(fen, move, words):
    assert words in verdict(fen, move).words


def test_what_hung_before_is_left_to_be_taken_not_lost_by_the_move():
    found = verdict("2b1r1k1/5p2/p4BNq/1p5P/5p2/bP4P1/P1P2PB1/5RK1 w - - 0 1", "Ne7+")
    assert found.kind == "offers"


def test_a_long_hunt_by_checks_is_found_at_once():
    """From 36. Kf1 on every move of Black's is a check, and it is mate at the end."""
    board = played(NEW_YORK, plies_before(NEW_YORK, 36, chess.BLACK))
    claim = claims.mates(board, within=7, budget=50_000)
    assert claim.proof is not None


def test_deeper_looks_agree_on_what_is_lost():
    """The same piece is lost, however deep the look."""
    board = played("e4 e5 Qh5 Nc6")
    for depth in (Depth(mate=2, within=2), Depth(mate=3, within=3)):
        found = verdict(board, "Qxh7", depth=depth)
        assert (found.kind, found.points, found.pieces) == ("offers", 8, "queen for pawn")
