"""How pieces, sides and numbers are written in records: what is written is told again."""

import chess
import pytest
from boards import random_boards

from chessnb.board.naming import the_piece
from chessnb.findings.record import PLACE
from chessnb.findings.record_fields import piece_in_words, piece_on, place_of, side_of_place


def test_every_square_is_told_as_it_stands():
    for board in random_boards(40, seed=3):
        for square in chess.SQUARES:
            assert piece_in_words(piece_on(board, square)) == the_piece(board, square)


@pytest.mark.parametrize("seed", [4, 5])
def test_a_place_tells_whose_move_it_is(seed):
    for board in random_boards(40, seed=seed):
        assert PLACE.fullmatch(place_of(board))
        assert side_of_place(place_of(board)) == board.turn
        for move in board.legal_moves:
            assert PLACE.fullmatch(place_of(board, move))
            assert side_of_place(place_of(board, move)) == board.turn
