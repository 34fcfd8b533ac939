import chess
import pytest

from chessnb.facts._comparison import Comparison, line_name


@pytest.mark.parametrize(
    ("start", "other", "name"),
    [
        (chess.H8, chess.A1, "the a1-h8 diagonal"),
        (chess.A8, chess.H1, "the h1-a8 diagonal"),
        (chess.F8, chess.B4, "the a3-f8 diagonal"),
        (chess.H1, chess.H5, "the h-file"),
        (chess.A8, chess.D8, "the eighth rank"),
    ],
)
def test_a_line_has_one_name_from_wherever_it_is_seen(
    start: chess.Square, other: chess.Square, name: str
) -> None:
    assert line_name(start, other) == name
    assert line_name(other, start) == name


def compared(fen: str, san: str) -> Comparison:
    board = chess.Board(fen)
    return Comparison(board, board.parse_san(san))


def test_a_piece_that_was_taken_relieves_what_it_attacked() -> None:
    taken = compared("4k3/8/8/2b5/1P6/4N3/8/4K3 w - - 0 1", "bxc5")
    assert [str(piece) for piece in taken.turned(chess.WHITE, chess.BLACK, new=False)] == [
        "the knight on e3",
        "the pawn on c5",
    ]


def test_a_piece_that_retakes_keeps_the_moved_one_under_attack() -> None:
    # The pawn on a6 was attacked by b5, takes it, and is attacked by c4 now: nothing new.
    found = compared("4k3/8/p7/1P6/2P5/8/8/4K3 b - - 0 1", "axb5")
    assert found.turned(chess.BLACK, chess.WHITE, new=True) == ()
    assert found.turned(chess.BLACK, chess.WHITE, new=False) == ()


def test_the_board_is_left_alone() -> None:
    board = chess.Board()
    before = board.copy()
    Comparison(board, chess.Move.from_uci("e2e4")).threatens()
    assert board == before


def test_nothing_is_threatened_where_the_enemy_would_have_to_pass_in_check() -> None:
    # The knight forks king and rook: the rook is attacked, yet no pass is allowed.
    found = compared("r3k3/8/8/1N6/8/8/8/4K3 w - - 0 1", "Nc7+")
    assert found.threatens() == ()
    assert [attack.target.square for attack in found.attacks(by_moved=True)] == ["a8"]
