import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.errors import PositionError
from chessnb.facts import exchange

WORTH = {"p": 1, "n": 3, "b": 3, "r": 5, "q": 9, "k": 0}

SENTENCES = [
    (
        "4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1",
        "d5",
        "d5: White gains 1 point by taking there (cxd5 exd5 Nxd5)",
    ),
    (
        "4k3/8/4p3/3p4/8/8/8/3QK3 w - - 0 1",
        "d5",
        "d5: White loses 8 points by taking there (Qxd5 exd5)",
    ),
    (
        "4k3/8/4p3/3n4/8/2N5/8/4K3 w - - 0 1",
        "d5",
        "d5: White gains nothing by taking there, an even trade (Nxd5 exd5)",
    ),
    ("4k3/8/4p3/3n4/8/8/8/4K3 w - - 0 1", "d5", "d5: White cannot take there"),
    # En passant counts where the pawn lands (FIDE Laws, article 3.7.3.1).
    (
        "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1",
        "d6",
        "d6: White gains 1 point by taking there (exd6)",
    ),
    # Five for the rook and eight for the promotion.
    (
        "r5k1/1P6/8/8/8/8/8/6K1 w - - 0 1",
        "a8",
        "a8: White gains 13 points by taking there (bxa8=Q+)",
    ),
    # The retaken queen costs nine: a rook and a pawn's promotion stay.
    (
        "rr4k1/1P6/8/8/8/8/8/6K1 w - - 0 1",
        "a8",
        "a8: White gains 4 points by taking there (bxa8=Q Rxa8)",
    ),
    # A pinned defender does not take back.
    (
        "4k3/8/2n5/1B2p3/8/5N2/8/4K3 w - - 0 1",
        "e5",
        "e5: White gains 1 point by taking there (Nxe5)",
    ),
    # Nor does a king where a second attacker stands behind.
    (
        "6k1/5p2/8/6N1/2B5/8/8/6K1 w - - 0 1",
        "f7",
        "f7: White gains 1 point by taking there (Nxf7)",
    ),
]


@pytest.mark.parametrize(("fen", "square", "line"), SENTENCES)
def test_the_words(fen: str, square: str, line: str) -> None:
    assert exchange(fen, square).words == line


def test_the_gain_is_nothing_where_one_had_better_not_begin() -> None:
    found = exchange("4k3/8/4p3/3p4/8/8/8/3QK3 w - - 0 1", "d5")
    assert (found.gain, found.started) == (0, -8)


def test_the_other_side_may_begin_as_if_the_side_to_move_passed() -> None:
    found = exchange("4k3/8/4p3/3p4/2P5/8/8/4K3 w - - 0 1", "c4", side=chess.BLACK)
    assert (found.side, found.gain, found.sequence) == (chess.BLACK, 1, ("dxc4",))


def test_in_check_the_side_to_move_cannot_pass() -> None:
    fen = "4k3/8/8/3p4/2P5/8/4r3/4K3 w - - 0 1"
    with pytest.raises(PositionError, match="in check and cannot pass"):
        exchange(fen, "c4", side=chess.BLACK)
    assert exchange(fen, "c4").started is None


def test_the_gain_is_that_of_a_plain_search() -> None:
    """A brute force that shares no code: all legal captures on the square, no memory."""
    compared = gained = lost = 0
    for board in random_boards(scaled(250), seed=3, longest=80):
        for target in {move.to_square for move in board.legal_moves if board.is_capture(move)}:
            found = exchange(board, target)
            wanted = _plain_start(board, target)
            assert found.started == wanted, (board.fen(), chess.square_name(target))
            assert found.gain == max(0, wanted or 0)
            compared += 1
            gained += found.gain > 0
            lost += (found.started or 0) < 0
    assert compared > scaled(500)
    assert gained > scaled(100)
    assert lost > scaled(100)


def _plain_start(board: chess.Board, target: chess.Square) -> int | None:
    results = []
    for move in list(board.legal_moves):
        if move.to_square == target and board.is_capture(move):
            before = _balance(board)
            board.push(move)
            won = -_balance(board) - before
            reply = _plain_start(board, target)
            board.pop()
            results.append(won - max(0, reply or 0))
    return max(results, default=None)


def _balance(board: chess.Board) -> int:
    """Return the points of the side to move above the other's."""
    own = sum(WORTH[piece.symbol().lower()] for piece in _pieces(board, board.turn))
    return own - sum(WORTH[piece.symbol().lower()] for piece in _pieces(board, not board.turn))


def _pieces(board: chess.Board, color: chess.Color) -> list[chess.Piece]:
    return [piece for piece in board.piece_map().values() if piece.color == color]


def test_the_sequence_can_be_played_and_ends_with_the_points_it_says() -> None:
    longest = 0
    for board in random_boards(scaled(200), seed=4, longest=80):
        for target in {move.to_square for move in board.legal_moves if board.is_capture(move)}:
            found = exchange(board, target)
            played = board.copy(stack=False)
            start = _balance(played)
            for san in found.sequence:
                move = played.parse_san(san)
                assert move.to_square == target
                played.push(move)
            end = _balance(played) if played.turn == board.turn else -_balance(played)
            assert end - start == found.started
            longest = max(longest, len(found.sequence))
    assert longest >= 4


def test_the_board_is_left_alone() -> None:
    board = chess.Board("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1")
    before = board.copy()
    exchange(board, "d5")
    exchange(board, "c4", side=chess.BLACK)
    assert board == before


def test_the_picture_shows_who_attacks_the_square() -> None:
    picture = exchange("4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1", "d5").picture
    assert [(mark.role, mark.square) for mark in picture.marks] == [
        ("force", "c3"),
        ("force", "c4"),
        ("target", "d5"),
    ]
