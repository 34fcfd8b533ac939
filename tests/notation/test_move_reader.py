"""Moves as people type them, and what they are told when they err."""

import random
import re

import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import AmbiguousMove, ChessnbError, IllegalMove, MalformedMove, NotationError
from chessnb.notation import read_move, read_movetext
from chessnb.notation.move_reader import is_move, read_written


@pytest.mark.parametrize(
    ("text", "uci"),
    [
        ("Nf3", "g1f3"), ("Ng1-f3", "g1f3"), ("Ng1f3", "g1f3"), ("g1f3", "g1f3"), ("♘f3", "g1f3"),
        ("nf3", "g1f3"), ("1. Nf3", "g1f3"), ("1.Nf3!?", "g1f3"), (" Nf3 ", "g1f3"),
        ("e4", "e2e4"), ("e2-e4", "e2e4"), ("e2e4", "e2e4"), ("Pe4", "e2e4"), ("♙e4", "e2e4"),
    ],
)  # fmt: skip
def test_the_first_move_in_many_notations(text, uci):
    assert read_move("start", text).uci() == uci


CASTLING = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"


@pytest.mark.parametrize(
    ("text", "uci"),
    [
        ("O-O", "e1g1"), ("0-0", "e1g1"), ("o-o", "e1g1"), ("O-O+", "e1g1"), ("OO", "e1g1"),
        ("e1g1", "e1g1"), ("Ke1-g1", "e1g1"),
        ("O-O-O", "e1c1"), ("0-0-0!", "e1c1"), ("000", "e1c1"), ("e1c1", "e1c1"),
    ],
)  # fmt: skip
def test_castling_with_letter_or_figure(text, uci):
    assert read_move(CASTLING, text).uci() == uci


PROMOTION = "3r3k/4P3/8/8/8/8/8/4K3 w - - 0 1"


@pytest.mark.parametrize(
    ("text", "uci"),
    [
        ("e8=Q", "e7e8q"), ("e8Q", "e7e8q"), ("e8(N)", "e7e8n"), ("e8/R", "e7e8r"), ("e8=♘", "e7e8n"),
        ("exd8=B", "e7d8b"), ("ed8=Q+", "e7d8q"), ("e7xd8=Q", "e7d8q"), ("e7e8n", "e7e8n"),
        ("e:d8=Q", "e7d8q"), ("ed8Q", "e7d8q"),
    ],
)  # fmt: skip
def test_promotions(text, uci):
    assert read_move(PROMOTION, text).uci() == uci


def test_a_small_b_is_a_pawn_first_and_a_bishop_only_where_no_pawn_fits():
    board = "4k3/8/8/8/2p5/1P6/4B3/4K3 w - - 0 1"
    assert read_move(board, "bxc4").uci() == "b3c4"
    assert read_move(board, "Bxc4").uci() == "e2c4"
    assert read_move(board, "bf3").uci() == "e2f3"


# (position, text, kind of error, the teacher's answer or its decisive words)
ANSWERS = [
    ("start", "Bg5", IllegalMove, "the bishop on c1 cannot reach g5: the pawn on d2 is in the way"),
    ("start", "Nd2", IllegalMove, "White's own pawn stands there"),
    ("start", "e7e5", IllegalMove, "the pawn on e7 is Black's"),
    ("start", "e4e5", IllegalMove, "e4 is empty"),
    ("start", "O-O", IllegalMove, "the bishop on f1 and the knight on g1 are in the way"),
    ("start", "Nf9", MalformedMove, "there is no square f9: files run from a to h, ranks from 1 to 8"),
    ("start", "Nf", MalformedMove, "the square is missing: write it like Nf3"),
    ("start", "hello", MalformedMove, "this is not a move: write it like Nf3, exd5, O-O or e8=Q"),
    ("start", "Lb5", MalformedMove, "L stands for no piece: the letters in English are N knight, "
     "B bishop, R rook, Q queen and K king"),
    ("start", "", MalformedMove, "a move is missing: write it like Nf3, exd5, O-O or e8=Q"),
    ("start", "--", MalformedMove, "a pass is no move of chess"),
    # a pinned piece, a check that is not answered, the king into an attack
    ("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1", "Nc3", IllegalMove, "rook on e8"),
    ("4r1k1/8/8/8/8/8/8/R3K3 w Q - 0 1", "Ra8", IllegalMove, "check from the rook on e8"),
    ("4r1k1/8/8/8/8/8/8/3K4 w - - 0 1", "Ke2", IllegalMove, "the rook on e8 attacks e2"),
    # castling
    ("4k3/8/8/2b5/8/8/8/4K2R w K - 0 1", "O-O", IllegalMove, "the bishop on c5"),
    ("4k3/8/8/8/8/8/8/4K2R w - - 0 1", "O-O", IllegalMove, "right"),
    # pawns
    ("4k3/8/8/8/4p3/4P3/8/4K3 w - - 0 1", "e4", IllegalMove, "the pawn on e4 is in the way"),
    ("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "d5", IllegalMove, "exd5"),
    (PROMOTION, "e8=K", IllegalMove, "a pawn cannot become a king: say Q, R, B or N"),
    ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "e4", IllegalMove, "White has no pawn"),
    # several
    ("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", "Nd2", AmbiguousMove,
     "two knights can go to d2: say b or f (Nbd2 or Nfd2)"),
    ("4k3/8/8/6N1/8/8/8/4K1N1 w - - 0 1", "Nf3", AmbiguousMove,
     "two knights can go to f3: say 1 or 5 (N1f3 or N5f3)"),
    (PROMOTION, "exd8", AmbiguousMove,
     "the pawn becomes a piece on d8: say exd8=B, exd8=N, exd8=Q+ or exd8=R+"),
    # nothing goes
    ("7k/5KQ1/8/8/8/8/8/8 b - - 0 1", "Kh7", IllegalMove, "checkmate"),
    ("7k/5K2/6Q1/8/8/8/8/8 b - - 0 1", "Kh7", IllegalMove, "stalemate"),
]  # fmt: skip


@pytest.mark.parametrize(("position", "text", "kind", "answer"), ANSWERS)
def test_a_wrong_move_gets_the_reason(position, text, kind, answer):
    with pytest.raises(kind) as caught:
        read_move(position, text)
    assert answer in caught.value.reason
    assert caught.value.text == text
    assert caught.value.fen in str(caught.value)
    assert type(caught.value) is kind


# The king's own move of two squares is castling; nothing that contradicts castling is.
@pytest.mark.parametrize("text", ["e1g1q", "e1g1=Q", "Ke1xg1", "e1xg1", "e1c1n", "Ke1xc1", "Kxg1"])
def test_what_no_castling_can_be_is_refused(text):
    with pytest.raises(IllegalMove):
        read_move(CASTLING, text)


@pytest.mark.parametrize(
    ("text", "castling"), [("e1h1", "O-O"), ("e1a1", "O-O-O"), ("Ke1xh1", "O-O"), ("Kxa1", "O-O-O")]
)
def test_a_king_that_takes_its_rook_is_told_how_castling_is_written(text, castling):
    with pytest.raises(IllegalMove, match=f"castling is written {castling}$|written {castling} "):
        read_move(CASTLING, text)
    for board in ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", "r3k2r/8/8/8/8/8/8/R2K3R w kq - 0 1"):
        with pytest.raises(IllegalMove) as caught:
            read_move(board, text)
        assert "castling is written" not in caught.value.reason


@pytest.mark.parametrize(
    "text",
    ["9" * 5_000, "1" * 5_000 + ". e4", "e" + "4" * 5_000, "knight " * 900],
    ids=["figures", "number", "square", "words"],
)
def test_endless_text_is_refused_and_not_repeated(text):
    with pytest.raises(MalformedMove, match="too long") as caught:
        read_move("start", text)
    assert len(str(caught.value)) < 300


def test_endless_numbers_in_a_game_are_refused():
    for movetext in ("9" * 5_000 + ". e4", "1. e4 $" + "9" * 5_000):
        with pytest.raises(ChessnbError):
            read_movetext(movetext)


def test_words_are_moves_for_readers_but_not_in_a_game():
    assert read_move("start", "knight to f3").uci() == "g1f3"
    for text in ("knight to f3", "mate", "takes", "ed", "castles"):
        with pytest.raises(MalformedMove):
            read_written("start", text)
    with pytest.raises(NotationError):
        read_movetext("1. e4 e5 2. castles")
    assert not any(map(is_move, ("mate", "takes", "knight to f3", "castles", "ed", "e")))


def illegal_moves(board, chance, count):
    """Random moves of the side to move's pieces that are not legal."""
    own = list(chess.scan_forward(board.occupied_co[board.turn]))
    while count:
        move = chess.Move(chance.choice(own), chance.choice(chess.SQUARES))
        # The king's double step is castling: its reasons are tested by themselves.
        castles = move.from_square == board.king(board.turn) and (
            chess.square_distance(move.from_square, move.to_square) == 2
        )
        last = chess.square_rank(move.to_square) in (0, 7)
        pawn = board.piece_type_at(move.from_square) == chess.PAWN
        if move not in board.legal_moves and not castles and not (pawn and last):
            yield move
            count -= 1


@pytest.mark.thorough
def test_the_reason_is_true_for_random_illegal_moves():
    """What the answer says is checked with python-chess, by other means than it was found."""
    chance = random.Random(11)
    said = dict.fromkeys(("pin", "way", "check", "own", "reach", "go"), 0)
    for board in random_boards(scaled(300, least=120), seed=12):
        if not any(board.legal_moves):
            continue
        for move in illegal_moves(board, chance, 8):
            with pytest.raises(NotationError) as caught:
                read_move(board, move.uci())
            reason = caught.value.reason.split(";")[0]
            names = [chess.parse_square(name) for name in re.findall(r"\b[a-h][1-8]\b", reason)]
            if "pinned" in reason:
                said["pin"] += 1
                assert board.is_pinned(board.turn, move.from_square)
            elif "is in the way" in reason:
                said["way"] += 1
                assert names[-1] in (
                    *chess.SquareSet.between(move.from_square, move.to_square),
                    move.to_square,
                )
                assert board.piece_at(names[-1])
            elif "in check" in reason:
                said["check"] += 1
                assert board.is_pseudo_legal(move)
                after = board.copy()
                after.push(move)
                king = after.king(not after.turn)
                givers = after.attackers(after.turn, king)
                assert givers
                if not board.is_check():
                    assert set(names[1:]) == set(givers)
            elif "'s own " in reason:
                said["own"] += 1
                assert board.color_at(move.to_square) == board.turn
            elif "may not go" in reason:
                said["go"] += 1
                assert board.is_pseudo_legal(move)
            elif not board.is_pseudo_legal(move):
                said["reach"] += 1
            else:
                raise AssertionError(f"{move} in {board.fen()}: {reason}")
    assert all(said.values()), said


# -- python-chess's own moves -----------------------------------------------------------------


def test_a_legal_move_stands_for_itself():
    for board in random_boards(60, seed=17):
        for move in board.legal_moves:
            assert read_move(board, move) == move


@pytest.mark.parametrize(("rook", "king"), [("e1h1", "e1g1"), ("e1a1", "e1c1")])
def test_castling_by_the_rooks_square_is_the_boards_own_castling(rook, king):
    board = "4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1"
    assert read_move(board, chess.Move.from_uci(rook)) == chess.Move.from_uci(king)
    assert read_move(board, chess.Move.from_uci(king)) == chess.Move.from_uci(king)


@pytest.mark.parametrize(
    ("uci", "kind", "part"),
    [
        ("f1b5", IllegalMove, "the bishop on f1 cannot reach b5"),
        ("e7e5", IllegalMove, "it is White's move"),
        ("0000", MalformedMove, "a pass is no move of chess"),
        ("N@f3", MalformedMove, "this is not a move"),
    ],
)
def test_a_move_that_is_not_legal_gets_the_reason(uci, kind, part):
    with pytest.raises(kind, match=part) as caught:
        read_move("start", chess.Move.from_uci(uci))
    assert caught.value.text == uci


def test_a_pawn_that_becomes_nothing_is_asked_what_it_becomes():
    with pytest.raises(AmbiguousMove, match="the pawn becomes a piece on e8"):
        read_move("7k/4P3/8/8/8/8/8/4K3 w - - 0 1", chess.Move.from_uci("e7e8"))


@pytest.mark.parametrize("given", [None, 7, 12.5, b"e4", ["e4"], chess.E4, object(), chess.Move])
def test_what_is_neither_text_nor_move_is_refused(given):
    with pytest.raises(MalformedMove, match=r"a move is a text, such as 'Nf3', or a chess\.Move"):
        read_move("start", given)
