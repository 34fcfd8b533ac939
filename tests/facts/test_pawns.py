import chess
import pytest
from boards import random_boards
from thoroughness import scaled

from chessnb.facts import files, pawns

SENTENCES = [
    ("start", "none isolated, doubled, passed or backward"),
    ("4k3/8/8/8/P7/8/8/4K3 w - - 0 1", "White isolated a4, passed a4"),
    # An isolated queen's pawn.
    ("4k3/pp3ppp/4p3/8/3P4/8/PP3PPP/4K3 w - - 0 1", "White isolated d4"),
    # The pawn on d6 cannot be defended by pawns, and its square d5 is covered.
    ("4k3/8/3p4/2p1p3/4P3/8/8/4K3 w - - 0 1", "White isolated e4; Black passed c5, backward d6"),
    # The neighbour stands beside it: it can still be defended.
    ("4k3/8/2pp4/8/4P3/8/8/4K3 w - - 0 1", "White isolated e4; Black passed c6"),
    (
        "4k3/2p5/2p5/8/8/2P5/8/4K3 b - - 0 1",
        "White isolated c3; Black isolated c6 c7, doubled c6 c7",
    ),
]


@pytest.mark.parametrize(("fen", "words"), SENTENCES)
def test_the_words(fen: str, words: str) -> None:
    assert pawns(fen).words == f"pawns: {words}"


@pytest.mark.parametrize(
    ("fen", "words"),
    [
        ("start", "none open or half-open"),
        (
            "4k3/8/8/8/8/8/PPPPPP2/4K3 w - - 0 1",
            "open g and h; half-open for Black a, b, c, d, e and f",
        ),
        (
            "4k3/pp3ppp/4p3/8/3P4/8/PP3PPP/4K3 w - - 0 1",
            "open c; half-open for White e; half-open for Black d",
        ),
    ],
)
def test_the_words_for_files(fen: str, words: str) -> None:
    assert files(fen).words == f"files: {words}"


def test_the_pawns_are_those_of_a_naive_definition() -> None:
    """Written with coordinates alone, from the definitions at the top of the module."""
    seen = dict.fromkeys(("isolated", "doubled", "passed", "backward"), 0)
    for board in random_boards(scaled(400), seed=8, longest=160):
        found = pawns(board)
        for color, structure in ((True, found.white), (False, found.black)):
            for kind, wanted in naive(board, color).items():
                assert list(getattr(structure, kind)) == sorted(wanted), (kind, board.fen())
                seen[kind] += len(wanted)
    assert min(seen.values()) > scaled(20), seen


def places(board: chess.Board, color: chess.Color) -> list[tuple[int, int]]:
    """Return file and rank of a side's pawns, ranks counted from its own side."""
    squares = [
        square
        for square in chess.SQUARES
        if board.piece_at(square) == chess.Piece(chess.PAWN, color)
    ]
    return [(square % 8, square // 8 if color else 7 - square // 8) for square in squares]


def naive(board: chess.Board, color: chess.Color) -> dict[str, list[str]]:
    own = places(board, color)
    # The enemy's pawns, with ranks counted from our side.
    enemy = [(file, 7 - rank) for file, rank in places(board, not color)]
    found: dict[str, list[str]] = {
        kind: [] for kind in ("isolated", "doubled", "passed", "backward")
    }
    for file, rank in own:
        name = "abcdefgh"[file] + str(rank + 1 if color else 8 - rank)
        beside = [other for other in own if abs(other[0] - file) == 1]
        if not beside:
            found["isolated"].append(name)
        if sum(other[0] == file for other in own) > 1:
            found["doubled"].append(name)
        if not any(abs(other[0] - file) <= 1 and other[1] > rank for other in enemy):
            found["passed"].append(name)
        covered = any(abs(other[0] - file) == 1 and other[1] == rank + 2 for other in enemy)
        if beside and covered and all(other[1] > rank for other in beside):
            found["backward"].append(name)
    return found


def test_the_files_are_those_of_a_naive_definition() -> None:
    for board in random_boards(scaled(200), seed=9, longest=160):
        white, black = ({file for file, _ in places(board, color)} for color in (True, False))
        found = files(board)
        for number, letter in enumerate("abcdefgh"):
            assert (letter in found.open) == (number not in white | black)
            assert (letter in found.half_open_for_white) == (number in black - white)
            assert (letter in found.half_open_for_black) == (number in white - black)


def test_the_pictures_show_the_ways() -> None:
    picture = pawns("4k3/8/8/8/P7/8/8/4K3 w - - 0 1").picture
    marks = [(mark.role, mark.square, mark.to) for mark in picture.marks]
    assert marks == [("target", "a4", None), ("force", "a4", "a8")]
    ways = files("4k3/pp3ppp/4p3/8/3P4/8/PP3PPP/4K3 w - - 0 1").picture.marks
    assert [(mark.square, mark.to) for mark in ways] == [("c1", "c8"), ("d8", "d1"), ("e1", "e8")]
