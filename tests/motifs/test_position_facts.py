"""Pawn and square facts as tags of a position."""

import chess
import pytest
from boards import random_boards

from chessnb import facts, motifs
from chessnb.errors import InputError
from chessnb.motifs.position_facts import FACTS

# Every pawn's name was read off the board by hand.
PAWNS = "4k3/1pp2ppp/p2p4/4p3/2P1P3/2P2P2/P5PP/4K3 w - - 0 1"


def facts_of(position, *names):
    found = motifs.tags(position, facts=True)
    return {(tag.motif, tag.side, tag.actor) for tag in found if tag.motif in (names or FACTS)}


def test_named_pawns_and_files():
    assert facts_of(PAWNS) == {
        ("isolated pawn", True, "a2"),
        ("isolated pawn", True, "c3"),
        ("isolated pawn", True, "c4"),
        ("doubled pawns", True, "c3"),
        ("half-open file", True, "b1"),
        ("half-open file", True, "d1"),
    }


@pytest.mark.parametrize(
    ("fen", "fact", "side", "actor"),
    [
        ("4k3/8/8/P7/8/8/8/4K3 w - - 0 1", "passed pawn", True, "a5"),
        ("4k3/8/8/7p/8/5P2/8/4K3 w - - 0 1", "passed pawn", False, "h5"),
        ("4k3/8/3p4/2p1p3/2P1P3/8/8/4K3 w - - 0 1", "backward pawn", False, "d6"),
        ("4k3/8/2p1p3/2P1P3/3P4/8/8/4K3 w - - 0 1", "isolated pawn", False, "c6"),
        ("4k3/pp6/8/8/8/8/PP6/4K3 b - - 0 1", "open file", False, "e8"),
        ("4k3/pp6/8/8/8/8/P7/4K3 w - - 0 1", "half-open file", True, "b1"),
        ("6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1", "weak back rank", True, "g8"),
        ("r5k1/8/8/8/8/8/5PPP/6K1 w - - 0 1", "weak back rank", False, "g1"),
        ("3qk3/8/8/8/8/8/8/3QK3 w - - 0 1", "uncastled king", True, "e8"),
        ("3q3k/8/8/8/8/8/3K4/8 w - - 0 1", "uncastled king", False, "d2"),
    ],
)
def test_a_fact_is_told(fen, fact, side, actor):
    assert (fact, side, actor) in facts_of(fen)
    assert (fact, not side, _over(actor)) in facts_of(chess.Board(fen).mirror())


@pytest.mark.parametrize(
    ("fen", "fact"),
    [
        ("4k3/1p6/8/P7/8/8/8/4K3 w - - 0 1", "passed pawn"),
        ("4k3/8/3p4/2p1p3/8/8/8/4K3 w - - 0 1", "backward pawn"),
        ("4k3/2p5/3p4/4p3/2P1P3/8/8/4K3 w - - 0 1", "backward pawn"),
        ("6k1/5pp1/7p/8/8/8/8/R5K1 w - - 0 1", "weak back rank"),
        ("r5k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1", "weak back rank"),
        ("6k1/5ppp/8/8/8/8/8/B5K1 w - - 0 1", "weak back rank"),
        ("3qk2r/8/8/8/8/8/8/3Q2K1 w k - 0 1", "uncastled king"),
        ("4k3/8/8/8/8/8/8/4K2R w - - 0 1", "uncastled king"),
    ],
)
def test_a_near_miss_is_not(fen, fact):
    assert not facts_of(fen, fact)


def test_a_king_that_castled_and_came_back_is_not_uncastled():
    board = chess.Board("4k3/7p/1q6/8/8/8/8/R3K3 w Q - 0 1")
    for san in ("O-O-O", "h6", "Kd2", "h5", "Ke2", "h4"):
        board.push_san(san)
    assert ("uncastled king", False, "e2") not in facts_of(board)
    assert ("uncastled king", False, "e2") in facts_of(board.fen())


def test_a_square_counts_batteries():
    fen = "4k3/8/4p3/3p4/8/2N5/3R4/3QK3 w - - 0 1"
    (tag,) = motifs.tags(fen, squares=["d5"]).named("attackers and defenders")
    counted = facts.pressure(fen, "d5")
    assert len(tag.squares) == counted.attacked_by + counted.defended_by == 4
    assert "the queen on d1" in tag.sentence
    assert motifs.tags(fen, squares="D5") == motifs.tags(fen, squares=[chess.D5])
    with pytest.raises(InputError):
        motifs.tags(fen, squares=["z9"])


def test_facts_are_no_tactics():
    assert not set(FACTS) & set(motifs.names())
    assert not [tag for tag in motifs.tags(PAWNS, geometric=True) if tag.fact]
    for tag in motifs.tags(PAWNS, facts=True):
        assert tag.fact
        assert not tag.sound
        assert "geometric" not in tag.words
        assert tag.paragraphs == (f"{tag.sentence}.",)
        assert "<svg" in tag.picture.svg()
    board = chess.Board(PAWNS)
    for move in board.legal_moves:
        assert not [tag for tag in motifs.tag(board, move, geometric=True) if tag.fact]


@pytest.mark.thorough
def test_facts_mirror():
    for board in random_boards(12, seed=5, longest=80):
        there = {(name, not side, _over(square)) for name, side, square in facts_of(board.fen())}
        assert there == facts_of(chess.Board(board.fen()).mirror())


def _over(square):
    return chess.square_name(chess.square_mirror(chess.parse_square(square)))
