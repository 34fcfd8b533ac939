"""What a move was for: uses that were made of it, and moves that made way for nothing."""

import chess
import pytest

from chessnb import Lesson, facts
from chessnb.board.turns import moved
from chessnb.errors import LessonError
from chessnb.notation import read_line

# (position, move, what followed, the uses): the positions are made for the purpose.
USED = [
    # the bishop leaves the rook's line
    ("6k1/5ppp/8/8/8/3B4/6PP/3R2K1 w - - 0 1", "Bb5", "h5 Rd8+ Kh7", ["line d3"]),
    # the knight guards h7, where the queen mates; from where it came it did not
    ("5rk1/5ppp/8/8/3N4/3Q4/6PP/6K1 w - - 0 1", "Nf3", "Ra8 Ng5 g6 Qxg6+", []),
    ("5rk1/5p1p/6p1/8/4N3/7Q/6PP/6K1 w - - 0 1", "Ng5", "Ra8 Qxh7+ Kf8", ["guard h7"]),
    # the rook takes the last square from the king that is mated
    ("7k/8/8/8/8/8/R7/1R4K1 w - - 0 1", "Ra7", "Kg8 Rb8#", ["flight f7"]),
    ("6k1/8/8/8/8/8/R7/1R4K1 w - - 0 1", "Ra7", "Kf8 Rb8#", ["flight e7"]),
    # the pawn makes room for its own king
    ("3r2k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1", "h3", "Rd2 Ra7 Rd1+ Kh2", ["room h2"]),
    # a knight goes round to where it strikes; on a way without a blow nothing shows
    (
        "3q2k1/5p1p/6p1/8/8/8/3N1PPP/3Q2K1 w - - 0 1",
        "Nf1",
        "Qe8 Ng3 Qd8 Ne4 Qe8 Nf6+",
        ["route f6"],
    ),
    ("3q2k1/5p1p/6p1/8/8/8/3N1PPP/3Q2K1 w - - 0 1", "Nb3", "Qe8 Nd4 Qe7 Nc6 Qf8", []),
    ("4r1k1/5p1p/6p1/8/8/8/3N1PPP/3R2K1 w - - 0 1", "Nb3", "Kg7 Nd4 Kg8 Nc6 Kg7", []),
    ("4q1k1/5p1p/6p1/8/8/8/3N1PPP/3R2K1 w - - 0 1", "Nf3", "h6 Ng5 h5 Ne4 Qe7 Nf6+", ["route f6"]),
    ("4q1k1/5p1p/6p1/8/8/8/1N3PPP/3R2K1 w - - 0 1", "Nd3", "h6 Ne5 h5 Nxg6 fxg6", []),  # a step
    ("4q1k1/5p1p/8/8/8/8/1N3PPP/3R2K1 w - - 0 1", "Nc4", "h6 Ne3 h5 Nf5 h4", []),
    ("4q1k1/5p1p/8/8/8/8/1N3PPP/3R2K1 w - - 0 1", "Nc4", "Qc6 Ne3 Qe8 Nf5 Qe6 Ne7+", ["route e7"]),
    # a piece that was guarded from where the other came, a square that was taken back
    ("6k1/5ppp/8/8/8/3B4/6PP/3R2K1 w - - 0 1", "Be4", "h5 Bd5 Kh7", []),
]


def uses(fen, move, line):
    found = facts.purpose(fen, move, line)
    return [f"{use.kind} {use.square}" for use in found.uses]


@pytest.mark.parametrize(("fen", "move", "line", "expected"), USED)
def test_uses(fen, move, line, expected):
    assert uses(fen, move, line) == expected


@pytest.mark.parametrize(("fen", "move", "line", "expected"), USED)
def test_the_mirror_has_the_same_uses(fen, move, line, expected):
    board = chess.Board(fen)
    first = board.parse_san(move)
    rest = read_line(moved(board, [first]), line)
    turned = [_turned(one) for one in (first, *rest)]
    found = facts.purpose(board.mirror(), turned[0], turned[1:])
    squares = [
        chess.square_name(chess.square_mirror(chess.parse_square(use.square))) for use in found.uses
    ]
    assert [
        f"{use.kind} {square}" for use, square in zip(found.uses, squares, strict=True)
    ] == expected


def _turned(move):
    return chess.Move(
        chess.square_mirror(move.from_square), chess.square_mirror(move.to_square), move.promotion
    )


# -- published games, from memory -------------------------------------------------------

TORRE = (
    "1. d4 Nf6 2. Nf3 e6 3. Bg5 c5 4. e3 cxd4 5. exd4 Be7 6. Nbd2 d6 7. c3 Nbd7 8. Bd3 b6 9. Nc4 "
    "Bb7 10. Qe2 Qc7 11. O-O O-O 12. Rfe1 Rfe8 13. Rad1 Nf8 14. Bc1 Nd5 15. Ng5 b5 16. Na3 b4 "
    "17. cxb4 Nxb4 18. Qh5 Bxg5 19. Bxg5 Nxd3 20. Rxd3 Qa5 21. b4 Qf5 22. Rg3 h6 23. Nc4 Qd5 "
    "24. Ne3 Qb5 25. Bf6 Qxh5 26. Rxg7+ Kh8 27. Rxf7+ Kg8 28. Rg7+"
)
"""Torre against Lasker, Moscow 1925."""

OPERA = (
    "1. e4 e5 2. Nf3 d6 3. d4 Bg4 4. dxe5 Bxf3 5. Qxf3 dxe5 6. Bc4 Nf6 7. Qb3 Qe7 8. Nc3 c6 "
    "9. Bg5 b5 10. Nxb5 cxb5 11. Bxb5+ Nbd7 12. O-O-O Rd8 13. Rxd7 Rxd7 14. Rd1 Qe6 15. Bxd7+ "
    "Nxd7 16. Qb8+ Nxb8 17. Rd8#"
)
"""Morphy against the Duke of Brunswick and Count Isouard, Paris 1858."""


def test_torre_s_bishop_made_way_and_defended():
    found = Lesson.from_text(TORRE).after("25. Bf6").purpose()
    assert str(found) == "25. Bf6 | purpose | line g5: Rxg7+ | guard g7: Rxg7+ | given"
    assert found.words == (
        "The bishop left g5, and the rook went across it on the next move (26. Rxg7+). "
        "The bishop defended g7 before the rook went there on the next move (26. Rxg7+)."
    )
    assert found.picture.fen.startswith("r3rnk1/pb3pR1/")


def test_morphy_s_bishop_opened_the_line_of_the_queen():
    lesson = Lesson.from_text(OPERA)
    assert str(lesson.after("15. Bxd7+").purpose()) == "15. Bxd7+ | purpose | line b5: Qb8+ | given"
    told = [move for move in lesson.moments() if move.move and move.purpose().uses]
    assert len(told) <= 2, "the opening's every move makes way for something"


def test_nothing_shows_and_no_move():
    lesson = Lesson.from_text("1. e4 e5")
    assert lesson.after("1. e4").purpose().words == (
        "Nothing in the next 3 moves shows what it was for."
    )
    with pytest.raises(LessonError, match="no move leads here"):
        lesson.start.purpose()
