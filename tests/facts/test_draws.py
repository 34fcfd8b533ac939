import chess
import pytest
from boards import random_boards

from chessnb.facts import draws

SHUFFLE = ("Nf3", "Nf6", "Ng1", "Ng8")


def after(*moves: str, fen: str = chess.STARTING_FEN) -> chess.Board:
    board = chess.Board(fen)
    for san in moves:
        board.push_san(san)
    return board


SENTENCES = [
    # FIDE Laws, article 5.2.1.
    ("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "stalemate"),
    # Article 5.2.2.
    ("8/8/4k3/8/8/4K3/8/8 w - - 0 1", "dead position, neither side has the material to mate"),
    ("8/8/4k3/8/8/4K3/5B2/8 w - - 0 1", "dead position, neither side has the material to mate"),
    ("8/8/4k3/8/8/4K3/5N2/8 w - - 0 1", "dead position, neither side has the material to mate"),
    ("8/4b3/4k3/8/8/4K3/8/2B5 w - - 0 1", "dead position, neither side has the material to mate"),
    (
        "2b5/8/4k3/8/8/4K3/8/2B5 w - - 0 1",
        "none, and none to claim (0 half-moves without pawn move or capture); history not known",
    ),
    # Article 5.1.1: mate comes before everything.
    ("7k/6Q1/6K1/8/8/8/8/8 b - - 200 200", "no, checkmate"),
    # Articles 9.3.2 and 9.6.2.
    (
        "4k3/8/8/8/8/8/4P3/4K2R b - - 99 90",
        "Black may claim it: by writing down a move that completes fifty without pawn or capture; "
        "history not known",
    ),
    (
        "4k3/8/8/8/8/8/4P3/4K2R b - - 100 90",
        "Black may claim it: 50 moves by each side without pawn move or capture; history not known",
    ),
    (
        "4k3/8/8/8/8/8/4P3/4K2R b - - 150 120",
        "75 moves by each side without pawn move or capture",
    ),
    (
        "4k3/8/8/8/8/8/4P3/4K2R b - - 12 90",
        "none, and none to claim (12 half-moves without pawn move or capture); history not known",
    ),
]


@pytest.mark.parametrize(("fen", "words"), SENTENCES)
def test_the_words(fen: str, words: str) -> None:
    assert draws(fen).words == f"draw: {words}"


def test_repetition_may_be_claimed_from_the_third_time() -> None:
    # Article 9.2: the third time, and the move before it, if written down.
    assert draws(after(*SHUFFLE)).words == (
        "draw: none, and none to claim "
        "(the position has occurred twice, 4 half-moves without pawn move or capture)"
    )
    assert draws(after(*SHUFFLE, *SHUFFLE[:3])).words == (
        "draw: Black may claim it: by writing down Ng8, which repeats a position the third time"
    )
    third = draws(after(*SHUFFLE, *SHUFFLE))
    assert third.words == "draw: White may claim it: the position has occurred 3 times"
    assert not third.drawn


def test_the_fifth_time_ends_the_game_by_itself() -> None:
    # Article 9.6.1.
    fifth = draws(after(*SHUFFLE * 4))
    assert fifth.words == "draw: the position has occurred 5 times"
    assert fifth.may_be_claimed == ()


def test_a_lost_right_to_castle_makes_another_position() -> None:
    # Article 9.2.2: the possible moves must be the same.
    fen = "4k3/8/8/8/8/8/4P3/4K2R w K - 0 1"
    assert draws(after("Rh2", "Ke7", "Rh1", "Ke8", fen=fen)).occurrences == 1


def test_history_is_known_as_far_back_as_it_matters() -> None:
    assert draws("start").history_known
    assert not draws("4k3/8/8/8/8/8/4P3/4K2R w K - 5 9").history_known
    # The moves known do not go back to the last pawn move or capture.
    assert not draws(after("Rh2", fen="4k3/8/8/8/8/8/4P3/4K2R w K - 5 9")).history_known
    # A pawn has moved since: nothing older matters.
    assert draws(after("e4", fen="4k3/8/8/8/8/8/4P3/4K2R w K - 5 9")).history_known


def test_claims_are_those_of_python_chess() -> None:
    boards = [
        *random_boards(100, seed=10),
        *(after(*(SHUFFLE * 3)[:count]) for count in range(12)),
        *map(chess.Board, (fen for fen, _ in SENTENCES)),
    ]
    claimed = 0
    for board in boards:
        found = draws(board)
        over = found.drawn or found.checkmate
        assert bool(found.may_be_claimed) == (not over and board.can_claim_draw()), board.fen()
        assert (found.occurrences >= 3) == board.is_repetition(3)
        ended = board.is_stalemate() or board.is_insufficient_material()
        ended |= board.is_seventyfive_moves() or board.is_fivefold_repetition()
        assert bool(found.drawn) == (ended and not board.is_checkmate())
        claimed += bool(found.may_be_claimed)
    assert claimed >= 4


def test_the_board_is_left_alone() -> None:
    board = after(*SHUFFLE)
    before = board.copy()
    draws(board)
    assert board == before
    assert board.move_stack == before.move_stack
