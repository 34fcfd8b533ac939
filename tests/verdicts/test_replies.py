"""The reply table: every legal reply, once, with what it does and the line that shows it."""

import chess
import pytest

from chessnb.errors import PositionError
from chessnb.lessons import Lesson
from chessnb.verdicts.replies import reply_table

NET = "7k/6pp/8/8/8/5N2/1Q6/6K1 b - - 0 1"
UNDEFENDED = "r3k3/2N2ppp/5p2/P7/8/8/5PPP/4K3 b - - 0 14"


def test_every_legal_reply_stands_in_one_row():
    table = reply_table(UNDEFENDED)
    board = chess.Board(UNDEFENDED)
    moves = [verdict.move for row in table.rows for verdict in row.verdicts]
    assert len(moves) == len(set(moves))
    assert set(moves) == set(board.legal_moves)


def test_the_line_counts_each_kind_once():
    table = reply_table(UNDEFENDED)
    counts = [int(part.split()[0]) for part in table.words.split(": ", 1)[1].split("; ")]
    assert sum(counts) == len(table.verdicts)


def test_the_fork_costs_a_rook_whatever_black_replies():
    table = reply_table(UNDEFENDED)
    assert all(verdict.kind == "loses" for verdict in table.verdicts)
    assert table.summary == "Black has 4 legal replies, and every one fails."
    assert {verdict.points for verdict in table.verdicts} == {5}


def test_replies_that_fail_to_the_same_mate_make_one_row():
    crowd = "6k1/1p3ppp/8/8/8/8/8/R3K3 b - - 0 1"
    table = reply_table(crowd, mate=1, within=1)
    texts = [row.text for row in table.rows]
    assert "3 replies that do not stop Ra8#" in texts
    for row in table.rows:
        assert len({verdict.words for verdict in row.verdicts}) == 1


def test_the_longest_resistance_is_named_where_every_reply_fails():
    table = reply_table("7k/8/8/6K1/8/8/8/R6Q b - - 0 1", mate=3)
    longest = table.longest_resistance
    assert longest is not None
    assert longest.moves == max(verdict.moves for verdict in table.verdicts)
    assert reply_table(chess.STARTING_FEN, mate=1, within=1).longest_resistance is None


def test_where_nothing_was_found_the_table_says_so_and_no_more():
    table = reply_table(chess.STARTING_FEN, mate=1, within=1)
    assert [row.text for row in table.rows] == ["20 replies"]
    [said] = {row.words for row in table.rows}
    assert said == "nothing wrong found in 1 move"
    html = table._repr_html_()
    assert said in html
    assert "nobody has proved that the reply is good" in html
    assert "refuted" not in html
    assert "replayed" not in html
    table = reply_table("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1", mate=2, within=2)
    assert any(row.text.endswith(" other replies") for row in table.rows)


def test_a_single_reply():
    table = reply_table("7k/8/8/8/8/8/6r1/7K w - - 0 1")
    assert table.words.startswith("White has 1 legal reply: ")


@pytest.mark.parametrize(
    ("fen", "ending"),
    [
        ("R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1", "checkmated"),
        ("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "stalemated"),
    ],
)
def test_no_reply_at_all(fen, ending):
    table = reply_table(fen)
    assert table.words == f"Black is {ending}"
    assert table.summary == f"Black is {ending}: there is no reply."
    assert table.rows == ()
    assert table.longest_resistance is None
    html = table._repr_html_()
    assert html.count("<p>") == 1  # it is said once
    assert "there is no reply" in html
    assert "<table>" not in html


@pytest.mark.thorough
def test_a_larger_budget_settles_more_replies():
    fen = "r3k2r/ppq2pp1/2p1pn2/4n2p/1b6/3P2PP/PPPNQPB1/R1B1K2R w KQkq - 2 13"

    def open_rows(budget):
        verdicts = reply_table(fen, budget=budget).verdicts
        return sum(verdict.kind == "not settled" for verdict in verdicts)

    assert open_rows(40_000) > open_rows(400_000)


def test_the_reply_that_was_played_stands_alone_and_is_named():
    lesson = Lesson.from_text("1. e4 e5 2. Qh5 Ke7 3. Qxe5#")
    table = reply_table(lesson.after("2. Qh5"), mate=1, within=1)
    assert table.played == chess.Move.from_uci("e8e7")
    (row,) = (row for row in table.rows if table.played in [one.move for one in row.verdicts])
    assert len(row.verdicts) == 1
    assert row.first.words == "mated in 1"
    assert "<i>(played" in table._repr_html_()
    assert table.last_move == chess.Move.from_uci("d1h5")


def test_promotions_and_castling_are_told_apart():
    table = reply_table("4k3/8/8/8/8/8/p7/4K2R w K - 0 1", mate=1, within=1)
    assert {"O-O", "Rh8+"} <= {verdict.san for verdict in table.verdicts}
    after = reply_table("4k3/8/8/8/8/8/p7/4K3 b - - 0 1", mate=1, within=1)
    assert {"a1=Q+", "a1=R+", "a1=B", "a1=N"} <= {verdict.san for verdict in after.verdicts}


def test_the_same_table_again():
    assert reply_table(UNDEFENDED) == reply_table(UNDEFENDED)
    assert reply_table(UNDEFENDED)._repr_html_() == reply_table(UNDEFENDED)._repr_html_()


def test_the_table_says_which_position_it_is():
    lesson = Lesson.from_text("1. e4 e5 2. Qh5 Ke7 3. Qxe5#")
    table = reply_table(lesson.after("2. Qh5"), mate=1, within=1)
    assert table.caption == "After 2. Qh5. Black to move."
    assert f"<p>{table.caption}</p>" in table._repr_html_()
    assert reply_table(table.fen, mate=1, within=1).caption == "Black to move."


def test_a_table_is_of_the_position_that_was_asked_about():
    board = chess.Board(UNDEFENDED)
    table = reply_table(board, within=1, mate=1)
    assert table.fen == table.board.fen() == board.fen() == UNDEFENDED
    assert {verdict.move for verdict in table.verdicts} == set(board.legal_moves)


def test_an_impossible_board_is_refused():
    with pytest.raises(PositionError):
        reply_table("8/8/8/8/8/8/8/K7 w - - 0 1")


def test_the_replies_that_take_on_one_square_alone():
    found = reply_table("3r2k1/5ppp/8/8/8/8/5PPP/3Q2K1 b - - 0 1", taking="d1")
    assert str(found) == "1... | replies | taking d1 | 1 | checkmate: Rxd1# | proved"
    sound = reply_table("4k3/8/8/3p4/4N3/8/8/4K3 b - - 0 1", taking="e4", **QUICK_LOOK)
    assert sound.summary == "Black has 1 way to take on e4; nothing is proved against it."
    two = reply_table("4k3/8/8/3p1p2/4N3/8/8/4K3 b - - 0 1", taking="e4", **QUICK_LOOK)
    assert two.summary == "Black has 2 ways to take on e4; nothing is proved against them."
    none = reply_table("4k3/8/8/8/4N3/8/8/4K3 b - - 0 1", taking="e4")
    assert none.summary == "Black cannot take on e4."
    fails = reply_table("1Q2kb1r/p2n1ppp/4q3/4p1B1/4P3/8/PPP2PPP/2KR4 b k - 1 16", taking="b8")
    assert fails.summary == "Black has 1 way to take on b8, and it fails."


QUICK_LOOK = {"mate": 1, "within": 1}
