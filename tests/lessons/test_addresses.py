"""Positions are found by what a teacher says."""

import pytest

from chessnb import Lesson
from chessnb.errors import AddressError

GAME = """
1. e4 e5 2. Nf3 Nc6 3. Bb5 (3. Bc4 Bc5 (3... Nf6 4. Ng5 {the greedy knight}) 4. c3)
(3. d4 exd4 4. Nxd4) 3... a6 (3... Nf6 4. O-O Nxe4) 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6
8. c3 O-O *
"""


@pytest.fixture
def lesson():
    return Lesson.from_text(GAME)


@pytest.mark.parametrize(
    ("said", "address"),
    [
        ("3. Bb5", "3. Bb5"),
        ("3.Bb5", "3. Bb5"),
        ("3. Bb5!", "3. Bb5"),
        ("3. Bf1-b5", "3. Bb5"),
        ("3. f1b5", "3. Bb5"),
        ("3. ♗b5", "3. Bb5"),
        ("White's 3rd", "3. Bb5"),
        ("white's 3rd move", "3. Bb5"),
        ("White’s 3rd", "3. Bb5"),
        ("the 3rd move of White", "3. Bb5"),
        ("Black's 1st", "1... e5"),
        ("3... a6", "3... a6"),
        ("3…a6", "3... a6"),
        ("5. 0-0", "5. O-O"),
        ("8... O-O", "8... O-O"),
        ("Ba4", "4. Ba4"),
        ("start", "start"),
        ("end", "8... O-O"),
        # into sidelines, by their moves
        ("3. Bc4", "3. Bc4"),
        ("3. Bc4 Bc5 4. c3", "3. Bc4 Bc5 4. c3"),
        ("3. Bc4 Nf6 4. Ng5", "3. Bc4 Nf6 4. Ng5"),
        ("4. Ng5", "3. Bc4 Nf6 4. Ng5"),
        ("3... Nf6", "3... Nf6"),
        ("3. d4 exd4 4. Nxd4", "3. d4 exd4 4. Nxd4"),
        # a path along the main line, into a sideline
        ("2... Nc6 3. d4", "3. d4"),
    ],
)
def test_addresses(lesson, said, address):
    assert lesson.at(said).address == address


def test_every_moment_is_found_by_its_own_address(lesson):
    moments = list(lesson.moments())
    assert len(moments) == 16 + 3 + 2 + 3 + 3
    for moment in moments:
        assert lesson.at(moment.address) == moment
        assert lesson.after(moment.address).board.peek() == moment.move


def test_before_is_the_position_where_the_class_must_find_it(lesson):
    assert lesson.before("White's 3rd") == lesson.after("2... Nc6")
    assert lesson.before("1. e4") == lesson.start
    with pytest.raises(AddressError, match="nothing comes before a start"):
        lesson.before("start")


@pytest.mark.parametrize(
    ("said", "part"),
    [
        ("3. Be2", "White's 3rd move is 3. Bb5. The nearest positions are: "),
        ("3. Qe5", "3. Bb5, and Qe5 is not legal there (the queen on d1 cannot reach e5"),
        ("White's 9th", "White makes no 9th move: the main line ends with 8... O-O."),
        ("12. Qh5", "the main line ends with 8... O-O."),
        ("Qh5", "no move Qh5 is played in this lesson."),
        ("O-O", "this is played more than once: say the move number."),
        (
            "3. Bc4 Bc5 4. d3",
            "the lesson has 3. Bc4 Bc5, but not what should follow. "
            "The nearest positions are: 3. Bc4 Bc5 4. c3.",
        ),
        ("2. Nf3 9... Nc6", "9... stands where move 2 is due"),
        (14, "an address is a text"),
        ("", "name a move"),
        ("diagram 3", "the lesson has no position and no sideline of that name"),
        ("{", "no closing brace"),
        ("Q" * 5000, f"'{'Q' * 60}…': the lesson has no"),
    ],
)
def test_a_wrong_address_lists_what_is_near(lesson, said, part):
    with pytest.raises(AddressError) as caught:
        lesson.at(said)
    assert part in str(caught.value)
    for address in caught.value.nearest:
        assert lesson.at(address)


def test_the_same_move_elsewhere_is_named_first(lesson):
    with pytest.raises(AddressError) as caught:
        lesson.at("4. Re1")
    assert caught.value.nearest[0] == "6. Re1"


def test_a_set_up_position_keeps_its_own_numbers():
    lesson = Lesson.from_text(
        '[FEN "4k3/8/8/8/8/8/4P3/4K3 b - - 0 31"]\n[SetUp "1"]\n\n31... Kd7 32. e4 *'
    )
    assert lesson.at("31... Kd7").move.uci() == "e8d7"
    assert lesson.at("White's 32nd").san == "e4"
    assert lesson.at("Black's 31st").address == "31... Kd7"


def test_moments_walk_to_their_neighbours(lesson):
    moment = lesson.at("2... Nc6")
    assert moment.next.address == "3. Bb5"
    assert [branch.address for branch in moment.branches] == ["3. Bb5", "3. Bc4", "3. d4"]
    assert moment.after("3. Bc4 Nf6").address == "3. Bc4 Nf6"
    assert moment.after("Bb5").back == moment
    assert lesson.start.back is None
    assert lesson.end.next is None
    with pytest.raises(AddressError, match=r"Be2 does not follow 2\.\.\. Nc6.*3\. Bb5, 3\. Bc4"):
        moment.after("Be2")


def test_a_name_never_shadows_a_move():
    lesson = Lesson.from_text("1. e4 e5 ({2. Nf3:} 1... c5) ({end:} 1... c6) 2. Nf3 Nc6 *")
    assert lesson.at("2. Nf3").san == "Nf3"
    assert lesson.at("end").san == "Nc6"
    twice = Lesson.from_text("1. e4 e5 ({Better:} 1... c5) 2. Nf3 Nc6 ({Better:} 2... d6) *")
    with pytest.raises(AddressError, match="several sidelines have this name"):
        twice.at("Better")
