import chess
import pytest

from chessnb.facts import ending
from chessnb.facts._ending_parts import _key_squares
from chessnb.facts._king_and_pawn import pawn_wins

TITLES = [
    ("start", ""),
    # A queen beside another piece, or three pieces: no ending yet.
    ("q3k1n1/8/8/8/8/8/8/Q3K1N1 w - - 0 1", ""),
    ("4k3/8/8/8/8/8/8/R1B1K1N1 w - - 0 1", ""),
    ("4k3/8/8/8/8/8/8/4K3 w - - 0 1", ""),
    ("4k3/pp6/8/8/8/8/PPP5/4K3 w - - 0 1", "a pawn ending, three pawns against two"),
    ("4k3/8/8/8/8/8/PPP5/4K3 w - - 0 1", "a pawn ending, three pawns against none"),
    ("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", "king and pawn against king"),
    ("4k3/4p3/8/8/8/8/8/4K3 w - - 0 1", "king and pawn against king"),
    ("r3k3/ppp5/8/8/8/8/PPPP4/R3K3 w - - 0 1", "a rook ending, four pawns against three"),
    ("rr2k3/ppp5/8/8/8/8/PPP5/RR2K3 w - - 0 1", "an ending with two rooks each, three pawns each"),
    ("3bk3/p7/8/8/8/8/P7/4KB2 w - - 0 1", "an ending with bishops of opposite colours, one pawn each"),
    ("2b1k3/p7/8/8/8/8/P7/4KB2 w - - 0 1", "an ending with bishops of one colour, one pawn each"),
    ("2n1k3/p7/8/8/8/8/P7/4KB2 w - - 0 1", "bishop against knight, one pawn each"),
    ("2b1k3/p7/8/8/8/8/P7/4KN2 w - - 0 1", "bishop against knight, one pawn each"),
    ("4k3/pp6/8/8/8/8/P7/R3K3 w - - 0 1", "rook and pawn against two pawns"),
    ("4k3/p7/8/8/8/8/8/3QK3 w - - 0 1", "queen against king and pawn"),
    ("4k3/8/8/8/8/8/8/3QK3 w - - 0 1", "queen against king"),
    ("r3k3/p7/8/8/8/8/P7/3QK3 w - - 0 1", "queen against rook, one pawn each"),
]  # fmt: skip


@pytest.mark.parametrize(("fen", "title"), TITLES)
def test_an_ending_is_called_by_its_name_in_both_colours(fen, title):
    assert ending(fen).title == title
    if fen != "start":
        assert ending(chess.Board(fen).mirror()).title == title


@pytest.mark.parametrize(
    ("fen", "kind", "side"),
    [
        ("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1", "direct", chess.BLACK),
        ("8/4k3/8/4K3/4P3/8/8/8 b - - 0 1", "direct", chess.WHITE),
        ("8/8/8/2k1K3/4P3/8/8/8 b - - 0 1", "direct", chess.WHITE),
        ("4k3/8/8/8/4K3/8/4P3/8 b - - 0 1", "distant", chess.WHITE),
        ("4k3/8/8/8/8/8/4K2P/8 b - - 0 1", "distant", chess.WHITE),
        ("8/8/4k3/8/2K5/8/7P/8 b - - 0 1", "diagonal", chess.WHITE),
        # Near misses: two squares between them; not on one line.
        ("8/4k3/8/8/4K3/8/4P3/8 b - - 0 1", None, None),
        ("8/5k2/8/4K3/4P3/8/8/8 b - - 0 1", None, None),
        # Not a pawn ending.
        ("8/4k3/8/4K3/4P3/8/8/R6r b - - 0 1", None, None),
    ],
)
def test_who_has_the_opposition(fen, kind, side):
    for board, owner in ((chess.Board(fen), side), (chess.Board(fen).mirror(), not side)):
        found = ending(board).opposition
        assert (found and found.kind) == kind
        assert found is None or found.side == owner


@pytest.mark.parametrize(
    ("fen", "squares", "reached"),
    [
        ("8/8/3k4/8/3KP3/8/8/8 w - - 0 1", "d6 e6 f6", False),
        ("4k3/8/5K2/8/4P3/8/8/8 w - - 0 1", "d6 e6 f6", True),
        ("8/4k3/8/4PK2/8/8/8/8 w - - 0 1", "d6 d7 e6 e7 f6 f7", False),
        ("k7/8/1K6/8/8/8/P7/8 w - - 0 1", "b7 b8", False),
        ("8/8/8/2k5/4p3/8/6K1/8 w - - 0 1", "d2 d3 e2 e3 f2 f3", False),
    ],
)
def test_the_key_squares_of_a_pawn(fen, squares, reached):
    found = ending(fen).key_squares
    assert " ".join(found.squares) == squares
    assert found.reached == reached


def test_there_are_no_key_squares_on_the_seventh_rank_or_of_two_pawns():
    assert ending("8/2k1P3/4K3/8/8/8/8/8 w - - 0 1").key_squares is None
    assert ending("4k3/8/8/8/8/8/P3P3/4K3 w - - 0 1").key_squares is None


def test_on_a_key_square_the_pawn_is_promoted_unless_it_is_lost():
    """Where it is drawn all the same, the lone king is nearer to the pawn; two are stalemate."""
    seen = drawn = stalemates = 0
    for pawn in range(8, 56):
        for own in _key_squares(pawn):
            for lone in chess.SQUARES:
                for turn in (chess.WHITE, chess.BLACK):
                    board = three(pawn, own, lone, turn)
                    if board is None:
                        continue
                    seen += 1
                    if not pawn_wins(board):
                        drawn += 1
                        left = chess.square_distance(lone, pawn) - (not turn)
                        if left >= chess.square_distance(own, pawn):
                            assert board.is_stalemate(), board.fen()
                            stalemates += 1
    assert seen > 15_000
    assert drawn < 1_000
    assert stalemates == 2


def three(pawn, own, lone, turn):
    if len({pawn, own, lone}) < 3:
        return None
    board = chess.Board(None)
    board.set_piece_at(pawn, chess.Piece(chess.PAWN, chess.WHITE))
    board.set_piece_at(own, chess.Piece(chess.KING, chess.WHITE))
    board.set_piece_at(lone, chess.Piece(chess.KING, chess.BLACK))
    board.turn = turn
    return board if board.is_valid() else None


def test_the_rule_of_the_square_agrees_with_the_exact_result():
    """A pawn whose king is far off wins just where the other king is outside its square."""
    seen = {True: 0, False: 0}
    for pawn in range(8, 56):
        own = chess.A1 if chess.square_file(pawn) > 3 else chess.H1
        for lone in chess.SQUARES:
            for turn in (chess.WHITE, chess.BLACK):
                board = three(pawn, own, lone, turn)
                if board is None or board.is_check():
                    continue
                found = ending(board)
                for runner in found.runners:
                    seen[runner.in_reach] += 1
                    if not runner.in_reach:
                        assert found.outcomes[0].winner == chess.WHITE, board.fen()
                    elif chess.square_rank(pawn) > 3:  # no time for the other king to help
                        assert found.outcomes[0].winner is None, board.fen()
    assert min(seen.values()) > 500


def test_the_outcome_is_told_for_either_side_to_move():
    found = ending("8/4k3/8/4K3/4P3/8/8/8 w - - 0 1")
    assert found.paragraphs[-1] == "With White to move it is drawn; with Black to move White wins."
    found = ending("8/8/8/4k3/4p3/8/4K3/8 w - - 0 1")
    assert found.paragraphs[-1] == "It is drawn, whoever is to move."
    found = ending("8/8/8/3k4/8/8/1q6/4K3 w - - 0 1")
    assert found.paragraphs == (
        "Queen against king.",
        "With White to move Black mates in 3 moves; with Black to move Black mates in 3 moves.",
    )


def test_how_the_rule_of_the_square_is_said():
    assert ending("8/8/8/1P3k2/8/8/8/6K1 w - - 0 1").paragraphs[2] == (
        "Black's king is outside the square of the pawn on b5: if the pawn runs, it comes too late."
    )
    assert ending("8/8/8/1P3k2/8/8/8/6K1 b - - 0 1").paragraphs[2] == (
        "Black's king is in the square of the pawn on b5."
    )
    # Something stands in the pawn's way, so it does not run.
    assert ending("8/1p6/8/1P3k2/8/8/8/6K1 w - - 0 1").runners == ()


def test_where_the_other_side_is_in_check_only_one_is_told():
    found = ending("8/8/8/4k3/8/8/8/R3K3 w - - 0 1")
    assert [outcome.turn for outcome in found.outcomes] == [chess.WHITE, chess.BLACK]
    found = ending("4k3/8/8/8/8/8/4Q3/4K3 b - - 0 1")
    assert [outcome.turn for outcome in found.outcomes] == [chess.BLACK]


def test_a_pawn_ending_with_pawns_on_both_sides_has_no_outcome():
    assert ending("4k3/p7/8/8/8/8/P7/4K3 w - - 0 1").outcomes == ()
