"""The recall drill: what is asked, hints, where it went wrong, what was different, what comes back."""

import random
from datetime import UTC, datetime, timedelta

import chess
import pytest
from quizzes import OPERA

from chessnb import Lesson, recall
from chessnb.errors import IllegalMove, InputError, LessonError, MalformedMove
from chessnb.notation import write_line
from chessnb.teaching.class_record import ClassRecord
from chessnb.teaching.recall import Schedule

START = datetime(2026, 1, 31, 10, tzinfo=UTC)


class Clock:
    """A clock that goes only when it is told to."""

    def __init__(self):
        self.at = START

    def __call__(self):
        return self.at

    def wait(self, **time):
        self.at += timedelta(**time)


@pytest.fixture
def clock():
    return Clock()


def long_game(moves=40, seed=7):
    """A legal game of so many moves, played at random: only its length matters."""
    chance = random.Random(seed)
    board = chess.Board()
    while len(board.move_stack) < 2 * moves:
        legal = [move for move in board.legal_moves if not _ends(board, move)]
        board.push(chance.choice(legal))
    return Lesson.from_text(write_line(chess.Board(), board.move_stack))


def _ends(board, move):
    after = board.copy()
    after.push(move)
    return after.is_game_over(claim_draw=False)


def play(drill, clock, *, wrong_at=(), seconds=10):
    """Answer a whole drill, with one wrong move before each of some moves."""
    while (stop := drill.stop) is not None:
        number = len(drill.summary.attempts)
        if number in wrong_at:
            other = next(move for move in stop.board.legal_moves if move != stop.move)
            assert drill.answer(other).result == "wrong"
        clock.wait(seconds=seconds)
        assert drill.answer(stop.move).result == "right"


def test_a_game_failed_at_three_points_brings_back_those_on_later_days(clock):
    lesson = long_game()
    drill = recall.drill(lesson, side="White", clock=clock)
    assert len(drill.stops) == 40
    play(drill, clock, wrong_at=(4, 17, 33))
    missed = {drill.stops[number].key for number in (4, 17, 33)}
    assert {one.stop.key for one in drill.summary.missed} == missed
    schedule = drill.scheduled(Schedule())
    assert schedule.due(clock()) == frozenset()
    assert schedule.due(clock() + timedelta(hours=20)) == frozenset()
    assert schedule.due(clock() + timedelta(days=2)) == missed
    assert schedule.due(clock() + timedelta(days=3650)) == missed  # and never the others

    clock.wait(days=2)
    again = recall.drill(lesson, side="White", only=schedule.due(clock()), clock=clock)
    assert [one.key for one in again.stops] == [drill.stops[number].key for number in (4, 17, 33)]
    play(again, clock, wrong_at=(1,))
    later = again.scheduled(schedule)
    known = [later.due_at(again.stops[number].key) for number in (0, 2)]
    assert all(at > clock() + timedelta(days=1) for at in known)
    assert later.due_at(again.stops[1].key) <= min(known)
    assert again.scheduled(schedule) == later, "the same history gives the same days"


def test_what_is_known_again_and_again_stays_away_longer_and_longer(clock):
    lesson = long_game(moves=3)
    drill = recall.drill(lesson, side="White", clock=clock)
    play(drill, clock, wrong_at=(0,))
    schedule, gaps = drill.scheduled(Schedule()), []
    for _ in range(4):
        (due,) = [schedule.due_at(key) for key in schedule.cards]
        gaps.append(due - clock())
        clock.at = due
        again = recall.drill(lesson, side="White", only=schedule.due(clock()), clock=clock)
        play(again, clock)
        schedule = again.scheduled(schedule)
    assert gaps == sorted(gaps)
    assert gaps[-1] > 3 * gaps[0]


def test_a_line_is_asked_for_one_side_or_both(clock):
    both = recall.drill(OPERA, clock=clock)
    assert len(both.stops) == 33
    black = recall.drill(OPERA, side="Black", clock=clock)
    assert len(black.stops) == 16
    assert black.prompt == "White has played 1. e4. What does Black play?"
    tail = recall.drill(OPERA.after("15... Nxd7"), side="White", clock=clock)
    assert [stop.written for stop in tail.stops] == ["16. Qb8+", "17. Rd8#"]
    assert tail.answer("queen b8 check").sentence == "Right: 16. Qb8+."
    assert tail.prompt == "Black has played 16... Nxb8. What does White play?"


def test_nothing_that_is_asked_gives_the_move_away(clock):
    drill = recall.drill(OPERA, side="White", clock=clock)
    for stop in drill.stops:
        assert stop.node.san().rstrip("+#") not in stop.prompt.rpartition(". What")[2]
        assert stop.node.san() not in " ".join(stop.hints[:3])


def test_hints_go_from_the_region_to_the_square(clock):
    drill = recall.drill(OPERA.before("9. Bg5"), side="White", clock=clock)
    told = [drill.hint() for _ in range(6)]
    assert told == [
        "Look at the kingside.",
        "It is a move of a bishop.",
        "It attacks the knight on f6.",
        "It goes to g5.",
        "It goes to g5.",
        "It goes to g5.",
    ]
    drill.answer("Bg5")
    (attempt,) = drill.summary.attempts
    assert (attempt.hints, attempt.grade) == (4, "hard")


TWO_LINES = Lesson.from_text(
    "1. e4 e5 2. Nf3 d6 3. d4 Bg4 (3... exd4 4. Nxd4 Nf6) (3... Nd7 4. Bc4 c6) 4. dxe5 Bxf3 "
    "5. Qxf3 dxe5 6. Bc4 Nf6"
)


def test_a_move_of_another_line_is_named_with_what_is_different_there(clock):
    drill = recall.drill(TWO_LINES.after("3... Bg4"), side="White", clock=clock)
    assert drill.answer("Bc4").sentence == (
        "Bc4 is not the move of this line. Bc4 belongs to 3... Nd7 4. Bc4; there Black's knight "
        "stands on d7 (here on b8) and Black's bishop stands on c8 (here on g4)."
    )


def test_a_move_that_comes_later_is_told_so(clock):
    drill = recall.drill(TWO_LINES.after("4... Bxf3"), side="White", clock=clock)
    assert drill.answer("Bc4").sentence == (
        "Bc4 is not the move of this line. Bc4 comes 1 move later."
    )


def test_a_move_that_stands_nowhere_is_just_another_one(clock):
    drill = recall.drill(OPERA, side="White", clock=clock)
    assert drill.answer("a3").sentence == "a3 is not the move of this line."


def test_after_three_wrong_moves_it_is_shown_and_goes_on(clock):
    drill = recall.drill(OPERA, side="White", clock=clock)
    results = [drill.answer(move).result for move in ("a3", "a4", "h3")]
    assert results == ["wrong", "wrong", "shown"]
    assert drill.stop.written == "2. Nf3"
    assert drill.show().sentence == "It is 2. Nf3."
    first, second = drill.summary.attempts
    assert (first.wrong, first.shown, second.wrong, second.shown) == (
        ("a3", "a4", "h3"), True, (), True,
    )  # fmt: skip


def test_what_cannot_be_played_is_no_try(clock):
    drill = recall.drill(OPERA, side="White", clock=clock)
    with pytest.raises(IllegalMove):
        drill.answer("Bg5")
    with pytest.raises(MalformedMove):
        drill.answer("foo")
    drill.answer("e4")
    assert drill.summary.attempts[0].wrong == ()


def test_the_summary_says_what_was_known_and_where_it_went_wrong(clock):
    drill = recall.drill(TWO_LINES.after("3... Bg4"), side="White", clock=clock)
    drill.answer("Bc4")
    drill.answer("dxe5")
    drill.hint()
    drill.answer("Qxf3")
    drill.answer("Bc4")
    assert str(drill.summary).splitlines() == [
        "1 of 3 moves known, 1 with a hint, 1 missed.",
        "4. dxe5 (you played Bc4). Bc4 belongs to 3... Nd7 4. Bc4; there Black's knight stands on "
        "d7 (here on b8) and Black's bishop stands on c8 (here on g4).",
    ]
    with pytest.raises(LessonError, match="the drill has ended"):
        drill.answer("e4")


def test_time_is_taken_from_the_clock(clock):
    drill = recall.drill(OPERA, side="White", clock=clock)
    for seconds, move in ((2, "e4"), (15, "Nf3"), (300, "d4")):
        clock.wait(seconds=seconds)
        drill.answer(move)
    assert [one.grade for one in drill.summary.attempts] == ["easy", "good", "hard"]


def test_what_has_no_line_is_refused():
    with pytest.raises(LessonError, match="the line ends here"):
        recall.drill(OPERA.end)
    with pytest.raises(InputError, match="a line begins with"):
        recall.drill("1. e4 e5")
    with pytest.raises(LessonError, match="no move to ask for"):
        recall.drill(OPERA, only=[])


def test_a_record_keeps_what_comes_back_and_deletes_it_with_the_student(tmp_path, clock):
    record = ClassRecord(tmp_path / "record.sqlite")
    assert record.schedule("Rook") == Schedule()
    drill = recall.drill(long_game(moves=4), side="White", clock=clock)
    play(drill, clock, wrong_at=(1,))
    schedule = drill.scheduled(Schedule())
    record.keep_schedule("Rook", schedule)
    assert record.schedule(" Rook ") == schedule
    record.delete("Rook")
    assert record.schedule("Rook") == Schedule()
    assert drill.stops[1].key.encode() not in record.path.read_bytes()
