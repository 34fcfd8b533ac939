import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.facts import pressure
from chessnb.facts._pressure import forces

SENTENCES = [
    (
        # A battery on a file, and one behind a pawn on its diagonal of capture.
        "4k3/3r4/4p3/3p4/2P5/1BN5/3R4/3QK3 w - - 0 1",
        "d5",
        "d5: White attacks with 5 (pawn c4, knight c3, bishop b3 behind the pawn on c4, rook d2, "
        "queen d1 behind the rook on d2), Black defends with 2 (pawn e6, rook d7)",
    ),
    (
        # A rook behind its pawn on the file: a pawn does not take straight on.
        "4k3/8/8/3p4/3P4/8/3R4/4K3 w - - 0 1",
        "d5",
        "d5: White does not attack it, Black does not defend it",
    ),
    (
        "4k3/8/2n5/1B2p3/8/5N2/8/4K3 w - - 0 1",
        "e5",
        "e5: White attacks with 1 (knight f3), Black does not defend it; "
        "the knight on c6 does not count: pinned to the king on e8 by the bishop on b5",
    ),
    (
        # Along the pin a pinned piece may take.
        "4k3/8/8/4r3/8/8/4R3/4K3 b - - 0 1",
        "e2",
        "e2: Black attacks with 1 (rook e5), White defends with 1 (king e1)",
    ),
    (
        # What stands behind a pinned pawn cannot come to it.
        "7k/8/8/2p5/1P6/B7/8/1K5b w - - 0 1",
        "c5",
        "c5: White attacks with 2 (pawn b4, bishop a3 behind the pawn on b4), "
        "Black does not defend it",
    ),
    (
        "1r5k/8/8/2p5/1P6/B7/8/1K6 w - - 0 1",
        "c5",
        "c5: White does not attack it, Black does not defend it; the pawn on b4 does not count: "
        "pinned to the king on b1 by the rook on b8; the bishop on a3 does not count: "
        "behind the pinned pawn on b4",
    ),
    (
        # A rook behind an enemy rook.
        "3rk3/8/8/3n4/3r4/8/3R4/4K3 w - - 0 1",
        "d5",
        "d5: White does not attack it, Black defends with 2 (rook d4, rook d8); "
        "the rook on d2 does not count: behind Black's rook on d4",
    ),
    (
        "4k3/8/8/8/8/3p4/4K3/8 w - - 0 1",
        "d3",
        "d3: White attacks with 1 (king e2), Black does not defend it",
    ),
    (
        "4k3/8/8/8/2p5/3p4/4K3/8 w - - 0 1",
        "d3",
        "d3: White does not attack it, Black defends with 1 (pawn c4); "
        "the king on e2 does not count: the pawn on c4 would retake",
    ),
    (
        # The king takes last, when the defence has been traded off.
        "4k3/8/8/8/2p5/3p4/4K3/3R4 w - - 0 1",
        "d3",
        "d3: White attacks with 2 (rook d1, king e2), Black defends with 1 (pawn c4)",
    ),
    (
        "8/8/3k4/4p3/3K4/8/8/4R3 w - - 0 1",
        "e5",
        "e5: White attacks with 1 (rook e1), Black does not defend it; "
        "the king on d4 does not count: the king on d6 covers e5; "
        "the king on d6 does not count: the king on d4 covers e5",
    ),
    (
        # The king would step back along the rook's line.
        "4k3/8/8/8/r2Kp3/8/8/8 w - - 0 1",
        "e4",
        "e4: White does not attack it, Black does not defend it; "
        "the king on d4 does not count: the rook on a4 would retake",
    ),
]


@pytest.mark.parametrize(("fen", "square", "line"), SENTENCES)
def test_the_words(fen: str, square: str, line: str) -> None:
    assert pressure(fen, square).words == line


def test_an_empty_square_is_attacked_by_the_side_to_move_unless_told_otherwise() -> None:
    assert pressure("start", "f3").side == chess.WHITE
    assert pressure("start", "f3").attacked_by == 4  # two pawns, the knight, the queen behind
    assert pressure("start", "f3", side=chess.BLACK).attacked_by == 0
    assert pressure("start", "f3", side=chess.BLACK).defended_by == 4


def test_the_count_is_that_of_pieces_taken_off_one_after_another() -> None:
    """An independent count: lift those that can take, and look again."""
    seen = 0
    for board in random_boards(scaled(60), seed=1):
        for target in chess.SQUARES:
            for side in chess.COLORS:
                if target == board.king(side):
                    continue  # nothing ever takes back there
                attackers, _ = forces(board, side, target)
                kings = chess.SquareSet(board.kings)
                counted = {
                    chess.parse_square(force.piece.square) for force in attackers if force.counts
                }
                assert counted - set(kings) == _lifted(board, side, target), board.fen()
                seen += len(counted)
    assert seen > scaled(5000)


def _lifted(board: chess.Board, side: chess.Color, target: chess.Square) -> set[chess.Square]:
    found: set[chess.Square] = set()
    occupied = chess.SquareSet(board.occupied)
    while able := {
        square
        for square in board.attackers(side, target, occupied) & occupied
        if not board.kings & chess.BB_SQUARES[square] and not _uncovers(board, square, target)
    }:
        found |= able
        occupied -= chess.SquareSet(able)
    return found


def _uncovers(board: chess.Board, square: chess.Square, target: chess.Square) -> bool:
    """Say whether the piece's own king is attacked by more pieces once it has gone to the target."""
    moved = board.copy(stack=False)
    side = board.color_at(square)
    king = board.king(bool(side))
    assert king is not None
    moved.set_piece_at(target, moved.remove_piece_at(square))
    gone = moved.attackers(not side, king) - board.attackers(not side, king)
    return bool(gone)


def test_a_king_alone_counts_just_when_it_may_take() -> None:
    """FIDE Laws, article 3.9.2, as python-chess applies it."""
    seen = {True: 0, False: 0}
    for board in random_boards(scaled(900, least=300), seed=2):
        king = board.king(board.turn)
        assert king is not None
        for target in board.attacks(king) & chess.SquareSet(board.occupied_co[not board.turn]):
            attackers, _ = forces(board, board.turn, target)
            if any(force.counts for force in attackers if force.piece.name != "king"):
                continue
            (force,) = (force for force in attackers if force.piece.name == "king")
            assert force.counts == board.is_legal(chess.Move(king, target)), board.fen()
            seen[force.counts] += 1
    assert min(seen.values()) > scaled(20), seen


def test_a_king_counts_as_a_defender_only_where_it_could_take_back() -> None:
    # One attacker: it may; two: it may not.
    assert pressure("6k1/5p2/8/8/2B5/8/8/6K1 w - - 0 1", "f7").defended_by == 1
    assert pressure("6k1/5p2/8/6N1/2B5/8/8/6K1 w - - 0 1", "f7").defended_by == 0


def test_the_board_is_left_alone() -> None:
    board = chess.Board("4k3/3r4/4p3/3p4/2P5/1BN5/3R4/3QK3 w - - 0 1")
    before = board.copy()
    pressure(board, "d5")
    assert board == before


def test_the_picture_has_a_stroke_for_each_force_dashed_where_it_does_not_count() -> None:
    picture = pressure("4k3/8/2n5/1B2p3/8/5N2/8/4K3 w - - 0 1", "e5").picture
    marks = [(mark.role, mark.square, mark.to) for mark in picture.marks]
    assert marks == [("force", "f3", "e5"), ("blocked", "c6", "e5"), ("target", "e5", None)]
