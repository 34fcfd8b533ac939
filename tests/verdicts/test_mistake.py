"""Mistakes: a loss beside a move that costs less; a loss that no move avoids is none."""

import chess

from chessnb.search.budget import finish
from chessnb.verdicts import verdict
from chessnb.verdicts.mistake import finding_better

BACK_RANK = "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"
FORKED = "r3k3/2N2ppp/5p2/P7/8/8/5PPP/4K3 b - - 0 14"


def test_a_move_that_lets_the_back_rank_go_has_better_ones():
    found = verdict(BACK_RANK, "Rb3")
    assert found.kind == "mated"
    better = finish(finding_better(found))
    assert better is not None
    assert verdict(BACK_RANK, better).kind != "mated"


def test_a_better_move_that_is_named_is_looked_at_first():
    found = verdict(BACK_RANK, "Rb3")
    wanted = chess.Move.from_uci("g2g3")
    assert finish(finding_better(found, first=[wanted])) == wanted


def test_where_every_reply_loses_the_rook_none_is_a_mistake():
    board = chess.Board(FORKED)
    for move in board.legal_moves:
        found = verdict(board, move)
        if found.is_bad:
            assert finish(finding_better(found)) is None


def test_a_mate_that_nothing_stops_is_nobodys_mistake():
    """Two rooks on their way: whatever the king does, it is mated."""
    board = chess.Board("7k/1R6/R7/8/8/8/8/K7 b - - 0 1")
    (only,) = board.legal_moves
    found = verdict(board, only)
    assert found.kind == "mated"
    assert finish(finding_better(found)) is None


def test_a_move_that_mates_is_better_and_a_stalemate_is_not_taken_for_it():
    board = chess.Board("7k/5Q2/5K2/8/8/8/8/8 w - - 0 1")
    for move in board.legal_moves:
        found = verdict(board, move)
        if found.is_bad:
            better = finish(finding_better(found))
            assert better is not None
            assert board.san(better).endswith("#") or not verdict(board, better).is_bad


def test_a_move_that_costs_just_two_points_less_is_better():
    """The rook attacks bishop and pawn: saving the bishop costs a pawn, the rest three points."""
    found = verdict("6k1/3B1ppp/8/8/1P1r4/7P/5PPK/8 w - - 0 1", "f3")
    assert (found.kind, found.points) == ("offers", 3)
    better = finish(finding_better(found))
    assert better is not None
    assert better.from_square == chess.D7
    assert verdict(found.board, better).points == 1
