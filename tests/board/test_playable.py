"""Positions set up by hand: Python says what is wrong with them, in words."""

import chess
import pytest
from boards import random_boards

from chessnb.board.playable import faults_of, playable
from chessnb.errors import PositionError


def test_positions_of_games_have_no_faults() -> None:
    for board in random_boards(60, seed=21):
        assert faults_of(board.fen()) == []
        assert playable(board.fen()).fen() == board.fen()


@pytest.mark.parametrize(
    ("fen", "words"),
    [
        ("8/8/8/8/8/8/8/8 w - - 0 1", "empty"),
        ("8/8/8/8/8/8/8/K7 w - - 0 1", "Black has no king"),
        ("P3k3/8/8/8/8/8/8/4K3 w - - 0 1", "pawn"),
        ("4k3/8/8/8/8/8/4R3/4K3 w - - 0 1", "Black is in check"),
        ("4k3/8/8/8/8/8/8/4K3 w K - 0 1", "castle"),
        ("4k3/8/8/8/8/8/8/4K3 w - e6 0 1", "e5"),
        ("rk2r3/8/8/8/8/8/8/RK2R3 w KQkq - 0 1", "castle"),
        ("4k3/8/8/8/8/8/8 w - - 0 1", "8 ranks"),
        ("hello", "FEN"),
        ("", "FEN"),
        ("<b>" * 100_000, "FEN"),
    ],
)
def test_what_cannot_be_played_on_is_said_and_refused(fen: str, words: str) -> None:
    assert any(words in fault for fault in faults_of(fen)), faults_of(fen)
    assert all(len(fault) < 500 for fault in faults_of(fen))
    with pytest.raises(PositionError):
        playable(fen)


def test_what_is_judged_good_can_be_played_on_and_nothing_else() -> None:
    """A judgement and the refusal of the board itself must never differ."""
    pieces = "KQRBNPkqrbnp"
    for number in range(3000):
        board = chess.Board(None)
        for place in range(2 + number % 5):
            square = (number * 29 + place * 23 + place * place * number) % 64
            board.set_piece_at(square, chess.Piece.from_symbol(pieces[(number + 5 * place) % 12]))
        board.turn = bool(number % 2)
        try:
            playable(board.fen())
            refused = False
        except PositionError:
            refused = True
        assert refused == bool(faults_of(board.fen())), board.fen()
