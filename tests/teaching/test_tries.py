"""What a student hears of a try: honest, and silent about the lesson's move."""

import itertools
from pathlib import Path

import chess
import pytest

from chessnb import Lesson
from chessnb.proof import TooWild, settled
from chessnb.teaching.tries import SETTLING, answer, compared, without_hidden
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.move_verdict import Verdict
from chessnb.widgets.branch_explorer import TRY_DEPTH

DEMO = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
UNPROVED = "Not proved either way: ask your teacher."
DEPTH = Depth(mate=2, within=2, budget=50_000)


def told(fen: str, move: str, lesson: str | None) -> tuple[str, str]:
    board = chess.Board(fen)
    lesson_move = board.parse_san(lesson) if lesson else None
    said = answer(board, board.parse_san(move), lesson_move=lesson_move, depth=DEPTH)
    return said.kind, said.sentence


def test_mate_is_as_good_as_the_lessons_mate():
    two_mates = "6k1/5ppp/8/8/8/8/8/R2QK3 w - - 0 1"
    kind, sentence = told(two_mates, "Qd8#", "Ra8#")
    assert kind == "good"
    assert sentence == "As good as the lesson's move: checkmate."


def test_a_slower_mate_is_right_in_part():
    kind, sentence = told("7k/8/5K2/8/8/8/6Q1/8 w - - 0 1", "Kf7", "Qg7#")
    assert kind == "part"
    assert "faster mate" in sentence


def test_a_refuted_try_comes_with_its_line():
    blunder = chess.Board("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1")
    said = answer(blunder, blunder.parse_san("Rb3"), depth=DEPTH)
    assert said.kind == "refuted"
    assert said.sentence == "After Rb3 White is mated in 2."
    assert said.written == "1. Rb3 Ra1+ 2. Rb1 Rxb1#"


def test_where_nothing_was_found_that_is_said_and_that_nobody_has_proved_more():
    for lesson in ("d4", None):
        assert told(chess.STARTING_FEN, "e4", lesson) == (
            "open",
            "I found nothing wrong with it in 2 moves. Nobody has proved that it is good.",
        )


def test_not_settled_is_kept_for_a_search_that_ran_out():
    board = chess.Board(BACK_RANK)
    short = Depth(mate=5, within=5, budget=1)
    said = answer(board, board.parse_san("Kd2"), depth=short)
    assert (said.kind, said.sentence) == ("open", UNPROVED)


def test_a_draw_is_said_to_be_one_and_settled():
    stalemate = "7k/8/6K1/8/8/8/8/5Q2 w - - 0 1"  # made for this test
    assert told(stalemate, "Qf7", "Qf8#") == ("open", "Stalemate, a draw; but there is more.")
    assert told(stalemate, "Qf7", "Kh5")[1] == "Stalemate, a draw."


def test_a_quiet_try_beside_a_win_is_not_called_wrong():
    kind, sentence = told(BACK_RANK, "Kd2", "Ra8#")
    assert kind == "open"
    assert "The lesson's move is proved to win; yours is not checked that far." in sentence


def test_where_captures_have_no_end_nothing_is_settled():
    queens = "qqqqqqk1/8/8/8/8/8/5PPP/QQQQQ1K1 w - - 0 1"  # made for this test
    with pytest.raises(TooWild):
        settled(chess.Board(queens), positions=SETTLING)
    assert told(queens, "h4", "h3")[0] == "open"


KINDS = [
    "checkmate",
    "mates",
    "wins",
    "stalemate",
    "draw",
    "nothing",
    "offers",
    "loses",
    "mated",
    "not settled",
]


@pytest.mark.parametrize(("tried", "own"), list(itertools.product(KINDS, KINDS)))
def test_no_answer_gives_the_lessons_move_away(tried, own):
    board = chess.Board(BACK_RANK)
    one = Verdict(
        fen=BACK_RANK, move=board.parse_san("Kd2"), kind=tried, moves=2, points=3, pieces="a bishop"
    )
    other = Verdict(
        fen=BACK_RANK, move=board.parse_san("Ra8#"), kind=own, moves=2, points=3, pieces="a bishop"
    )
    said = compared(one, other)
    assert "Ra8" not in said.sentence + said.written
    if tried in ("loses", "mated"):
        assert said.kind == ("open" if one.rank <= other.rank else "refuted")
        assert ("does no better" in said.sentence) == (said.kind == "open")
    else:
        assert said.kind != "refuted", "only what is proved to lose is refuted"
    if tried == "not settled":
        assert said.kind == "open"
    assert (UNPROVED in said.sentence) == (tried == "not settled")
    assert ("nothing wrong" in said.sentence) == (tried == "nothing")
    assert ("What does White get for it?" in said.sentence) == (tried == "offers")
    if "nothing" in (tried, own):
        assert "As good" not in said.sentence, "nobody has proved it"
    if said.kind == "good" and own not in ("not settled", "offers"):
        assert one.rank <= other.rank or {tried, own} == {"stalemate", "draw"}


@pytest.mark.parametrize(
    ("after", "tried"), [("4. d4", "h6"), ("7. Re1", "Ng4"), ("3. Bb5", "Nf6")]
)
def test_ordinary_tries_in_the_demos_game_are_settled(after: str, tried: str) -> None:
    moment = Lesson.read(DEMO).after(after)
    assert moment.next is not None
    own, move = moment.next.move, moment.board.parse_san(tried)
    said = answer(moment.board, move, lesson_move=own, depth=TRY_DEPTH)
    assert said.sentence != UNPROVED


def test_a_line_is_cut_before_what_the_lesson_still_hides():
    board = chess.Board("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1")
    said = answer(board, board.parse_san("Rb3"), depth=DEPTH)
    cut = without_hidden(said, board, frozenset({"b a2a1"}))
    assert cut.written == ""
    assert cut.sentence == "After Rb3 White is mated in 2. Which answer shows it?"
    later = without_hidden(said, board, frozenset({"b a1b1"}))
    assert later.written == "1. Rb3 Ra1+ 2. Rb1"
    assert without_hidden(said, board, frozenset({"w a2a1"})) == said


def test_of_an_offer_the_taking_is_shown_for_it_is_said():
    board = chess.Board("4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1")
    said = answer(board, board.parse_san("Qd4"), depth=DEPTH)
    assert said.sentence == "The queen can be taken (9 points). What does White get for it?"
    assert without_hidden(said, board, frozenset({"b d5d4"})) == said
