"""Turning points: what is found, and what is not."""

import pytest

from chessnb import Lesson
from chessnb.teaching.turning_points import says_something, turning_points

GAME = """
1. e4 e5 2. Nf3 Nc6 3. Bc4 Nd4?! {A trap that everybody knows of.} 4. Nxe5 (4. c3) 4... Qg5
5. Nxf7?? Qxg2 6. Rf1 Qxe4+ 7. Be2 Nf3# 0-1
"""


def found(text, most=99):
    points, count = turning_points(Lesson.from_text(text), most=most)
    return {point.moment.numbered: point.reasons for point in points}, count


@pytest.mark.thorough
def test_glyphs_comments_sidelines_exchanges_and_mate_are_found():
    points, count = found(GAME)
    assert points["3... Nd4"][0] == "marked as a doubtful move"
    assert "the annotator stops here" in points["3... Nd4"]
    assert "a sideline leaves the game here" in points["4. Nxe5"]
    assert points["5. Nxf7"][0] == "marked as a serious mistake"
    assert points["7... Nf3#"] == ("checkmate",)
    assert points["5... Qxg2"] == ("Black offers the rook on h8",)
    assert count >= len(points)  # what stands near another stop may be left out


def test_quiet_moves_and_even_trades_are_not():
    points, _ = found("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. O-O f6 *")
    # The pawn on e5 is left to be taken for a while: not enough to stop a class.  What the trade
    # leaves behind is there to stay.
    assert points == {
        "4... dxc6": ("Black has doubled pawns on c6 and c7", "Black has the bishop pair")
    }


def test_a_piece_left_to_be_taken_is_found_at_once():
    points, _ = found("1. e4 e5 2. Qh5 Nc6 3. Qxf7+ Kxf7 *")
    assert points["3. Qxf7+"][0] == "White leaves the queen to be taken (queen for pawn, 8 points)"
    assert "3... Kxf7" not in points  # it takes what was left: nothing new
    points, _ = found("1. e4 d5 2. Bb5+ c6 3. a3 cxb5 *")
    assert points["3. a3"] == (
        "White leaves the bishop to be taken (3 points), and 3. Ba4 was better",
    )


@pytest.mark.thorough
def test_the_heaviest_are_taken_in_the_order_of_the_game():
    all_points, count = found(GAME)
    two, same_count = found(GAME, most=2)
    assert same_count == count
    assert list(two) == [move for move in all_points if move in two]
    assert "5. Nxf7" in two


def test_a_program_s_figures_are_no_comment():
    assert not says_something("+0.69/29 36s")
    assert not says_something("[%example 12] book")
    assert says_something("White wins a pawn")


def test_a_pass_in_the_game_is_no_turning_point():
    points, _ = found("1. e4 e5 2. Nf3 -- {nothing was played at all here} *")
    assert "2... --" not in points


def test_a_forced_mate_is_claimed_once_where_it_begins():
    """A back-rank mate in two; the moves after it only carry it out."""
    game = """[SetUp "1"]
[FEN "3r2k1/5ppp/8/8/8/8/1Q3PPP/3R2K1 w - - 0 1"]

1. Qb8 Rxb8 2. Rd8+ Rxd8 *"""
    points, _ = turning_points(Lesson.from_text(game), most=9)
    assert not any("mates" in reason for point in points for reason in point.reasons)
    mate = game.replace("1. Qb8 Rxb8 2. Rd8+ Rxd8 *", "1. Rxd8# 1-0")
    points, _ = turning_points(Lesson.from_text(mate), most=9)
    assert points[0].reasons == ("checkmate",)
    assert points[0].motifs[0] == "back-rank mate"


def test_a_win_that_was_passed_over_is_found():
    game = "1. e4 e5 2. Qh5 Nf6 3. Nf3 Nxh5 *"
    points, _ = turning_points(Lesson.from_text(game), most=9)
    found_here = {point.moment.numbered: point for point in points}
    mistake = found_here["3. Nf3"]
    assert mistake.reasons[0] == (
        "White leaves the queen to be taken (queen for pawn, 8 points), and 3. Qxe5+ was better"
    )
    assert mistake.signs[0].cell.startswith("claims.loses(lesson.before('3. Nf3'), 'Nf3'")
    assert "better='Qxe5+'" in mistake.signs[0].cell


def test_what_allowed_a_blow_is_told_with_it():
    """The bishop's pawn move lets the queen in: a mate that another move would have prevented."""
    game = "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7# 1-0"
    points, _ = turning_points(Lesson.from_text(game), most=9)
    mistake = next(point for point in points if point.moment.numbered == "3... Nf6")
    assert mistake.reasons[0].startswith("White can mate in 1 now, and 3... ")
    longer = """[SetUp "1"]
[FEN "3r2k1/5ppp/8/8/8/8/1Q3PPP/3R2K1 b - - 0 1"]

1... Rf8 2. Qxg7+ Kxg7 *"""
    for point in turning_points(Lesson.from_text(longer), most=9)[0]:
        assert not any(sign.kind == "cause" for sign in point.signs)


def test_a_mate_that_a_stop_tells_is_no_stop_of_its_own():
    game = """[SetUp "1"]
[FEN "6k1/3r1ppp/8/8/8/8/1Q3PPP/3R2K1 w - - 0 1"]

1. Qb8+ Rd8 2. Qxd8# 1-0"""
    points, _ = turning_points(Lesson.from_text(game), most=9)
    assert [point.moment.numbered for point in points] == ["1. Qb8+"]
    said = game.replace("Qxd8#", "Qxd8# {The back rank was never defended.}")
    points, _ = turning_points(Lesson.from_text(said), most=9)
    assert [point.moment.numbered for point in points] == ["1. Qb8+", "2. Qxd8#"]
