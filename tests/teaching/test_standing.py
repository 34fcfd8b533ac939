"""A game is decided for a class once a side is a piece ahead for good."""

import chess

from chessnb.teaching.standing import LASTING, Standing


def looked_at(*positions):
    standing = Standing()
    for fen in positions:
        standing.look(chess.Board(fen))
    return standing


UP_A_ROOK = "6k1/5ppp/8/8/8/8/5PPP/R5K1 {} - - 0 1"
EVEN = "r5k1/5ppp/8/8/8/8/5PPP/R5K1 {} - - 0 1"


def test_nothing_is_decided_before_anything_was_looked_at_nor_while_it_is_even():
    assert not Standing().is_decided
    assert not looked_at(*[EVEN.format(side) for side in "wbwbwb"]).is_decided


def test_who_is_to_move_and_behind_is_behind_at_once():
    assert looked_at(EVEN.format("w"), UP_A_ROOK.format("b")).is_decided


def test_who_is_to_move_and_ahead_may_still_lose_it_again():
    assert not looked_at(EVEN.format("b"), UP_A_ROOK.format("w")).is_decided
    assert looked_at(*[UP_A_ROOK.format("w")] * LASTING).is_decided


def test_a_recapture_under_way_decides_nothing():
    game = chess.Board("4k3/8/8/3r4/8/8/3R4/4K3 w - - 0 1")
    standing = Standing()
    standing.look(game)
    game.push_san("Rxd5")
    standing.look(game)
    assert standing.is_decided  # nothing takes the rook back
    game = chess.Board("4k3/8/4p3/3r4/8/8/3R4/4K3 w - - 0 1")
    standing = Standing()
    standing.look(game)
    game.push_san("Rxd5")
    standing.look(game)
    assert not standing.is_decided  # the pawn does
