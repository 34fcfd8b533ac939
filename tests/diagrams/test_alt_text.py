"""The diagram read out."""

import re

import chess
import pytest

from chessnb.diagrams import Mark, diagram
from chessnb.diagrams.alt_text import spoken


def test_the_start_in_full():
    assert diagram("start").words == (
        "White to move. White: king e1, queen d1, rooks a1 and h1, bishops c1 and f1,"
        " knights b1 and g1, pawns a2, b2, c2, d2, e2, f2, g2 and h2."
        " Black: king e8, queen d8, rooks a8 and h8, bishops c8 and f8,"
        " knights b8 and g8, pawns a7, b7, c7, d7, e7, f7, g7 and h7."
    )


def test_a_position_can_be_set_up_from_the_words():
    """Against python-chess: put the pieces named on an empty board."""
    fen = "r1b2rk1/pp2qppp/2n1pn2/2bp4/2P5/P1NBPN2/1PQ2PPP/R1B2RK1 b - - 0 10"
    board = chess.Board.empty()
    for side, colour in (("White", True), ("Black", False)):
        (pieces,) = re.findall(rf"{side}: (.*?)\.", diagram(fen).words)
        kind = 0
        for word in re.findall(r"\w+", pieces):
            if word.rstrip("s") in chess.PIECE_NAMES[1:]:
                kind = chess.PIECE_NAMES.index(word.rstrip("s"))
            elif word != "and":
                board.set_piece_at(chess.parse_square(word), chess.Piece(kind, colour))
    assert board.board_fen() == fen.split()[0]


@pytest.mark.parametrize(
    ("before", "san", "words"),
    [
        ("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "O-O", "Last move: king from e1 to g1."),
        ("4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "a8=N", "pawn from a7 to a8, promoted to knight."),
        ("4k3/8/8/8/8/8/8/R3K3 w - - 0 1", "Ra8+", "Black is in check. Last move: rook from a1"),
    ],
)
def test_the_last_move_is_said(before, san, words):
    board = chess.Board(before)
    move = board.push_san(san)
    assert words in diagram(board, last_move=move).words


def test_marks_and_side_of_view_are_said():
    marks = [Mark(role="actor", square="e1"), Mark(role="force", square="e1", to="e8")]
    words = diagram("4k3/8/8/8/8/8/8/4K3 w - - 0 1", marks=marks, turned=True).words
    assert words.endswith("Marks: ring on e1, line of force from e1 to e8. Seen from Black's side.")


def test_an_empty_side_is_said_and_the_board_is_left_alone():
    board = chess.Board("8/8/8/8/8/8/8/8 w - - 0 1")
    assert spoken(board) == "White to move. White: no pieces. Black: no pieces."
    assert board == chess.Board("8/8/8/8/8/8/8/8 w - - 0 1")
