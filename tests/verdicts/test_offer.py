"""What a move leaves to be taken, counted on one square."""

import chess
import pytest

from chessnb.verdicts.offer import offer_of


def offered(fen, san):
    board = chess.Board(fen)
    offer = offer_of(board, board.parse_san(san))
    return offer.points, chess.square_name(offer.square)


@pytest.mark.parametrize(
    ("fen", "san", "points", "square"),
    [
        # Composed for this test.
        ("4k3/8/3p4/8/8/5N2/8/4K3 w - - 0 1", "Ne5", 3, "e5"),  # a pawn may take the knight
        ("4k3/8/3p4/4p3/8/5N2/8/4K3 w - - 0 1", "Nxe5", 2, "e5"),  # less the pawn it took
        ("4k3/8/3p4/4b3/8/5N2/8/4K3 w - - 0 1", "Nxe5", 0, "e5"),  # knight for bishop
        ("4k3/8/8/8/1b6/2N5/3P4/4K3 w - - 0 1", "d3", 3, "c3"),  # uncovered: it had a guard
        ("4k3/8/8/8/8/2N5/8/4K2R w K - 0 1", "Rh2", 0, "h2"),  # nothing can be taken
    ],
)
def test_what_is_left(fen, san, points, square):
    assert offered(fen, san) == (points, square)


def test_what_could_be_taken_before_is_no_offer():
    board = chess.Board("4k3/8/8/8/1b6/2N5/7P/4K3 w - - 0 1")
    assert offer_of(board, board.parse_san("h3")).points <= 0


def test_a_pawn_that_is_left_is_no_offer():
    board = chess.Board("4k3/8/8/8/1b6/8/3P4/2R1K3 w - - 0 1")
    assert offer_of(board, board.parse_san("Rc7")).points <= 0


def test_a_safe_piece_that_is_put_where_it_is_taken_is_offered_though_all_its_ways_are_bad():
    safe = "4k3/8/8/8/2p5/3p4/8/N3K3 w - - 0 1"  # both squares of the knight are guarded
    assert offered(safe, "Nb3") == (3, "b3")
    attacked = "4k2b/8/8/8/2p5/3p4/8/N3K3 w - - 0 1"  # now it is lost wherever it stands
    assert offered(attacked, "Nb3")[0] == 0
