"""The thread of a game: what is told, what is left alone, and that nothing is given away."""

import chess
import pytest

from chessnb import Lesson
from chessnb.teaching.thread.choosing import all_remarks, thread, thread_of, told_of
from chessnb.teaching.thread.remark import Course

OPERA = (
    "e4 e5 Nf3 d6 d4 Bg4 dxe5 Bxf3 Qxf3 dxe5 Bc4 Nf6 Qb3 Qe7 Nc3 c6 Bg5 b5 Nxb5 cxb5 Bxb5+ Nbd7 "
    "O-O-O Rd8 Rxd7 Rxd7 Rd1 Qe6 Bxd7+ Nxd7 Qb8+ Nxb8 Rd8#"
)
GAMBIT = "e4 e5 f4 exf4 Bc4 Qh4+ Kf1 b5 Bxb5 Nf6 Nf3 Qh6 d3 Nh5 Nh4 Qg5 Nf5 c6"
"""Two old games of the King's pawn, as they are printed everywhere."""


def moves_of(sans, fen=chess.STARTING_FEN):
    board = chess.Board(fen)
    return [board.push_san(san) for san in sans.split()]


def said(sans, fen=chess.STARTING_FEN):
    """All that could be told, by the number of the move."""
    told = {}
    for one in all_remarks(fen, tuple(moves_of(sans, fen))):
        told.setdefault(one.ply, []).append(one.words)
    return told


@pytest.mark.parametrize(
    ("sans", "ply", "words"),
    [
        (OPERA, 4, "The opening is called “Philidor Defence”."),
        ("d4 e6 Nf3 f5 c4 Nf6", 4, "The opening is called “Dutch Defence”."),
        ("d4 d5 Nf3 c5 c4 e6 cxd5 exd5", 6, "The opening is called “Tarrasch Defence”."),
        (
            GAMBIT + " a4 a6 a5 Bb7",
            7,
            "After the check the king has gone to f1: White can no longer castle.",
        ),
        (OPERA, 14, "The queen on e7 shuts in the bishop on f8."),
        (
            OPERA,
            13,
            "The queen on b3 attacks the pawns on b7 and f7 at once, f7 together with the bishop "
            "on c4.",
        ),
        (
            OPERA,
            23,
            "White has castled queenside; Black's king is still in the centre, on e8. The rook on "
            "d1 attacks the knight on d7.",
        ),
        (OPERA, 22, "The bishop on b5 pins the knight on d7 to the king on e8."),
        (GAMBIT, 16, "The queen on g5 attacks the knight on h4 and the bishop on b5 at once."),
    ],
)
def test_what_a_book_says_is_said(sans, ply, words):
    assert words in said(sans)[ply]


@pytest.mark.parametrize(
    ("fen", "sans", "ply", "words"),
    [
        (
            "4k3/8/8/8/5n2/8/3R4/4K3 w - - 0 1",
            "Rd4 Kf7 Kd2 Kg6 Ke3 Nh5 Kf3 Kf5",
            1,
            "The rook on d4 attacks the knight on f4.",
        ),
        (
            "5rk1/5ppp/8/8/8/8/1B3PPP/3Q2K1 w - - 0 1",
            "Qd4 f6 h3 h6",
            1,
            "White threatens mate on g7.",
        ),
        (
            "4k3/pp3ppp/8/8/8/4P3/PPK3PP/8 w - - 0 1",
            "Kd3 Ke7 Ke4 Ke6 Kf4 f6",
            1,
            "White's king sets out: by d3 and e4 it comes to f4 at move 3.",
        ),
        (
            "3qk3/3r4/8/8/8/8/3R4/3QK3 w - - 0 1",
            "Rxd7 Qxd7 Qxd7+ Kxd7 Ke2 Kd6 Kd3 Kd5",
            4,
            "The queens are off the board, and the ending begins: White has only the king; "
            "Black has only the king.",
        ),
        (
            "6k1/pp3ppp/8/8/8/8/PP3PPP/2R3K1 w - - 0 1",
            "h3 h6 g3 g6 f3 f6 Kg2 Kg7 Kf2 Kf8 Ke2 Ke8 Kd3 Kf8 h4 h5 a3 a6 b3 Ke8 Rc7 f5",
            21,
            "The rook has reached the seventh rank on c7.",
        ),
        (
            "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
            "a3 a6 b3 b6 c3 c6 d3 d6 e3 e6 f3 f6 e4 e5",
            11,
            "The pawn on f3 prepares e4: it guards that square, and the pawn goes there at move 7.",
        ),
    ],
)
def test_plans_and_endings_are_told_from_the_moves_made(fen, sans, ply, words):
    told = said(sans, fen)[ply]
    assert words in told or any(one.startswith(words[:-1]) for one in told), told


@pytest.mark.parametrize(
    ("fen", "sans", "never"),
    [
        # A rook attacks, but the rook itself is taken.
        ("4k3/8/8/3p4/2n2p2/8/3R4/4K3 w - - 0 1", "Rd4 Kf7", "The rook on d4 attacks the knight"),
        # The knight is taken where it went: another piece goes on from there.
        (
            "r3k2r/ppb2ppp/2n5/8/5B2/5N2/PPP2PPP/R3K2R b KQkq - 0 12",
            "Ne5 Nxe5 Bxe5 O-O Bd6 Rfe1+ Kf8 Bxd6+",
            "knight sets out",
        ),
        # The bishop's line is blocked by two pieces.
        ("3qk3/3n4/3b4/8/6B1/8/8/4K3 w - - 0 1", "Bf5 Ke7", "pins"),
        # A king in check may still castle later where it did not move.
        ("r3k2r/8/8/8/8/8/4B3/R3K2R b KQkq - 0 1", "Kf8 Bf1 Kg8 Bg2 Kg7 Rb1",
         "White can no longer castle"),
        # Mate was possible already: no new threat.
        ("6k1/5ppp/8/8/8/8/5PPP/R5K1 b - - 0 1", "h6 Ra8+ Kh7", "threatens mate"),
    ],
)  # fmt: skip
def test_what_is_not_so_is_not_said(fen, sans, never):
    told = [words for one in said(sans, fen).values() for words in one]
    assert not any(never in words for words in told), told


def test_a_move_that_is_asked_for_is_not_told_in_advance():
    moves = moves_of(GAMBIT)
    whole = thread(chess.Board(), moves)
    assert any("f5" in words for words in whole[11])  # where the knight is going
    hidden = thread(chess.Board(), moves, asked={17}, shown={17})
    assert not any("f5" in words for ply in range(1, 17) for words in hidden.get(ply, ()))


def test_a_page_of_its_own_is_not_told_again():
    moves = moves_of(OPERA)
    assert 11 in thread(chess.Board(), moves)
    assert 11 not in thread(chess.Board(), moves, shown={11})


def test_it_is_a_thread_and_not_a_word_for_every_move():
    moves = moves_of(OPERA)
    told = thread(chess.Board(), moves)
    assert sum(map(len, told.values())) <= len(moves) / 2
    assert all(len(words) <= 2 for words in told.values())


def test_it_mirrors():
    """What is said of White is said of Black, where the colours are changed."""
    fen = "3qk3/3r4/8/8/8/8/3R4/3QK3 w - - 0 1"
    course = Course.of(chess.Board(fen), moves_of("Rxd7 Qxd7", fen))
    turned = Course(
        tuple(board.mirror() for board in course.boards),
        tuple(
            chess.Move(chess.square_mirror(one.from_square), chess.square_mirror(one.to_square))
            for one in course.moves
        ),
    )
    assert turned.side(1) == chess.BLACK
    first = all_remarks(course.boards[0].fen(), tuple(course.moves))
    second = all_remarks(turned.boards[0].fen(), tuple(turned.moves))
    assert [(one.ply, one.weight) for one in first] == [(one.ply, one.weight) for one in second]


def test_what_is_told_is_found_again():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 d6 3. d4 Bg4 4. dxe5 Bxf3 *")
    assert thread_of(lesson)[4] == ("The opening is called “Philidor Defence”.",)
    assert "The opening is called “Philidor Defence”." in told_of(lesson.after("2... d6"))
    assert not told_of(lesson.start)


def test_of_a_game_with_a_pass_it_is_told_what_was_before():
    moves = moves_of("e4 e5 Nf3 Nc6 Bb5 a6")
    passed = [*moves, chess.Move.null(), chess.Move.from_uci("g8f6"), chess.Move.from_uci("e1g1")]
    found = all_remarks(chess.STARTING_FEN, tuple(passed))
    assert found == all_remarks(chess.STARTING_FEN, tuple(moves))
    assert thread(chess.Board(), passed) == thread(chess.Board(), moves)
